/** The first page: what every job waits for, newest first; one row a job. */

import { capital } from "../../wording/list.js";
import { type Begun, BegunOffer } from "../frame/begun.js";
import { type Frame, Page } from "../frame/layout.js";
import { Board, type JobRow } from "./jobBoard.js";

interface JobListProps {
  readonly frame: Frame;
  readonly locale: string;
  readonly rows: readonly JobRow[];
  /** Closed, with something to take or to pay back. */
  readonly unpaid: readonly JobRow[];
  /** Ways to narrow the list, the one in force without a link. */
  readonly states: readonly { readonly name: string; readonly jobs?: number; readonly href?: string }[];
  /** Where older jobs are. */
  readonly next?: string;
  readonly first: boolean;
  /** No job was ever taken in. */
  readonly none: boolean;
  /** The demo shop, with a job whose owner's page can be looked at. */
  readonly demo: boolean;
  /** Nobody has an account yet, and it was not put off. */
  readonly unsettled: boolean;
  /** An empty shop whose rates are the example's: nobody has said its own. */
  readonly untouched: boolean;
  readonly begun: readonly Begun[];
}

export const JobList = ({
  frame,
  locale,
  rows,
  unpaid,
  states,
  next,
  first,
  none,
  demo,
  unsettled,
  untouched,
  begun,
}: JobListProps) => (
  <Page frame={frame} title="Jobs" at="/">
    <div class="heading">
      <h1>Jobs</h1>
      <a class={untouched ? "button" : "button primary"} href="/estimates/new">
        New estimate
      </a>
    </div>
    {demo && first ? (
      <form method="post" action="/demo/owners-page">
        <p>
          This is the demo shop: everyone and everything in it is invented.{" "}
          <button type="submit" class="quiet">
            See an owner's page
          </button>
        </p>
      </form>
    ) : null}
    <BegunOffer begun={begun} />
    {(unsettled || untouched) && first ? <SetUpOffer mayGoOn={!frame.guarded && !untouched} untouched={untouched} /> : null}
    {none ? (
      <div class="empty">
        <p>
          Each unit that comes in gets a job here, with its estimates. {untouched ? "Set up the shop, then start" : "Start"} with
          a <a href="/estimates/new">new estimate</a>: the owner, the unit, and what is to be done.
        </p>
      </div>
    ) : (
      <>
        <Narrowing states={states} />
        <Board
          rows={rows}
          locale={locale}
          caption="Jobs, newest first"
          empty={
            first
              ? "No job is open. Those that are done, and what is still to be paid on them, stand under Closed."
              : "No job stands there."
          }
        />
      </>
    )}
    {next ? (
      <p>
        <a href={next} rel="next">
          Older jobs
        </a>
      </p>
    ) : null}
    {unpaid.length > 0 ? (
      <section aria-labelledby="unpaid-name">
        <h2 id="unpaid-name">Closed and not settled</h2>
        <Board rows={unpaid} locale={locale} caption="Closed and not settled, oldest first" />
        <p>
          <a href="/?state=closed">All that are closed</a>
        </p>
      </section>
    ) : null}
  </Page>
);

const Narrowing = ({ states }: Pick<JobListProps, "states">) => (
  <div class="board-ways">
    <nav aria-label="Jobs by state">
      {states.map(({ name, jobs, href }) => {
        const says = jobs === undefined ? capital(name) : `${capital(name)} ${jobs}`;
        return href ? (
          <a href={href}>{says}</a>
        ) : (
          <span class="here" aria-current="page">
            {says}
          </span>
        );
      })}
    </nav>
    <search>
      <form method="get" action="/find">
        <input name="q" type="search" aria-label="Find a job by owner, unit, serial, fault or note" placeholder="Find" />
      </form>
    </search>
  </div>
);

const SetUpOffer = ({ mayGoOn, untouched }: { mayGoOn: boolean; untouched: boolean }) => (
  <section class="card offer" aria-labelledby="offer-name">
    <h2 id="offer-name">Set up the shop</h2>
    <p>
      Give the shop its name, its currency and its rates, and make your account.{" "}
      {untouched
        ? "Until then an estimate has the rates of an example."
        : "Until then anyone who reaches this page can do everything."}
    </p>
    <div class="beside">
      <a class={untouched ? "button primary" : "button"} href="/set-up">
        Set up the shop and your account
      </a>
      {!mayGoOn ? null : (
        <form method="post" action="/set-up/later">
          <button type="submit" class="quiet">
            Go on without an account
          </button>
        </form>
      )}
    </div>
  </section>
);
