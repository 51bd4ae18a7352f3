/** What was logged beside what was allowed, and which possible work proved necessary. */

import { duration } from "../../wording/time.js";
import { key } from "../form/fields.js";
import { Box, Tick } from "../frame/field.js";
import { figures, Table } from "../frame/table.js";
import { doneField } from "./closeFields.js";

import type { CloseOutPageProps } from "./closeOutPage.js";

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
        class="lines"
        id="logged"
        caption="Time and parts logged against what is allowed"
        scroll="Work, time and pieces"
        heads={["Work", ...figures("Agreed count", "Time allowed", "Time logged", "Pieces allowed", "Pieces used")]}
        rows={[
          ["Opening and refitting", "", time(opening.allowed), worked(opening.logged), "", ""],
          ...work.map(({ title, count, allowed, logged, pieces, used }) => [
            ...[title, count, time(allowed), worked(logged)],
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
          {possible.map(({ id, title, logged }) => (
            <Tick
              id={`found.${key(id)}`}
              name="found"
              value={id}
              checked={logged || found.includes(id)}
              disabled={logged}
              label={
                <>
                  {title}
                  {logged ? <span class="why"> work on it was logged</span> : null}
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
