/** Where a job stands with its owner, what it comes to, the one thing to do next, and quietly all else. */

import type { Minor } from "../../estimating/input.js";
import { type OwedShown, owedText } from "../../wording/account.js";
import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { type JobHead, LogChanged } from "./jobFrame.js";

export interface StandingProps {
  readonly job: JobHead;
  readonly tongue: Tongue;
  /** As the list of jobs has it. */
  readonly now: {
    readonly state: string;
    readonly amount?: { readonly total: Minor; readonly is: string };
    /** Without an address: the next revision is begun. */
    readonly does?: { readonly says: string; readonly href?: string };
    /** Such as 'by 25 December 2026'. */
    readonly by?: string;
  };
  readonly counts: { readonly payments: number; readonly photos: number; readonly log: number };
  readonly draft?: { readonly id: string; readonly revision: number; readonly ready: boolean };
  /** The revision the owner has. */
  readonly current?: {
    readonly revision: number;
    readonly by: string;
    /** Day and time as the shop writes them. */
    readonly at: string;
    readonly validUntil: string;
    readonly lapsed: boolean;
    readonly answer?: { readonly answer: "agreed" | "part agreed" | "declined"; readonly by: string; readonly text: string };
  };
  /** Nothing was issued yet. */
  readonly neverIssued: boolean;
  /** Opening and looking for the fault may be logged before an answer. */
  readonly mayLook: boolean;
  readonly agreed?: AgreedProps;
  /** Work of the newest revision that no agreement covers, by name. */
  readonly unagreed: readonly string[];
  /** Not agreed, and worked on all the same. */
  readonly unagreedDone: readonly string[];
  readonly openQuestions: number;
  readonly liveLinks: number;
  /** The day the job was closed. */
  readonly closedOn?: string;
  readonly owed: OwedShown;
  /** The log is another than the close-out's. */
  readonly logChanged: boolean;
}

export interface AgreedProps {
  readonly revision: number;
  readonly amount: number;
  /** The most that may be reached. */
  readonly upTo: number;
  /** An override let some of it be logged. */
  readonly overridden: boolean;
  readonly withTax: boolean;
  /** Logged so far, in the same measure. */
  readonly spent: number;
  /** What it is billed at, as far as it is known, where that is as agreed, whatever it takes. */
  readonly billed?: number;
}

export const StandingCard = (props: StandingProps) => {
  const { job, draft, current, agreed, openQuestions, liveLinks, closedOn, tongue } = props;
  const here = `/jobs/${job.id}`;
  return (
    <section class="standing-card" aria-labelledby="standing-name">
      <h2 id="standing-name" class="unseen">
        Where it stands
      </h2>
      <Now {...props} />
      {closedOn ? (
        <p>
          <strong>Closed on {day(closedOn, tongue.locale)}.</strong> <a href={`${here}/close-out`}>What it came to</a>,{" "}
          <a href={`${here}/final-account.pdf`}>final account PDF</a>
        </p>
      ) : null}
      {props.logChanged ? <LogChanged job={job.id} /> : null}
      {current ? (
        <p>
          Revision {current.revision} was issued by {current.by}, {current.at}.{" "}
          {current.answer ? (
            <strong>{`${SAID[current.answer.answer]}: ${current.answer.text}.`}</strong>
          ) : current.lapsed ? (
            <strong>It ended on {day(current.validUntil, tongue.locale)} without an answer; issue a new revision.</strong>
          ) : (
            <>
              The owner has not answered yet; it is good until {day(current.validUntil, tongue.locale)}.
              {liveLinks === 0 ? " No link to it is alive." : ""}
            </>
          )}
        </p>
      ) : null}
      {agreed ? (
        <Limit agreed={agreed} tongue={tongue} open={!closedOn} />
      ) : current && !current.answer && !closedOn ? (
        <p>No work is agreed yet.</p>
      ) : null}
      <p>{owedText(props.owed, tongue)}</p>
      {draft ? <Draft {...props} draft={draft} /> : null}
      {agreed && props.unagreed.length > 0 ? (
        <p class="not-agreed">
          <strong>{closedOn ? "Not agreed, and not done:" : "Not agreed, so not to be worked on:"}</strong>{" "}
          {props.unagreed.join("; ")}.
        </p>
      ) : null}
      {agreed && props.unagreedDone.length > 0 ? (
        <p>
          <strong>Worked on, with no agreement that stands; not billed:</strong> {props.unagreedDone.join("; ")}.
        </p>
      ) : null}
      {openQuestions > 0 ? (
        <p>
          <a href={`${here}/answers#questions`}>
            {openQuestions === 1 ? "A question of the owner waits" : `${openQuestions} questions of the owner wait`} for a reply
          </a>
        </p>
      ) : null}
      <Ways {...props} />
    </section>
  );
};

/** Its state as a word, what it comes to, and the one thing to do next. */
const Now = ({ now: { state, amount, does, by }, job, tongue }: StandingProps) => (
  <div class="job-now">
    <p>
      <span class="tag tag-on">{state}</span>
      {amount ? (
        <>
          {" "}
          <strong class="job-amount">{money(amount.total, tongue)}</strong> <span class="soft">{amount.is}</span>
        </>
      ) : null}
    </p>
    {does ? (
      <p class="actions screen">
        {does.href ? (
          <a class="button primary" href={does.href}>
            {does.says}
          </a>
        ) : (
          <Anew job={job.id} says={does.says} primary />
        )}
        {by ? <span class="hint">{by}</span> : null}
      </p>
    ) : null}
  </div>
);

const Anew = ({ job, says, primary = false }: { job: string; says: string; primary?: boolean }) => (
  <form method="post" action={`/jobs/${job}/revisions`}>
    <button type="submit" class={primary ? "primary" : "link"}>
      {says}
    </button>
  </form>
);

/** All else there is to do, quietly, with how many there are of what has a number. */
const Ways = (props: StandingProps) => {
  const { job, draft, current, agreed, closedOn, counts, openQuestions, liveLinks, now } = props;
  const here = `/jobs/${job.id}`;
  const declined = agreed === undefined && current?.answer?.answer === "declined";
  const waiting = current !== undefined && current.answer === undefined;
  const ways: readonly (readonly [boolean, string, string, number?])[] = [
    [draft !== undefined, `/estimates/${draft?.id}`, "Change the estimate"],
    [draft?.ready === true, `${here}/issue`, `Issue revision ${draft?.revision}`],
    [draft !== undefined, `${here}/papers`, "What the owner gets"],
    [current !== undefined || props.mayLook, `${here}/bench`, "Bench"],
    [agreed !== undefined, `${here}/parts`, "Parts to get"],
    [current !== undefined && !closedOn && !declined, `${here}/extra-fault`, "Extra fault"],
    [waiting && !closedOn, `${here}/answers#record`, "Record an answer"],
    [
      current !== undefined,
      `${here}/answers`,
      openQuestions > 0 ? "Answers and new questions" : "Answers and questions",
      openQuestions,
    ],
    [current !== undefined, `${here}/links`, "Links to the owner's page", liveLinks],
    [true, `${here}/payments`, "Payments", counts.payments],
    [counts.photos > 0, `${here}/photos`, "Photos", counts.photos],
    [current !== undefined || props.mayLook, `${here}/work-log`, "Work log", counts.log],
    [current !== undefined && (current.revision > 1 || draft !== undefined), `${here}/changes`, "What changed"],
    [agreed !== undefined && !closedOn, `${here}/close-out`, "Close out"],
    [(declined || props.neverIssued) && !closedOn, `${here}/hand-back`, "Close and hand back"],
    [((waiting && !current.lapsed) || agreed !== undefined) && !closedOn, `${here}/calendar.ics`, "Days for the calendar"],
    [current !== undefined, `${here}/trail`, "Trail"],
    [draft !== undefined, `${here}/draft/withdrawal`, "Withdraw the draft"],
  ];
  return (
    <ul class="quiet-list screen">
      {ways.map(([is, href, says, count]) =>
        is && href !== now.does?.href ? (
          <li>
            <a href={href}>{says}</a>
            {count ? <span class="soft"> {count}</span> : null}
          </li>
        ) : null,
      )}
      {draft || closedOn || (now.does && !now.does.href) ? null : (
        <li>
          <Anew job={job.id} says={current ? "Start a new revision" : "Start an estimate"} />
        </li>
      )}
    </ul>
  );
};

const SAID = { agreed: "Agreed", "part agreed": "Agreed in part", declined: "Declined" } as const;

const Draft = ({ draft, current }: StandingProps & { draft: NonNullable<StandingProps["draft"]> }) => (
  <p>
    Revision {draft.revision} is a draft{current ? ", which the owner has not seen" : ""}.
    {draft.ready ? "" : " Some entries need correcting before it can be issued."}
  </p>
);

/** The figure first, the picture beside it. */
export const Limit = ({ agreed, tongue, open = true }: { agreed: AgreedProps; tongue: Tongue; open?: boolean }) => {
  const { amount, upTo, spent, billed, withTax, revision } = agreed;
  const tax = withTax ? "tax included" : "before tax";
  const share = upTo > 0 ? Math.min(1, spent / upTo) : 0;
  return (
    <div class="limit">
      <p>
        Revision {revision} is agreed at <strong>{money(amount, tongue)}</strong>, {tax}.{" "}
        {open ? (
          <>
            {billed === undefined ? "Work may go on up to" : "It is billed as agreed, whatever it takes, and never above"}{" "}
            <strong>{money(upTo, tongue)}</strong>. Used so far, fees and charges included:{" "}
          </>
        ) : (
          "Used, fees and charges included: "
        )}
        <strong>{money(spent, tongue)}</strong>
        {aboveText(agreed, tongue)}.
      </p>
      <svg class="bar" viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true">
        <rect class="bar-all" width="100" height="2" />
        <rect class="bar-share" width={String(Math.round(share * 1000) / 10)} height="2" />
      </svg>
    </div>
  );
};

/** Told to the shop alone: what is billed as agreed is billed so all the same. */
function aboveText({ spent, billed, upTo, overridden }: AgreedProps, tongue: Tongue): string {
  if (billed === undefined) return spent > upTo ? `, which is above it${overridden ? " by an override" : ""}` : "";
  return spent > billed ? `, which is ${money(spent - billed, tongue)} more than is billed for it` : "";
}
