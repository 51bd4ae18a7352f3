/** Everything that happened on a job, in order, each event holding the one before; and the head that paper carries. */
import { capital } from "../../wording/list.js";
import type { Frame } from "../frame/layout.js";
import { JobFramed, type JobHead } from "./jobFrame.js";

interface TrailRow {
  readonly number: number;
  readonly at: string;
  readonly text: string;
  /** Hex. */
  readonly hash: string;
}

interface TrailPageProps {
  readonly frame: Frame;
  readonly job: JobHead;
  readonly rows: readonly TrailRow[];
  /** As printed on paper. */
  readonly head: string;
  /** The first thing that does not match, in words. */
  readonly fault?: string;
  /** What was checked just now, and found as it was written. */
  readonly sound?: string;
}

export const TrailPage = ({ frame, job, rows, head, fault, sound }: TrailPageProps) => (
  <JobFramed frame={frame} job={job} title="Trail" wrong={fault !== undefined}>
    {fault ? (
      <section class="summary" aria-labelledby="fault-name">
        <div role="alert">
          <h2 id="fault-name">The record was changed</h2>
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
          shop carries the latest of these hashes in short: <code>{head}</code>.
        </p>
        <form method="get" action={`/jobs/${job.id}/trail`} class="actions">
          <button type="submit" name="check" value="all">
            Check the record
          </button>
          <p role="status">{sound}</p>
        </form>
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

/** An event of the trail as a sentence. What it is about beyond that stands in the record it names. */
type Content = Readonly<Record<string, unknown>>;

export const answerText = (answer: unknown): string => (answer === "part agreed" ? "agreed in part" : String(answer));

const SAY: Readonly<Record<string, (content: Content) => string>> = {
  "draft begun": ({ revision }) => `Revision ${revision} was begun as a draft.`,
  "draft withdrawn": ({ revision, by, reason }) => `The draft of revision ${revision} was withdrawn by ${by}: ${reason}`,
  issued: ({ revision, by }) => `Revision ${revision} was issued by ${by}.`,
  "link made": ({ by }) => `A link to the owner's page was made by ${by}.`,
  "link withdrawn": ({ by }) => `A link to the owner's page was withdrawn by ${by}.`,
  "question asked": () => "The owner asked a question.",
  "question answered": ({ by }) => `${by} replied to a question.`,
  answered: ({ revision, answer, by }) => `Revision ${revision}: ${answerText(answer)} by ${by}.`,
  "answer corrected": ({ revision, answer, by, corrected }) =>
    `The answer to revision ${revision} was corrected: ${corrected ?? `${answerText(answer)} by ${by}`}.`,
  "work logged": ({ person }) => `Work of ${person} was logged.`,
  "entry withdrawn": ({ by }) => `An entry of the work log was withdrawn by ${by}.`,
  "ticked off": ({ person }) => `${person} ticked off work that is done.`,
  "reading taken": ({ person }) => `${person} took a reading.`,
  "payment recorded": ({ by }) => `${by} recorded a payment.`,
  "payment withdrawn": ({ by }) => `${by} withdrew a payment that was wrong.`,
  "closed out": ({ by }) => `${by} closed the job.`,
  "close-out corrected": ({ by }) => `${by} corrected the close-out.`,
  "photo added": ({ by }) => (by ? `${by} added a photo.` : "A photo was added."),
  "photo removed": ({ by }) => (by ? `${by} took a photo out.` : "A photo was taken out."),
  "personal data erased": ({ by }) => `${by} erased what told of the owner.`,
  "begun unpaid": ({ by, deposit }) => `${by} let work begin before the deposit of ${deposit} was paid.`,
  "limit overridden": ({ by }) => `${by} let something pass what the owner agreed to.`,
};

/** A kind of event that is not known here is named as it stands. */
export const eventText = (is: string, content: unknown): string =>
  SAY[is]?.(typeof content === "object" && content !== null ? (content as Content) : {}) ?? `${capital(is)}.`;
