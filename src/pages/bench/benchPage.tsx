/** The work order of a job on a tablet: read it, work by it, and put on record what is done. */
import { money } from "../../wording/figures.js";
import { day, duration } from "../../wording/time.js";
import { Ask } from "../frame/ask.js";
import { ErrorSummary, Said } from "../frame/errorSummary.js";
import { JobFramed } from "../revise/jobFrame.js";
import { Limit } from "../revise/standingCard.js";
import { PutRight } from "../revise/workLogPage.js";
import { Cautions } from "../sheet/sheetView.js";
import { Undo } from "./benchForm.js";
import { DepositAwaited } from "./depositAwaited.js";
import { comesOff, Refit, Removal } from "./orderPart.js";
import { Parts } from "./partsPart.js";
import { Readings } from "./readingsPart.js";
import { Minutes, OwnWork, TimerPart } from "./timerPart.js";
import type { BenchView, Refusal } from "./view.js";
import { AfterRefit, First, Works } from "./workPart.js";

export const BenchPage = (view: BenchView) => {
  const { frame, job, script, agreed, tongue, errors, refusal, say, closedOn, sheet, input } = view;
  return (
    <JobFramed frame={frame} job={job} title="Bench" wrong={errors.size > 0 || refusal !== undefined} script={script}>
      <ErrorSummary errors={errors} />
      {refusal ? <Refused view={view} refusal={refusal} /> : null}
      <Said say={say} />
      <section id="queue" class="queue" aria-labelledby="queue-name" data-job={job.id} data-at={view.at} hidden>
        <h2 id="queue-name" class="unseen">
          Entries on this tablet
        </h2>
        <p id="queue-said" role="status" />
        <ul id="queue-list" />
      </section>
      {closedOn === undefined ? null : (
        <p class="not-agreed">
          The job was closed on {day(closedOn, tongue.locale)}, so nothing more is logged here. A wrong or forgotten entry is
          corrected in the <a href={`/jobs/${job.id}/work-log`}>work log</a>, with a reason.
        </p>
      )}
      {closedOn === undefined && view.deposit > 0 ? <DepositAwaited {...view} /> : null}
      <div id="bench-limit" data-follows>
        {agreed ? (
          <Limit agreed={agreed} tongue={tongue} />
        ) : view.declined ? (
          <p class="not-agreed">
            <strong>The owner declined, so nothing may be worked on.</strong> Refit what was opened, then{" "}
            <a href={`/jobs/${job.id}/hand-back`}>close and hand it back</a>.
          </p>
        ) : (
          <p class="not-agreed">
            {view.looking > 0 ? (
              <strong>
                Nothing is agreed yet. Time for opening and finding the fault may be logged up to {money(view.looking, tongue)},
                as the intake receipt says; nothing else may be worked on.
              </strong>
            ) : (
              <strong>Nothing is agreed yet, so nothing may be worked on.</strong>
            )}{" "}
            <a href={`/jobs/${job.id}/answers`}>Record an answer</a> if the owner gave one.
          </p>
        )}
      </div>
      <TimerPart {...view} />
      <nav aria-label="On this page" class="bench-jumps">
        <ul>
          {placesOf(view).map(([id, name]) => (
            <li>
              <a href={`#${id}`}>{name}</a>
            </li>
          ))}
        </ul>
      </nav>
      <p class="actions screen">
        {closedOn !== undefined || view.declined ? null : (
          <a class="button big" href={`/jobs/${job.id}/extra-fault`}>
            Extra fault
          </a>
        )}
        <a class="button big" href={`/jobs/${job.id}/work-log`}>
          Work log
        </a>
      </p>
      <div id="bench-cautions" data-follows>
        <Cautions sheet={sheet} input={input} tongue={tongue} unfolded />
      </div>
      <div id="bench-parts" data-follows>
        <First {...view} />
        <Removal {...view} />
        <Works {...view} />
        <Parts {...view} />
        <Readings {...view} />
        <Refit {...view} />
        <AfterRefit {...view} />
        <Recent {...view} />
      </div>
      {closedOn === undefined ? (
        <>
          <Minutes {...view} />
          <OwnWork {...view} />
        </>
      ) : null}
    </JobFramed>
  );
};

/** Where on the page there is something to go to. */
const placesOf = ({ sheet, closedOn }: BenchView) => [
  ...(comesOff(sheet.access) ? [["removal", "Take off"]] : []),
  ...[
    ["works", "Work"],
    ["parts", "Parts"],
    ["readings", "Readings"],
  ],
  ...(sheet.access.refit.length > 0 ? [["refit", "Refit"]] : []),
  ...(closedOn === undefined
    ? [
        ["minutes-form", "Minutes"],
        ["own-form", "Other work"],
      ]
    : []),
];

const Recent = ({ recent, tongue, job, ...view }: BenchView) =>
  recent.length === 0 ? null : (
    <section aria-labelledby="recent-name">
      <h2 id="recent-name">Logged last</h2>
      <ul class="plain-list" id="recent">
        {recent.map(({ id, what, part, person, minutes, parts }, at) => (
          <li>
            {what}
            {part ? `: ${part}` : ""}{" "}
            <span class="hint">
              {[
                ...(minutes === undefined ? [] : [duration(minutes, tongue.locale)]),
                ...(parts === undefined ? [] : [money(parts, tongue)]),
                person,
              ].join(", ")}
            </span>{" "}
            <PutRight job={job.id} entry={{ id, what, person }} />
            {at === 0 && view.closedOn === undefined ? (
              <Undo view={{ recent, tongue, job, ...view }} entry={id} what={what} at="recent" />
            ) : null}
          </li>
        ))}
      </ul>
      <p>
        <a href={`/jobs/${job.id}/work-log`}>The whole work log</a>
      </p>
    </section>
  );

/** Why an entry was not kept; what was typed goes along with the override that lets it through. */
const Refused = ({ view, refusal: { text, overridable, sent } }: { view: BenchView; refusal: Refusal }) => (
  <section class="summary" id="refused" tabindex={-1} aria-labelledby="refused-name">
    <h2 id="refused-name">Not kept</h2>
    <p role="alert" class="wrong">
      {text}
    </p>
    <p>
      {view.closedOn === undefined ? (
        <>
          <a href={`/jobs/${view.job.id}/extra-fault`}>Send the owner a revision</a> and wait for the answer.
        </>
      ) : null}
      {overridable ? " If it has to be logged anyway, record who decides and why:" : ""}
    </p>
    {overridable ? (
      <form method="post" action={`/jobs/${view.job.id}/bench`} id="override-form" novalidate>
        {sent
          .filter(([name]) => !name.startsWith("override."))
          .map(([name, value]) => (
            <input type="hidden" name={name} value={value} />
          ))}
        <div class="columns">
          <Ask form={view} name="override.by" value={view.fields.get("override.by") || view.by} />
          <Ask form={view} name="override.reason" size="long" />
        </div>
        <button type="submit" name="intent" value="override" class="big">
          Log it by override
        </button>
      </form>
    ) : null}
  </section>
);
