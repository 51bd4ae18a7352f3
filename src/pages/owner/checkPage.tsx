/** The answer once more, with the exact words that go on record, before it is sent. */

import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import { agreeText, declineText } from "./choice.js";
import { type OwnerFrame, OwnerFramed } from "./ownerFrame.js";
import { type AnswerTexts, type EstimateView, OWNER_PATHS } from "./view.js";

interface CheckPageProps {
  readonly frame: OwnerFrame;
  readonly view: EstimateView;
  readonly answer: keyof AnswerTexts;
}

export const CheckPage = ({ frame, view, answer }: CheckPageProps) => {
  const { shop, paper, unit, tongue, sheet, choice, work, texts, typed } = view;
  const taken = sheet.options.filter(({ id }) => choice.chosen.includes(id)).map(({ names }) => names.join("; "));
  const left = sheet.options.filter(({ id }) => !choice.chosen.includes(id)).map(({ names }) => names.join("; "));
  const struck = work.filter(({ id }) => choice.struck.includes(id)).map(({ title }) => title);
  const declines = answer === "declined";
  return (
    <OwnerFramed frame={frame} shop={shop} title="Check your answer">
      <h1>Check your answer</h1>
      <p>It is not sent yet.</p>
      <dl class="facts checked">
        <Fact name="Estimate">
          {`${paper.number}, revision ${paper.revision}, ${day(paper.date, tongue.locale)}: ${unit.maker} ${unit.model}`}
        </Fact>
        <Fact name="Your answer">{declines ? "Decline" : answer === "agreed" ? "Agree" : "Agree in part"}</Fact>
        {declines ? (
          <Fact name="If you decline once it is open">{money(sheet.ifDeclined, tongue)} at most</Fact>
        ) : (
          <>
            <List name="Options taken" of={taken} none={left.length > 0 ? "none" : ""} />
            <List name="Options left" of={left} />
            <List name="Work left out" of={struck} />
            <Fact name="Total">
              <strong>{money(sheet.totals.total, tongue)}</strong>
            </Fact>
            <Fact name="Ceiling">{money(sheet.ceiling, tongue)}</Fact>
          </>
        )}
        <Fact name="Name">{typed?.name ?? ""}</Fact>
      </dl>
      <p>These words go on record:</p>
      <blockquote>{texts[answer]}</blockquote>
      <form method="post" action={OWNER_PATHS.agreement} novalidate>
        <Carried name="hash" values={[paper.contentHash]} />
        <Carried name="chosen" values={choice.chosen} />
        <Carried name="struck" values={choice.struck} />
        <Carried name="amount" values={[String(sheet.totals.total)]} />
        <Carried name="name" values={[typed?.name ?? ""]} />
        <p class="actions">
          <button type="submit" name="answer" value={answer} class="primary">
            {declines ? declineText(view) : agreeText(view)}
          </button>
          <button type="submit" formaction={OWNER_PATHS.price} class="quiet">
            Go back and change it
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
