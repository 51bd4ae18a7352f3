/** Where a job stands with its owner, and the one thing to do next. */

import { type OwedShown, owedText } from "../../wording/account.js";
import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { type JobHead, LogChanged } from "./jobFrame.js";

export interface StandingProps {
  readonly job: JobHead;
  readonly tongue: Tongue;
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
  readonly agreed?: AgreedProps;
  /** Work of the newest revision that no agreement covers, by name. */
  readonly unagreed: readonly string[];
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
  readonly withTax: boolean;
  /** Logged so far, in the same measure. */
  readonly spent: number;
}

export const StandingCard = (props: StandingProps) => {
  const { job, draft, current, agreed, openQuestions, liveLinks, closedOn, tongue } = props;
  const here = `/jobs/${job.id}`;
  const declined = agreed === undefined && current?.answer?.answer === "declined";
  const waiting = current !== undefined && current.answer === undefined;
  return (
    <section class="standing-card" aria-labelledby="standing-name">
      <h2 id="standing-name">Where it stands</h2>
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
      ) : current && !closedOn ? (
        <p>No work is agreed yet.</p>
      ) : null}
      <p>
        {owedText(props.owed, tongue)} <a href={`${here}/payments`}>Payments</a>
      </p>
      {draft ? <Draft {...props} draft={draft} /> : null}
      {agreed && props.unagreed.length > 0 ? (
        <p class="not-agreed">
          <strong>Not agreed, so not to be worked on:</strong> {props.unagreed.join("; ")}.
        </p>
      ) : null}
      {openQuestions > 0 ? (
        <p>
          <a href={`${here}/answers#questions`}>
            {openQuestions === 1 ? "A question of the owner waits" : `${openQuestions} questions of the owner wait`} for a reply
          </a>
        </p>
      ) : null}
      <div class="actions screen">
        {draft?.ready ? <Go to={`${here}/issue`} text={`Issue revision ${draft.revision}`} primary /> : null}
        {draft ? <Go to={`/estimates/${draft.id}`} text="Change the estimate" primary={!draft.ready} /> : null}
        {draft ? <Go to={`${here}/draft/withdrawal`} text="Withdraw the draft" /> : null}
        {declined && !closedOn ? <Go to={`${here}/hand-back`} text="Close and hand back" primary={!draft} /> : null}
        {current && !closedOn ? (
          <Go to={`${here}/extra-fault`} text="Extra fault" primary={!draft && agreed !== undefined} />
        ) : null}
        {current && !closedOn ? (
          <Go to={`${here}/answers`} text="Record an answer" primary={!draft && waiting && agreed === undefined} />
        ) : null}
        {agreed && !closedOn ? <Go to={`${here}/bench`} text="Bench" /> : null}
        {agreed && !closedOn ? <Go to={`${here}/close-out`} text="Close out" /> : null}
        {draft || closedOn ? null : (
          <form method="post" action={`${here}/revisions`}>
            <button type="submit">{current ? "Start a new revision" : "Start an estimate"}</button>
          </form>
        )}
      </div>
      {current ? (
        <p class="links">
          <a href={`${here}/answers`}>Answers and questions</a>
          <a href={`${here}/links`}>Links to the owner's page</a>
          <a href={`${here}/bench`}>Bench</a>
          {agreed ? <a href={`${here}/parts`}>Parts to get</a> : null}
          <a href={`${here}/work-log`}>Work log</a>
          {current.revision > 1 || draft ? <a href={`${here}/changes`}>What changed</a> : null}
          <a href={`${here}/trail`}>Trail</a>
          {(waiting && !current.lapsed) || agreed ? <a href={`${here}/calendar.ics`}>Days for the calendar</a> : null}
        </p>
      ) : null}
    </section>
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
  const { amount, upTo, spent, withTax, revision } = agreed;
  const tax = withTax ? "tax included" : "before tax";
  const share = upTo > 0 ? Math.min(1, spent / upTo) : 0;
  return (
    <div class="limit">
      <p>
        Revision {revision} is agreed at <strong>{money(amount, tongue)}</strong>, {tax}.{" "}
        {open ? (
          <>
            Work may go on up to <strong>{money(upTo, tongue)}</strong>. Used so far, fees and charges included:{" "}
          </>
        ) : (
          "Used, fees and charges included: "
        )}
        <strong>{money(spent, tongue)}</strong>
        {spent > upTo ? ", which is above it by an override" : ""}.
      </p>
      <svg class="bar" viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true">
        <rect class="bar-all" width="100" height="2" />
        <rect class="bar-share" width={String(Math.round(share * 1000) / 10)} height="2" />
      </svg>
    </div>
  );
};

const Go = ({ to, text, primary = false }: { to: string; text: string; primary?: boolean }) => (
  <a class={primary ? "button primary" : "button"} href={to}>
    {text}
  </a>
);
