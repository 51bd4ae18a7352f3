/** The answer once more, with the exact words that go on record, before it is sent. */

import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import { agreeText, declineText } from "./choice.js";
import { type OwnerFrame, OwnerFramed, textsOf } from "./ownerFrame.js";
import { type AnswerTexts, type EstimateView, OWNER_PATHS } from "./view.js";

interface CheckPageProps {
  readonly here: string;
  readonly frame: OwnerFrame;
  readonly view: EstimateView;
  readonly answer: keyof AnswerTexts;
}

export const CheckPage = ({ frame, view, answer, here }: CheckPageProps) => {
  const { paper, unit, tongue, sheet, choice, work, texts: recorded, typed } = view;
  const { check: texts, head } = textsOf(view);
  const taken = sheet.options.filter(({ id }) => choice.chosen.includes(id)).map(({ names }) => names.join("; "));
  const left = sheet.options.filter(({ id }) => !choice.chosen.includes(id)).map(({ names }) => names.join("; "));
  const struck = work.filter(({ id }) => choice.struck.includes(id)).map(({ title }) => title);
  const declines = answer === "declined";
  return (
    <OwnerFramed frame={frame} view={view} title={texts.title} here={here}>
      <h1>{texts.title}</h1>
      <p>{texts.notSent}</p>
      <dl class="facts checked">
        <Fact name={texts.estimate}>
          <span class="whole">{head.ref(paper.number, paper.revision)}</span>
          {`, ${day(paper.date, tongue.locale)}: ${unit.maker} ${unit.model}`}
        </Fact>
        <Fact name={texts.yourAnswer}>{texts.acts[answer]}</Fact>
        {declines ? (
          view.earlier ? (
            <Fact name={textsOf(view).inShort.stands(view.earlier.revision)}>{money(view.earlier.total, tongue)}</Fact>
          ) : (
            <Fact name={view.begun ? texts.ifDeclined : texts.owed}>{texts.atMost(money(sheet.ifDeclined, tongue))}</Fact>
          )
        ) : (
          <>
            <List name={texts.taken} of={taken} none={left.length > 0 ? texts.none : ""} />
            <List name={texts.left} of={left} />
            <List name={texts.struck} of={struck} />
            <Fact name={texts.total}>
              <strong>{money(sheet.totals.total, tongue)}</strong>
            </Fact>
            <Fact name={texts.ceiling}>{money(sheet.ceiling, tongue)}</Fact>
          </>
        )}
        <Fact name={texts.by}>{typed?.name ?? ""}</Fact>
      </dl>
      <p>{texts.onRecord}</p>
      <blockquote>{recorded[answer]}</blockquote>
      <form method="post" action={OWNER_PATHS.agreement} novalidate>
        <Carried name="hash" values={[paper.contentHash]} />
        <Carried name="chosen" values={choice.chosen} />
        <Carried name="struck" values={choice.struck} />
        <Carried name="begun" values={declines ? [view.begun ? "yes" : "no"] : []} />
        <Carried name="amount" values={[String(sheet.totals.total)]} />
        <Carried name="name" values={[typed?.name ?? ""]} />
        <Carried name="text" values={typed?.question ? [typed.question] : []} />
        <p class="actions">
          <button type="submit" name="answer" value={answer} class="primary">
            {declines ? declineText(view) : agreeText(view)}
          </button>
          <button type="submit" formaction={OWNER_PATHS.price} class="quiet">
            {texts.goBack}
          </button>
        </p>
      </form>
    </OwnerFramed>
  );
};

const Fact = ({ name, children }: { name: string; children?: unknown }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);

const List = ({ name, of, none = "" }: { name: string; of: readonly string[]; none?: string }) =>
  of.length === 0 && none === "" ? null : (
    <Fact name={name}>
      {of.length === 0
        ? none
        : of.map((one, index) => (
            <>
              {index > 0 ? <br /> : null}
              {one}
            </>
          ))}
    </Fact>
  );

const Carried = ({ name, values }: { name: string; values: readonly string[] }) => (
  <>
    {values.map((value) => (
      <input type="hidden" name={name} value={value} />
    ))}
  </>
);
