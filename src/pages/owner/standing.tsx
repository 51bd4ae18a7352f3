/** Where the revision stands with its owner: to be answered, answered, past its day, or replaced. */
import { money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import { type EstimateView, OWNER_PATHS, type OwnerAnswer } from "./view.js";

export const Standing = ({ view }: { view: EstimateView }) => {
  const { state, answer, paper, tongue, account, paid } = view;
  const until = day(paper.validUntil, tongue.locale);
  return (
    <section class="standing" aria-label="Where this estimate stands">
      {account ? (
        <div class="receipt" id="account">
          <h2>{account.declined ? "The unit was handed back" : "The work is done"}</h2>
          <p>
            Final account of {day(account.on, tongue.locale)}: total {money(account.total, tongue)}, tax included;{" "}
            <strong>
              {account.due < 0
                ? `${money(-account.due, tongue)} to be paid back to you`
                : `${money(account.due, tongue)} still to pay`}
            </strong>
            .
          </p>
          <p class="screen">
            <a href={OWNER_PATHS.account}>Final account as PDF</a>
          </p>
        </div>
      ) : null}
      {state.is === "superseded" ? (
        <p class="replaced">
          <strong>Revision {state.revision} has taken the place of this one.</strong> This one can no longer be agreed to.{" "}
          <a href={state.href}>Open revision {state.revision}</a>
        </p>
      ) : null}
      {state.is === "open" ? (
        <p>
          We do nothing that you have not agreed to. This offer is good until <strong>{until}</strong>.
        </p>
      ) : null}
      {state.is === "lapsed" ? (
        <p class="replaced">
          <strong>This offer ended on {until}</strong>, so it can no longer be agreed to. You may still decline it, or ask us for
          a new one below.
        </p>
      ) : null}
      {answer ? <Answered view={view} answer={answer} /> : null}
      {!account && state.is === "answered" && paid.deposit > 0 && answer?.answer !== "declined" ? (
        <p class="hint">Deposit before we start: {money(paid.deposit, tongue)}.</p>
      ) : null}
      {paid.paid > 0 ? (
        <p id="paid">
          Paid so far: {money(paid.paid, tongue)}
          {paid.due === undefined || account
            ? ""
            : `; still to pay once the work is done: ${money(Math.max(0, paid.due), tongue)}`}
          .
        </p>
      ) : null}
      {!account && (state.is === "open" || (state.is === "answered" && answer?.answer !== "declined")) ? (
        <p class="screen">
          <a href={OWNER_PATHS.calendar}>
            {state.is === "open" ? "Put the last day in your calendar" : "Put the day it should be ready in your calendar"}
          </a>
        </p>
      ) : null}
    </section>
  );
};

const DONE: Readonly<Record<OwnerAnswer["answer"], string>> = {
  agreed: "Agreed",
  "part agreed": "Agreed in part",
  declined: "Declined",
};

const CHANNEL: Readonly<Record<OwnerAnswer["channel"], string>> = {
  page: "on this page",
  "in person": "in person",
  telephone: "by telephone",
  "e-mail": "by e-mail",
};

const Answered = ({ view: { tongue }, answer }: { view: EstimateView; answer: OwnerAnswer }) => (
  <div class="receipt">
    <h2>{DONE[answer.answer]}</h2>
    <p>
      By {answer.by}, {CHANNEL[answer.channel]}, {answer.at}.{answer.correction ? " This corrects an earlier answer." : ""}
    </p>
    {answer.amount === undefined ? null : (
      <p>
        Total {money(answer.amount, tongue)}
        {answer.ceiling === undefined ? "" : `, ceiling ${money(answer.ceiling, tongue)}`}.
        {answer.options.length > 0 ? ` Options taken: ${answer.options.join("; ")}.` : ""}
        {answer.struck.length > 0 ? ` Left out: ${answer.struck.join("; ")}.` : ""}
      </p>
    )}
    <blockquote>{answer.wording}</blockquote>
    <p class="hint">
      Receipt <code>{answer.receipt}</code>. Keep it: it shows that this answer stands on record as it is. If it is not what you
      meant, tell us.
    </p>
  </div>
);

/** What the owner asks first: how much, at most how much, what if not, how long. Follows the ticks. */
export const InShort = ({ view: { sheet, tongue, paper } }: { view: EstimateView }) => {
  const { totals, ceiling, ifDeclined, deposit, days } = sheet;
  return (
    <section class="card in-short" id="in-short" data-follows aria-labelledby="in-short-name">
      <h2 class="unseen" id="in-short-name">
        In short
      </h2>
      <p class="total" id="total">
        <span class="total-name">Total{totals.tax === 0 ? "" : ", tax included"}</span>{" "}
        <strong>{money(totals.total, tongue)}</strong>
      </p>
      <dl class="figures">
        {totals.prepaid === 0 ? null : (
          <Figure name="Still due" value={money(totals.due, tongue)}>
            {money(totals.prepaid, tongue)} is paid already.
          </Figure>
        )}
        <Figure name="Ceiling" value={money(ceiling, tongue)}>
          We stop and ask you before the bill passes it.
        </Figure>
        {deposit === 0 ? null : (
          <Figure name="Deposit" value={money(deposit, tongue)}>
            To be paid before we start; part of the total.
          </Figure>
        )}
        <Figure name="If you decline once it is open" value={money(ifDeclined, tongue)}>
          The most you would owe for finding the fault, opening and closing it.
        </Figure>
        <Figure name="Ready in about" value={counted(days, "day")}>
          From your answer.
        </Figure>
        <Figure name="Good until" value={day(paper.validUntil, tongue.locale)} />
      </dl>
    </section>
  );
};

const Figure = ({ name, value, children }: { name: string; value: string; children?: unknown }) => (
  <div class="told">
    <dt>
      {name}
      {children ? <span class="hint">{children}</span> : null}
    </dt>
    <dd>{value}</dd>
  </div>
);
