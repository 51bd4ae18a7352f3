/** Everything that happened on a job, in order, each event holding the one before; and the head that paper carries. */
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

export interface TrailRow {
  readonly number: number;
  readonly at: string;
  readonly text: string;
  /** Hex. */
  readonly hash: string;
}

export interface TrailPageProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly rows: readonly TrailRow[];
  /** As printed on paper. */
  readonly head: string;
  /** The first thing that does not match, in words. */
  readonly fault?: string;
}

export const TrailPage = ({ frame, job, rows, head, fault }: TrailPageProps) => (
  <JobFramed frame={frame} job={job} title="Trail" wrong={fault !== undefined}>
    {fault ? (
      <section class="summary" aria-labelledby="fault-name">
        <div role="alert">
          <h2 id="fault-name">The trail does not hold</h2>
          <p>{fault}</p>
        </div>
      </section>
    ) : null}
    {rows.length === 0 ? (
      <p class="empty">Nothing has happened on this job yet. Its first estimate begins the trail.</p>
    ) : (
      <>
        <p>
          Each event's hash covers the one before it, so none can be changed, taken out or put in unseen. Paper that leaves the
          shop carries the head: <code>{head}</code>. <code>npm run verify</code> reckons all of it again.
        </p>
        <ol class="trail">
          {rows.map(({ number, at, text, hash }) => (
            <li value={number}>
              {text} <span class="why">{at}</span> <code class="hash">{hash.slice(0, 16)}</code>
            </li>
          ))}
        </ol>
      </>
    )}
  </JobFramed>
);
