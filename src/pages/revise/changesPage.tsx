/** Any two revisions of a job beside each other. */
import type { ChangeList } from "../../estimating/agreement/changeList.js";
import type { Tongue } from "../../wording/tongue.js";
import { Pick } from "../frame/field.js";
import type { Frame } from "../frame/layout.js";
import { ChangesPart } from "./changesPart.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

export interface ChangesPageProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly tongue: Tongue;
  /** Oldest first. */
  readonly revisions: readonly { readonly revision: number; readonly issued: boolean }[];
  readonly from: number;
  readonly to: number;
  /** Absent: the two cannot be compared. */
  readonly changes?: ChangeList;
}

export const ChangesPage = ({ frame, job, tongue, revisions, from, to, changes }: ChangesPageProps) => {
  const fields = new Map([
    ["from", String(from)],
    ["to", String(to)],
  ]);
  const options = revisions.map(
    ({ revision, issued }) => [String(revision), `Revision ${revision}${issued ? "" : ", draft"}`] as const,
  );
  return (
    <JobFramed frame={frame} job={job} title="What changed">
      {revisions.length < 2 ? (
        <p class="empty">
          There is one revision so far. When a second one is started, this page says what it changes and what the total differs
          by.
        </p>
      ) : (
        <>
          <form method="get" class="beside screen">
            <Pick fields={fields} errors={NONE} name="from" label="From" options={options} />
            <Pick fields={fields} errors={NONE} name="to" label="To" options={options} />
            <button type="submit" class="quiet">
              Compare
            </button>
          </form>
          {changes ? (
            <ChangesPart changes={changes} tongue={tongue} />
          ) : (
            <p class="empty">These two cannot be compared: one of them has entries to put right, or is in another currency.</p>
          )}
        </>
      )}
    </JobFramed>
  );
};

const NONE: ReadonlyMap<string, string> = new Map();
