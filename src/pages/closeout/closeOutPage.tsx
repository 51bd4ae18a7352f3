/** Closing a job: what was logged, what is left to say, and the account as it would be. */
import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import type { Minor, Minutes } from "../../estimating/input.js";
import {
  accountBasisText,
  adjustmentTitle,
  duration,
  limitText,
  lineTitle,
  money,
  notChargedText,
  type Tongue,
} from "../../wording/index.js";
import { key } from "../form/fields.js";
import { Box, Pick, type SmallForm } from "../frame/box.js";
import { ErrorSummary } from "../frame/errorSummary.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "../revise/jobFrame.js";
import { doneField, PAID_FOR, rowsIn } from "./closeFields.js";

export interface WorkRow {
  readonly id: string;
  readonly title: string;
  readonly count: number;
  readonly ticked?: number;
  readonly allowed: Minutes;
  readonly logged: Minutes;
  readonly pieces: number;
  readonly used: number;
}

export interface PossibleWork {
  readonly id: string;
  readonly title: string;
  /** Work on it was logged, so it proved necessary. */
  readonly logged: boolean;
}

export interface CloseOutPageProps extends SmallForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly work: readonly WorkRow[];
  readonly opening: { readonly allowed: Minutes; readonly logged: Minutes };
  readonly possible: readonly PossibleWork[];
  readonly found: readonly string[];
  readonly account?: FinalAccount;
  /** Faults of the log, which are put right there. */
  readonly logFaults: readonly string[];
  /** Parts of the log that name no pieces. */
  readonly unnamedParts: number;
  readonly freight: Minor;
  readonly toPay: { readonly deposit: Minor; readonly diagnosis: Minor; readonly prepaid: Minor };
  /** Id of the close-out that is corrected. */
  readonly corrects?: string;
}

export const CloseOutPage = (props: CloseOutPageProps) => {
  const { frame, job, errors, corrects, logFaults, account } = props;
  const over = account !== undefined && account.held.over > 0;
  return (
    <JobFramed frame={frame} job={job} title={corrects ? "Correct the close-out" : "Close out"} wrong={errors.size > 0}>
      <ErrorSummary errors={errors} />
      {logFaults.length > 0 ? (
        <section class="to-do" id="log-faults">
          <h2>To put right in the work log</h2>
          <ul>
            {logFaults.map((text) => (
              <li>{text}</li>
            ))}
          </ul>
          <p>
            <a href={`/jobs/${job.id}/work-log`}>Open the work log</a>
          </p>
        </section>
      ) : null}
      <Logged {...props} />
      <form method="post" action={`/jobs/${job.id}/close-out`} id="close" novalidate>
        <input type="hidden" name="token" value={props.fields.get("token")} />
        {corrects ? <input type="hidden" name="corrects" value={corrects} /> : null}
        <input type="hidden" name="seen" value={account?.totals.total ?? props.fields.get("seen") ?? ""} />
        <Found {...props} />
        <Terms {...props} />
        <Payments {...props} />
        <CostsPart {...props} />
        {over || errors.has("above.reason") || props.fields.get("above.reason") ? <Above {...props} /> : null}
        {account ? <Account account={account} tongue={props.tongue} /> : null}
        <fieldset class="part">
          <legend>{corrects ? "Correct it" : "Close the job"}</legend>
          <p class="hint">
            {corrects
              ? "The record that stands is kept, and the corrected account takes its place."
              : "The account is printed and kept as it is. After that no more time or parts are logged; a mistake is put right by a correction on top."}
          </p>
          <div class="columns">
            <Box {...props} name="by" label="Your name" autocomplete="name" />
            {corrects ? <Box {...props} name="reason" label="Why it is corrected" size="long" /> : null}
          </div>
        </fieldset>
        <p class="actions">
          <button type="submit" name="intent" value="show" class="quiet">
            Work out the account
          </button>
          <button type="submit" name="intent" value="close" class="primary">
            {corrects ? "Correct the close-out" : "Close the job"}
          </button>
        </p>
      </form>
    </JobFramed>
  );
};

const Logged = ({ job, work, opening, tongue, unnamedParts }: CloseOutPageProps) => (
  <section aria-labelledby="logged-name">
    <h2 id="logged-name">What was logged</h2>
    {unnamedParts > 0 ? (
      <p class="wrong">
        {unnamedParts} {unnamedParts === 1 ? "entry tells" : "entries tell"} only what parts sold for, not which pieces; they are
        not in the figures below. <a href={`/jobs/${job.id}/work-log`}>Log the pieces</a> to have them in.
      </p>
    ) : null}
    <section class="scroll" tabindex={0} aria-label="Work, time and pieces">
      <table class="lines" id="logged">
        <caption class="unseen">Time and parts logged against what is allowed</caption>
        <thead>
          <tr>
            <th scope="col">Work</th>
            {["Agreed count", "Time allowed", "Time logged", "Pieces allowed", "Pieces used"].map((name) => (
              <th scope="col" class="figure">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">Opening and refitting</th>
            <td class="figure" />
            <td class="figure">{duration(opening.allowed, tongue.locale)}</td>
            <td class="figure">{opening.logged === 0 ? "none" : duration(opening.logged, tongue.locale)}</td>
            <td class="figure" />
            <td class="figure" />
          </tr>
          {work.map(({ title, count, allowed, logged, pieces, used }) => (
            <tr>
              <th scope="row">{title}</th>
              <td class="figure">{count}</td>
              <td class="figure">{duration(allowed, tongue.locale)}</td>
              <td class="figure">{logged === 0 ? "none" : duration(logged, tongue.locale)}</td>
              <td class="figure">{pieces === 0 ? "" : pieces}</td>
              <td class="figure">{pieces === 0 && used === 0 ? "" : used}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  </section>
);

const Found = (props: CloseOutPageProps) => {
  const { work, possible, found, errors } = props;
  const open = work.some(({ id }) => errors.has(doneField(id)) || (props.fields.get(doneField(id)) ?? "") !== "");
  return (
    <>
      {possible.length > 0 ? (
        <fieldset class="part ticks">
          <legend>Which possible work proved necessary</legend>
          {possible.map(({ id, title, logged }) => (
            <div class="field tick">
              <input
                type="checkbox"
                id={`found.${key(id)}`}
                name="found"
                value={id}
                checked={logged || found.includes(id)}
                disabled={logged}
              />
              <label for={`found.${key(id)}`}>
                {title}
                {logged ? <span class="why"> work on it was logged</span> : null}
              </label>
            </div>
          ))}
        </fieldset>
      ) : null}
      <details class="fold" id="counts" open={open}>
        <summary>Counts that were not all done</summary>
        <p class="hint">As ticked off at the bench. An empty box means that all of it was done; 0 means that none was.</p>
        <div class="columns">
          {work.map(({ id, title }) => (
            <Box {...props} name={doneField(id)} label={title} size="figure" />
          ))}
        </div>
      </details>
    </>
  );
};

const Terms = (props: CloseOutPageProps) => (
  <fieldset class="part">
    <legend>The account</legend>
    <div class="columns">
      <Pick
        {...props}
        name="basis"
        label="Basis"
        options={(["fixed price", "time and parts"] as const).map((basis) => [basis, accountBasisText(basis)] as const)}
      />
      <Box {...props} name="closedOn" label="Day" type="date" />
      <Box {...props} name="warrantyDays" label="Days of warranty" size="figure" />
      <Pick
        {...props}
        name="oldParts"
        label="Parts that were replaced"
        options={[
          ["returned", "are returned to the owner"],
          ["kept", "are kept"],
        ]}
      />
      <Box {...props} name="oldParts.why" label="Why they are kept" hint="Such as an exchange part." size="long" />
    </div>
  </fieldset>
);

const Payments = (props: CloseOutPageProps) => {
  const { toPay, tongue } = props;
  const asked = [
    ...(toPay.deposit > 0 ? [`a deposit of ${money(toPay.deposit, tongue)}`] : []),
    ...(toPay.diagnosis > 0 ? [`a diagnosis fee of ${money(toPay.diagnosis, tongue)}`] : []),
  ];
  return (
    <fieldset class="part">
      <legend>What the owner paid already</legend>
      {asked.length > 0 ? <p class="hint">The estimate asked for {asked.join(" and ")}. Tax included.</p> : null}
      {toPay.prepaid > 0 ? (
        <p class="hint">
          The estimate counted {money(toPay.prepaid, tongue)} as paid already: give the day it came, or clear the amount.
        </p>
      ) : null}
      {Array.from({ length: rowsIn(props.fields, "payments") }, (_, row) => (
        <div class="beside">
          <Box {...props} name={`payments.${row}.on`} label="Day" type="date" />
          <Box {...props} name={`payments.${row}.amount`} label="Amount" size="money" />
          <Pick
            {...props}
            name={`payments.${row}.for`}
            label="For"
            options={PAID_FOR.map((each) => [each, each === "other" ? "another payment" : each] as const)}
          />
        </div>
      ))}
    </fieldset>
  );
};

const CostsPart = (props: CloseOutPageProps) => (
  <fieldset class="part">
    <legend>What it cost the shop</legend>
    <p class="hint">
      Never on the owner's papers. Without it the job's margin is not known.
      {props.freight > 0
        ? ` Parts are known from the work log; freight was reckoned at ${money(props.freight, props.tongue)}.`
        : ""}
    </p>
    <Box {...props} name="hour" label="An hour at the bench costs" hint="Wages and what goes with them." size="money" />
    {Array.from({ length: rowsIn(props.fields, "other") }, (_, row) => (
      <div class="beside">
        <Box {...props} name={`other.${row}.what`} label="Other cost" />
        <Box {...props} name={`other.${row}.amount`} label="Amount" size="money" />
      </div>
    ))}
  </fieldset>
);

const Above = (props: CloseOutPageProps) => {
  const { account, tongue } = props;
  return (
    <fieldset class="part override" id="above">
      <legend>Above the limit agreed</legend>
      <p role="alert" class="wrong">
        {(account && limitText(account, tongue)) ?? "The account stays within the limit agreed."}
      </p>
      <p>To bill it all the same, say who decides and why; it goes on record and stands on the account.</p>
      <div class="columns">
        <Box {...props} name="above.by" label="Who decides" />
        <Box {...props} name="above.reason" label="Why" size="long" />
      </div>
    </fieldset>
  );
};

const Account = ({ account, tongue }: { account: FinalAccount; tongue: Tongue }) => {
  const { lines, adjustments, held, totals, payments } = account;
  const cash = (amount: Minor) => money(amount, tongue);
  const row = (name: string, amount: Minor) => (
    <tr>
      <td>{name}</td>
      <td class="figure">{cash(amount)}</td>
    </tr>
  );
  const notCharged = notChargedText(account, tongue);
  return (
    <section class="card" id="account" aria-labelledby="account-name">
      <h2 id="account-name">The account as it stands</h2>
      <dl class="facts">
        <div>
          <dt>Total, tax included</dt>
          <dd id="total">
            <strong>{cash(totals.total)}</strong>
          </dd>
        </div>
        <div>
          <dt>Paid already</dt>
          <dd>{cash(totals.prepaid)}</dd>
        </div>
        <div>
          <dt>{totals.due < 0 ? "To be paid back" : "Still to pay"}</dt>
          <dd id="due">
            <strong>{cash(Math.abs(totals.due))}</strong>
          </dd>
        </div>
      </dl>
      {held.over > 0 ? <p>{limitText(account, tongue)}</p> : null}
      {notCharged ? <p>{notCharged}</p> : null}
      <details class="fold">
        <summary>Line by line</summary>
        <table class="lines">
          <caption class="unseen">The account, line by line</caption>
          <tbody>
            {lines.map((line) => row([line.assembly?.name, lineTitle(line)].filter(Boolean).join(": "), line.amount))}
            {adjustments.map((each) => row(adjustmentTitle(each, tongue), each.charge ? each.amount : -each.amount))}
            {held.allowances.map(({ amount }) => row("Above the limit agreed, not charged", -amount))}
            {totals.pricesIncludeTax ? null : row("Tax", totals.tax)}
            {row("Total, tax included", totals.total)}
            {payments.map((payment) => row(`Paid: ${payment.for}`, -payment.amount))}
            {row("Due", totals.due)}
          </tbody>
        </table>
      </details>
    </section>
  );
};
