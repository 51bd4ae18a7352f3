/** What was logged beside what was allowed, and which possible work proved necessary. */

import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import type { Minor, Minutes } from "../../estimating/input.js";
import {
  agreedThenText,
  agreedWorkAsked,
  allowanceTexts,
  limitText,
  notChargedText,
  nothingDoneText,
} from "../../wording/account.js";
import { money } from "../../wording/figures.js";
import { adjustmentTitle, lineTitle } from "../../wording/line.js";
import { duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { isUntaxed } from "../../wording/untaxed.js";
import { key } from "../form/fields.js";
import { Ask, type AskedForm } from "../frame/ask.js";
import { Box, Tick } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figure, figures, Table } from "../frame/table.js";
import type { JobHead } from "../revise/jobFrame.js";
import { doneField, untouchedField } from "./closeFields.js";

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

interface PossibleWork {
  readonly id: string;
  readonly title: string;
  /** Work on it was logged, so it proved necessary. */
  readonly logged: boolean;
  /** It was ticked off as done, logged or not. */
  readonly ticked: boolean;
}

export interface CloseOutPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly work: readonly WorkRow[];
  /** Nothing is logged on it, used or ticked off. */
  readonly untouched: readonly Pick<WorkRow, "id" | "title">[];
  /** Timed work on which no piece was logged. */
  readonly unlogged: readonly string[];
  readonly opening: { readonly allowed: Minutes; readonly logged: Minutes };
  readonly possible: readonly PossibleWork[];
  readonly found: readonly string[];
  readonly account?: FinalAccount;
  /** Only looking is charged, and no opening is logged. */
  readonly asksOpened: boolean;
  /** Faults of the log, which are put right there. */
  readonly logFaults: readonly string[];
  /** Parts of the log that name no pieces. */
  readonly unnamedParts: number;
  readonly freight: Minor;
  readonly toPay: {
    readonly deposit: Minor;
    readonly diagnosis?: string | undefined;
    readonly prepaid: Minor;
    readonly recorded: Minor;
  };
  /** Id of the close-out that is corrected. */
  readonly corrects?: string;
}

export const LogFaults = ({ job, faults }: { job: string; faults: readonly string[] }) =>
  faults.length === 0 ? null : (
    <section class="to-do" id="log-faults">
      <h2>Please correct in the work log</h2>
      <ul>
        {faults.map((text) => (
          <li>{text}</li>
        ))}
      </ul>
      <p>
        <a href={`/jobs/${job}/work-log`}>Open the work log</a>
      </p>
    </section>
  );

export const Logged = ({ job, work, opening, tongue, unnamedParts }: CloseOutPageProps) => {
  const time = (minutes: number) => duration(minutes, tongue.locale);
  const worked = (minutes: number) => (minutes === 0 ? "none" : time(minutes));
  return (
    <section aria-labelledby="logged-name">
      <h2 id="logged-name">What was logged</h2>
      {unnamedParts > 0 ? (
        <p class="wrong">
          {unnamedParts} {unnamedParts === 1 ? "entry tells" : "entries tell"} only what parts sold for, not which pieces; they
          are not in the figures below. <a href={`/jobs/${job.id}/work-log`}>Log the pieces</a> to have them in.
        </p>
      ) : null}
      <Table
        class="lines stacking"
        id="logged"
        caption="Time and parts logged against what is allowed"
        scroll="Work, time and pieces"
        heads={["Work", ...figures("Agreed count", "Time allowed", "Time logged", "Pieces allowed", "Pieces used")]}
        rows={[
          ["Opening and refitting", "", time(opening.allowed), worked(opening.logged), "", ""],
          ...work.map(({ title, count, allowed, logged, pieces, used }) => [
            ...[title, count, allowed === 0 ? "" : time(allowed), worked(logged)],
            pieces === 0 ? "" : pieces,
            pieces === 0 && used === 0 ? "" : used,
          ]),
        ]}
      />
    </section>
  );
};

export const Found = (props: CloseOutPageProps) => {
  const { work, possible, found, errors } = props;
  const open = work.some(({ id }) => errors.has(doneField(id)) || (props.fields.get(doneField(id)) ?? "") !== "");
  return (
    <>
      {possible.length > 0 ? (
        <fieldset class="part ticks">
          <legend>Which possible work proved necessary</legend>
          {possible.map(({ id, title, logged, ticked }) => (
            <Tick
              id={`found.${key(id)}`}
              name="found"
              value={id}
              checked={logged || ticked || found.includes(id)}
              disabled={logged || ticked}
              label={
                <>
                  {title}
                  {logged ? <span class="why"> work on it was logged</span> : null}
                  {!logged && ticked ? <span class="why"> it was ticked off at the bench</span> : null}
                </>
              }
            />
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

const HOW = [
  ["done, not timed", "was done, not timed"],
  ["not done", "was not done"],
  ["as planned", "took what was planned"],
] as const;

/** Work that the log says nothing of is asked about in one step, with one answer for all of it. */
export const Untouched = (props: CloseOutPageProps) => {
  const { untouched, fields, errors } = props;
  if (untouched.length === 0) return null;
  const open = untouched.some(({ id }) => errors.has(untouchedField(id)) || fields.get(untouchedField(id)));
  return (
    <fieldset class="part" id="untouched">
      <legend>Work that nothing was logged on</legend>
      <p class="hint">
        What was done is billed as agreed and stands at the time that was planned; what was not done is not billed. Nothing is
        learned from time that nobody took.
      </p>
      <Ask
        form={props}
        name="untouched.all"
        label="All of it, unless said piece by piece"
        options={[["", "Say how it was"], ...HOW]}
      />
      <details class="fold" open={open}>
        <summary>Piece by piece: {untouched.length}</summary>
        <div class="columns">
          {untouched.map(({ id, title }) => (
            <Ask form={props} name={untouchedField(id)} label={title} options={[["", "as all of it"], ...HOW]} />
          ))}
        </div>
      </details>
    </fieldset>
  );
};

const OPENED = [
  ["", "Choose"],
  ["no", "No"],
  ["yes", "Yes, and opening and refitting it are not charged"],
] as const;

export const Opened = (props: AskedForm & Pick<CloseOutPageProps, "job">) => (
  <>
    <div class="columns">
      <Ask form={props} name="opened" options={OPENED} />
    </div>
    <p class="hint">
      No opening is logged, and time that is not logged is not charged. If it was opened,{" "}
      <a href={`/jobs/${props.job.id}/work-log`}>log that first</a>.
    </p>
  </>
);

/** Said before it is closed: agreeing credits the fee on condition that the work goes ahead. */
export const NothingDone = (props: CloseOutPageProps) =>
  props.account?.basis !== "nothing done" ? null : (
    <fieldset class="part" id="nothing-done">
      <legend>Nothing that was agreed was done</legend>
      <p class="hint">{nothingDoneText(props.account, props.tongue)}</p>
      <Ask
        form={props}
        name="looking"
        options={[
          ["charged", "are charged, as promised"],
          ["waived", "are not charged"],
        ]}
      />
      {props.asksOpened ? <Opened {...props} /> : null}
    </fieldset>
  );

/** Whether work of an agreement that was taken back is charged. */
export const AgreedThen = (props: AskedForm & { readonly account?: FinalAccount; readonly tongue: Tongue }) =>
  props.account?.agreedThen ? (
    <fieldset class="part">
      <legend>What was agreed before</legend>
      <p class="hint">{agreedWorkAsked(props.account.agreedThen.amount, props.tongue)}</p>
      <Ask
        form={props}
        name="agreedThen"
        options={[
          ["", "Choose"],
          ["charged", "is charged, as it was agreed"],
          ["let go", "is not charged"],
        ]}
      />
    </fieldset>
  ) : null;

/** The account as it would be. */
export const AccountPreview = ({ account, tongue }: { account: FinalAccount; tongue: Tongue }) => {
  const { lines, adjustments, held, totals, payments } = account;
  const above = allowanceTexts(account);
  const cash = (amount: Minor) => money(amount, tongue);
  const row = (name: string, amount: Minor) => [name, cash(amount)];
  const total = isUntaxed(totals) ? "Total" : "Total, tax included";
  const [notCharged, then] = [notChargedText(account, tongue), agreedThenText(account, tongue)];
  return (
    <section class="card" id="account" aria-labelledby="account-name">
      <h2 id="account-name">The account as it stands</h2>
      <dl class="facts">
        <div>
          <dt>{total}</dt>
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
      {then ? <p id="agreed-then">{then}</p> : null}
      {notCharged ? <p>{notCharged}</p> : null}
      <details class="fold" open={account.agreedThen !== undefined}>
        <summary>Line by line</summary>
        <Table
          class="lines"
          caption="The account, line by line"
          heads={["For", figure("Amount")]}
          rows={[
            ...lines.map((line) => row([line.assembly?.name, lineTitle(line)].filter(Boolean).join(": "), line.amount)),
            ...adjustments.map((each) => row(adjustmentTitle(each, tongue), each.charge ? each.amount : -each.amount)),
            ...held.allowances.map(({ amount }, at) => row(above[at]!, -amount)),
            ...(totals.pricesIncludeTax || isUntaxed(totals) ? [] : [row("Tax", totals.tax)]),
            row(total, totals.total),
            ...payments.map((payment) => row(`Paid: ${payment.for}`, -payment.amount)),
            row("Due", totals.due),
          ]}
        />
      </details>
    </section>
  );
};

/** Parts are never dropped unasked. */
export const Unlogged = (props: CloseOutPageProps) =>
  props.unlogged.length === 0 ? null : (
    <fieldset class="part" id="parts-unlogged">
      <legend>Parts that nobody logged</legend>
      <p class="hint">Time was logged on this work, and no piece:</p>
      <ul>
        {props.unlogged.map((title) => (
          <li>{title}</li>
        ))}
      </ul>
      <Ask
        form={props}
        name="unlogged"
        label="Its parts"
        options={[
          ["", "Say how it was"],
          ["as planned", "were used as planned"],
          ["none used", "none was used"],
        ]}
      />
      <p class="hint">Where it was neither, log the pieces at the bench first.</p>
    </fieldset>
  );
