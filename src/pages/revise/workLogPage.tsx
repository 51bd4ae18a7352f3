/** Work really done, against what the owner agreed to; what would pass it is refused, or let through by a name and a reason. */
import { PART_STATES } from "../../estimating/closeout/log/workLog.js";
import type { Minor } from "../../estimating/input.js";
import { HAZARDS } from "../../estimating/lists.js";
import { money } from "../../wording/figures.js";
import { day, duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { Ask, type AskedForm, NO_OR_YES } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { Pick, Ticks } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { figures, Table, unseen } from "../frame/table.js";
import { JobFramed, type JobHead, LogChanged } from "./jobFrame.js";
import { type AgreedProps, Limit } from "./standingCard.js";

export interface LogRow {
  readonly id: string;
  readonly workedOn: string;
  readonly person: string;
  readonly what: string;
  /** Pieces used. */
  readonly part?: string;
  readonly minutes?: number;
  readonly parts?: number;
  readonly note?: string;
  /** Who let it through, and why. */
  readonly override?: string;
  /** Who withdrew it, when, and why. */
  readonly withdrawn?: string;
}

interface WorkLogPageProps extends AskedForm {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  readonly agreed?: AgreedProps;
  /** The owner declined, and nothing is agreed. */
  readonly declined: boolean;
  /** What opening and finding the fault may come to before an answer, by the intake receipt; 0: nothing. */
  readonly looking: Minor;
  /** Oldest first. */
  readonly entries: readonly LogRow[];
  readonly items: readonly { readonly id: string; readonly title: string; readonly unagreed?: string }[];
  readonly labourClasses: readonly { readonly id: string; readonly name: string }[];
  /** Work of the entry below that the list does not have: opening one assembly, pulling parts. */
  readonly otherWork?: readonly [value: string, title: string];
  /** To choose from where the entry below is of a part. */
  readonly parts: readonly (readonly [value: string, name: string])[];
  /** Ticked of work in own words. */
  readonly dangers: readonly string[];
  readonly closedOn?: string;
  readonly timers: readonly { readonly person: string; readonly what: string; readonly since: string }[];
  /** The log is another than the close-out's. */
  readonly changed: boolean;
  /** Why the entry below was not made. */
  readonly refusal?: string;
  readonly say?: string | undefined;
}

/** Which entry is withdrawn with this one, by whom and why. */
const CORRECTING = ["corrects", "withdrawal.by", "withdrawal.reason"] as const;

export const WorkLogPage = (props: WorkLogPageProps) => {
  const { frame, job, tongue, agreed, entries, items, errors, refusal, say, closedOn, otherWork } = props;
  return (
    <JobFramed frame={frame} job={job} title="Work log" wrong={errors.size > 0 || refusal !== undefined}>
      <ErrorSummary errors={errors} />
      <Said say={say} />
      {props.changed ? <LogChanged job={job.id} /> : null}
      {agreed ? (
        <Limit agreed={agreed} tongue={tongue} open={closedOn === undefined} />
      ) : props.declined ? (
        <p class="empty">
          {props.looking > 0
            ? `The owner declined. Opening and refitting are logged as they were; with the fee, at most ${money(props.looking, tongue)} is owed for looking, as promised. Other work needs an override.`
            : "The owner declined, so no work may be logged without an override."}{" "}
          <a href={`/jobs/${job.id}/hand-back`}>Close and hand back</a>.
        </p>
      ) : (
        <p class="empty">
          {props.looking > 0
            ? `Nothing is agreed yet. Time for opening and finding the fault may be logged up to ${money(props.looking, tongue)}, as the intake receipt says; other work needs an override.`
            : "Nothing is agreed yet, so no work may be logged without an override."}{" "}
          <a href={`/jobs/${job.id}/answers`}>Record an answer</a> if the owner gave one.
        </p>
      )}
      {props.timers.map(({ person, what, since }) => (
        <p class="timer timer-on">
          A timer of {person} runs: {what}, since {since}.{" "}
          <a href={`/jobs/${job.id}/bench?${new URLSearchParams({ by: person })}#at-work`}>Pause it at the bench</a>
        </p>
      ))}
      {entries.length > 0 ? <Entries {...props} /> : null}
      <form method="post" action={`/jobs/${job.id}/work-log`} id="entry" novalidate>
        <input type="hidden" name="token" value={props.fields.get("token")} />
        {CORRECTING.map((name) =>
          props.fields.has(name) ? <input type="hidden" name={name} value={props.fields.get(name)} /> : null,
        )}
        {refusal ? <input type="hidden" name="refusal" value={refusal} /> : null}
        <fieldset class="part">
          <legend>Log work</legend>
          <div class="columns">
            <Pick
              {...props}
              name="item"
              label="Work"
              options={[
                ["", "Opening and refitting"],
                ...(otherWork ? [otherWork] : []),
                ...items.map(({ id, title, unagreed }) => [id, unagreed ? `${title} – not agreed` : title] as const),
              ]}
            />
            <Ask form={props} name="own" />
            <Ask form={props} name="minutes" />
            <Ask
              form={props}
              name="labourClass"
              options={[["", "the usual rate of this work"], ...props.labourClasses.map(({ id, name }) => [id, name] as const)]}
            />
            <Ask form={props} name="person" autocomplete="name" />
            <Ask form={props} name="workedOn" />
          </div>
          {props.fields.has("part") ? <PartAnew {...props} /> : null}
          <Ask form={props} name="note" rows={1} />
          {props.fields.get("own") || props.dangers.length > 0 ? (
            <Ticks
              {...props}
              name="ownHazards"
              legend="Dangers of work in your own words"
              values={HAZARDS}
              ticked={props.dangers}
            />
          ) : null}
          <p class="hint">
            Timers, parts used, counts and readings are entered <a href={`/jobs/${job.id}/bench`}>at the bench</a>.
          </p>
        </fieldset>
        {refusal ? (
          <fieldset class="part override" id="override">
            <legend>{closedOn === undefined ? "Not agreed" : "Job closed"}</legend>
            <p role="alert" class="wrong">
              {refusal}
            </p>
            {closedOn === undefined ? (
              <p>
                <a href={`/jobs/${job.id}/extra-fault`}>Send the owner a revision</a> and wait for the answer. If it has to be
                logged anyway, record who decides and why:
              </p>
            ) : (
              <p>
                If the log has to be corrected, record who decides and why with the entry; the close-out then has to be corrected
                too:
              </p>
            )}
            <div class="columns">
              <Ask form={props} name="override.by" />
              <Ask form={props} name="override.reason" size="long" />
            </div>
          </fieldset>
        ) : null}
        <p class="actions">
          <button type="submit" class="primary">
            Log it
          </button>
          {refusal ? (
            <button type="submit" name="intent" value="override">
              Log it by override
            </button>
          ) : null}
        </p>
      </form>
    </JobFramed>
  );
};

/** The bench takes parts; here one is only put right. */
const PartAnew = (props: WorkLogPageProps) => (
  <div class="columns">
    <Pick {...props} name="part" label="Part" options={[["", "none of these"], ...props.parts]} />
    <Ask form={props} name="ownPart" />
    <Ask form={props} name="partCount" />
    <Ask form={props} name="paidPrice" />
    <Ask form={props} name="partState" options={PART_STATES.map((state) => [state, state] as const)} />
    <Ask form={props} name="partReason" />
    <Ask form={props} name="partSource" />
    <Ask form={props} name="insteadOf" options={NO_OR_YES} />
    <Ask form={props} name="beyond" options={NO_OR_YES} />
  </div>
);

const Entries = ({ entries, tongue, job }: WorkLogPageProps) => (
  <Table
    class="lines"
    caption="Work logged, oldest first"
    scroll="Work logged so far"
    heads={["Work", "Day", "Who", ...figures("Time", "Parts"), unseen("Put right")]}
    rows={entries.map(({ id, what, part, workedOn, person, minutes, parts, note, override, withdrawn }) => ({
      class: withdrawn && "withdrawn",
      cells: [
        <>
          {struck(what, withdrawn)}
          {part ? <span class="why"> {struck(part, withdrawn)}</span> : null}
          {note ? <span class="why"> {note}</span> : null}
          {override ? <span class="why"> Override: {override}</span> : null}
          {withdrawn ? <span class="why"> Withdrawn: {withdrawn}</span> : null}
        </>,
        day(workedOn, tongue.locale),
        person,
        minutes === undefined ? "" : struck(duration(minutes, tongue.locale), withdrawn),
        parts === undefined ? "" : struck(money(parts, tongue), withdrawn),
        withdrawn ? null : <PutRight job={job.id} entry={{ id, what, person }} />,
      ],
    }))}
  />
);

const struck = (text: string, withdrawn: string | undefined) => (withdrawn ? <s>{text}</s> : text);

/** Leads to a page that asks first. */
export const PutRight = ({ job, entry }: { job: string; entry: Pick<LogRow, "id" | "what" | "person"> }) => (
  <a href={`/jobs/${job}/work-log/${encodeURIComponent(entry.id)}/withdrawal`}>
    Withdraw or correct
    <span class="unseen">
      {" "}
      {entry.what} of {entry.person}
    </span>
  </a>
);
