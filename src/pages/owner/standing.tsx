/** Where the revision stands with its owner: to be answered, answered, past its day, or replaced. */
import type { Minor } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import { textsOf } from "./ownerFrame.js";
import { type EstimateView, OWNER_PATHS, type OwnerAnswer } from "./view.js";

export const Standing = ({ view }: { view: EstimateView }) => {
  const { state, answer, paper, tongue, account, paid } = view;
  const texts = textsOf(view).standing;
  const until = day(paper.validUntil, tongue.locale);
  return (
    <section class="standing" aria-label={texts.label}>
      {account ? (
        <div class="receipt" id="account">
          <h2>{texts.closed[account.is]}</h2>
          {account.notDone.length > 0 ? <p>{texts.notDone(account.notDone.join("; "))}</p> : null}
          <p>
            {texts.account(day(account.on, tongue.locale), money(account.total, tongue), account.corrected)}{" "}
            <strong>
              {account.due < 0 ? texts.paidBack(money(-account.due, tongue)) : texts.stillToPay(money(account.due, tongue))}
            </strong>
            .
          </p>
          <p class="screen">
            <a href={OWNER_PATHS.account} download>
              {texts.accountPdf}
            </a>
          </p>
        </div>
      ) : null}
      {state.is === "superseded" ? (
        <p class="replaced">
          <strong>{texts.replaced(state.revision)}</strong> {texts.notAnyMore}{" "}
          <a href={state.href}>{texts.openRevision(state.revision)}</a>
        </p>
      ) : null}
      {state.is === "answered" && state.since ? (
        <p>
          <strong>{texts.since[state.since.is](state.since.revision)}</strong> {texts.stillStands}{" "}
          <a href={state.since.href}>{texts.openRevision(state.since.revision)}</a>
        </p>
      ) : null}
      {state.is === "open" ? (
        <p>
          {texts.open} <strong>{until}</strong>.
        </p>
      ) : null}
      {state.is === "lapsed" ? (
        <p class="replaced">
          <strong>{texts.ended(until)}</strong>
          {texts.afterEnd}
        </p>
      ) : null}
      {view.takenBack.toReversed().map((each) => (
        <Answered view={view} answer={each} />
      ))}
      {answer ? <Answered view={view} answer={answer} /> : null}
      {!account && state.is === "answered" && paid.deposit > 0 && (view.earlier || answer?.answer !== "declined") ? (
        <p class="hint">{texts.deposit(money(paid.deposit, tongue))}</p>
      ) : null}
      {paid.found && paid.total !== undefined && state.is === "answered" ? (
        <p id="found">{texts.found(money(paid.found, tongue), money(paid.total, tongue))}</p>
      ) : null}
      {paid.paid > 0 ? (
        <p id="paid">
          {texts.paid(
            money(paid.paid, tongue),
            paid.due === undefined || account ? undefined : money(Math.abs(paid.due), tongue),
            paid.due !== undefined && paid.due < 0
              ? "back"
              : answer?.answer === "declined" && !view.earlier
                ? "now"
                : "once done",
          )}
        </p>
      ) : null}
      {!account && (state.is === "open" || (state.is === "answered" && answer?.answer !== "declined")) ? (
        <p>
          {view.ready
            ? `${[texts.readyOn(day(view.ready, tongue.locale)), view.sheet.notCounted].filter(Boolean).join(" ")} `
            : ""}
          <a class="screen" href={OWNER_PATHS.calendar}>
            {state.is === "open" ? texts.lastDay : texts.readyDay}
          </a>
        </p>
      ) : null}
    </section>
  );
};

const Answered = ({ view, answer }: { view: EstimateView; answer: OwnerAnswer }) => {
  const { tongue } = view;
  const texts = textsOf(view).standing;
  return (
    <div class="receipt">
      <h2>{texts.answers[answer.answer]}</h2>
      <p>
        {texts.by(answer.by, texts.channels[answer.channel], answer.at)} {answer.correction ? texts.corrects : ""}
      </p>
      {answer.amount === undefined ? null : (
        <p>
          {[
            texts.amount(money(answer.amount, tongue), answer.ceiling === undefined ? undefined : money(answer.ceiling, tongue)),
            ...(answer.options.length > 0 ? [texts.optionsTaken(answer.options.join("; "))] : []),
            ...(answer.struck.length > 0 ? [texts.leftOut(answer.struck.join("; "))] : []),
          ].join(" ")}
        </p>
      )}
      <blockquote>{answer.wording}</blockquote>
      <p class="hint">
        {texts.receipt} <code>{answer.receipt}</code>. {texts.receiptWhy}
      </p>
    </div>
  );
};

/** What the owner asks first: how much, at most how much, what if not, how long. Follows the ticks until it is settled. */
export const InShort = ({ view }: { view: EstimateView }) => {
  const { account, answer, earlier, paid, state, paper } = view;
  const texts = textsOf(view).inShort;
  const owing =
    paid.due === undefined ? [] : [paid.due < 0 ? figureOf(texts.paidBack, -paid.due) : figureOf(texts.toPay, paid.due)];
  const settled = paid.paid > 0 ? [figureOf(texts.paidSoFar, paid.paid), ...owing] : owing;
  const declined = answer?.answer === "declined";
  const then = thenText(view, earlier === undefined);
  const note =
    declined && earlier ? [texts.declinedThis(paper.revision, earlier.revision), then].filter(Boolean).join(" ") : then;
  if (account) return <Headed view={view} name={texts.account} amount={account.total} figures={settled} note={note} />;
  if (declined && earlier)
    return (
      <Headed
        view={view}
        name={texts.stands(earlier.revision)}
        amount={earlier.total}
        figures={[figureOf(texts.ceiling, earlier.ceiling), ...settled]}
        note={note}
      />
    );
  if (declined && state.is === "answered")
    return (
      <Headed view={view} name={texts.declined} amount={mostOwed(view)} figures={paid.paid > 0 ? settled : []} note={note} />
    );
  return <Offered view={view} />;
};

/** Looking may still come to what was promised for it. */
const mostOwed = ({
  sheet: { ifDeclined },
  agreedThen: { amount, upTo } = { amount: 0, upTo: ifDeclined },
}: EstimateView): Minor => Math.min(ifDeclined + amount, Math.max(upTo, ifDeclined));

const figureOf = (name: string, amount: Minor) => ({ name, amount });

/** Settled: by the account, or by an answer that leaves what was agreed before. */
const Headed = ({
  view,
  name,
  amount,
  figures,
  note,
}: {
  view: EstimateView;
  name: string;
  amount: Minor;
  figures: readonly ReturnType<typeof figureOf>[];
  note?: string | undefined;
}) => (
  <section class="card in-short" id="in-short" aria-labelledby="in-short-name">
    <h2 class="unseen" id="in-short-name">
      {textsOf(view).inShort.name}
    </h2>
    <p class="total" id="total">
      <span class="total-name">{name}</span> <strong>{money(amount, view.tongue)}</strong>
    </p>
    {note ? <p class="hint">{note}</p> : null}
    <dl class="figures">
      {figures.map((each) => (
        <Figure name={each.name} value={money(each.amount, view.tongue)} />
      ))}
    </dl>
  </section>
);

const thenText = ({ agreedThen: then, ...view }: EstimateView, within: boolean): string | undefined =>
  then && textsOf(view).inShort.agreedThen(money(then.amount, view.tongue), within);

const Offered = ({ view }: { view: EstimateView }) => {
  const { sheet, tongue, paper, earlier } = view;
  const texts = textsOf(view).inShort;
  const { totals, ceiling, ifDeclined, deposit, days } = sheet;
  const paid = Math.min(view.paid.paid, deposit);
  // Until when, what if not, and what stood before, is settled by then.
  const agreed = view.ready !== undefined;
  return (
    <section class="card in-short" id="in-short" data-follows aria-labelledby="in-short-name">
      <h2 class="unseen" id="in-short-name">
        {texts.name}
      </h2>
      <p class="total" id="total">
        <span class="total-name">{texts.total(totals.tax !== 0)}</span> <strong>{money(totals.total, tongue)}</strong>
      </p>
      {view.agreedThen ? <p class="hint">{thenText(view, false)}</p> : null}
      <dl class="figures">
        {prepaidNow(view) === 0 ? null : (
          <Figure name={texts.due} value={money(totals.due, tongue)}>
            {texts.paid(money(totals.prepaid, tongue))}
          </Figure>
        )}
        {earlier && !agreed ? (
          <Figure name={texts.agreedIn(earlier.revision)} value={money(earlier.total, tongue)}>
            {texts.agreedWhy}
          </Figure>
        ) : null}
        <Figure name={texts.ceiling} value={money(ceiling, tongue)}>
          {[sheet.billed, sheet.raised, texts.ceilingWhy].filter(Boolean).join(" ")}
        </Figure>
        {deposit === 0 ? null : (
          <Figure name={texts.deposit} value={money(deposit, tongue)}>
            {paid === 0
              ? texts.depositWhy
              : view.paid.begun && paid < deposit
                ? texts.depositBegun(money(paid, tongue))
                : texts.depositPaid(money(paid, tongue), paid === deposit ? undefined : money(deposit - paid, tongue))}
          </Figure>
        )}
        {earlier || agreed ? null : (
          <Figure name={texts.ifDeclined} value={money(ifDeclined, tongue)}>
            {texts.ifDeclinedWhy}
          </Figure>
        )}
        <Figure name={texts.ready} value={texts.days(days)}>
          {texts.readyWhy}
          {sheet.notCounted ? ` ${sheet.notCounted}` : ""}
        </Figure>
        {agreed ? null : <Figure name={texts.until} value={day(paper.validUntil, tongue.locale)} />}
      </dl>
    </section>
  );
};

/** What the estimate counts as paid already: once payments are on record, they are told instead. */
export const prepaidNow = ({ sheet: { totals }, paid }: EstimateView): Minor =>
  paid.paid > 0 && paid.paid !== totals.prepaid ? 0 : totals.prepaid;

const Figure = ({ name, value, children }: { name: string; value: string; children?: unknown }) => (
  <div class="told">
    <dt>
      {name}
      {children ? <span class="hint">{children}</span> : null}
    </dt>
    <dd>{value}</dd>
  </div>
);
