/** The first page: what every job waits for, newest first; one row a job. */

import type { IsoDate, Minor } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import { capital } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import { type Begun, BegunOffer } from "../frame/begun.js";
import { type Frame, Page } from "../frame/layout.js";
import { figure, Table } from "../frame/table.js";

interface JobRow {
  readonly id: string;
  readonly number: string;
  readonly owner: string;
  readonly unit: string;
  readonly state: string;
  readonly next: { readonly says: string; readonly href?: string; readonly by?: IsoDate; readonly dayIs?: string };
  readonly closedOn?: IsoDate;
  /** In all, refunds taken off. */
  readonly paid?: { readonly total: Minor; readonly currency: string };
  /** Awaited, where that is what is next. */
  readonly deposit?: Minor;
  /** Billed or agreed; offered where neither is, or nothing where that was declined. */
  readonly amount?: { readonly total: Minor; readonly currency: string; readonly offered: boolean };
}

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

const Board = ({ rows, locale, ...said }: Pick<JobListProps, "rows" | "locale"> & { caption: string; empty?: string }) => (
  <Table
    class="board"
    {...said}
    heads={["Job", "Unit", "Owner", "State", "Next", figure("Amount")]}
    rows={rows.map((row) => [
      <a href={`/jobs/${row.id}`}>{row.number}</a>,
      row.unit,
      row.owner || <span class="hint">owner not named yet</span>,
      <span class="tag">{row.state}</span>,
      <Next {...row} locale={locale} />,
      row.amount && (
        <>
          {row.amount.offered ? <span class="hint">{row.state === "draft" ? "so far " : "offered "}</span> : null}
          {money(row.amount.total, { locale, currency: row.amount.currency })}
          <Paid {...row} locale={locale} />
        </>
      ),
    ])}
  />
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

/** Of a closed job what is still owed, else what is paid so far. */
const Paid = ({ paid, amount, closedOn, locale }: JobRow & { locale: string }) => {
  if (!amount || amount.offered || (!paid && !closedOn)) return null;
  const cash = (total: Minor) => money(total, { locale, currency: amount.currency });
  const due = amount.total - (paid?.total ?? 0);
  const says = !closedOn
    ? `${cash(paid!.total)} paid`
    : due === 0
      ? "paid"
      : due > 0
        ? `${cash(due)} unpaid`
        : `${cash(-due)} to pay back`;
  return <span class="hint"> {says}</span>;
};

const Next = ({ next: { says, href, by, dayIs }, closedOn, amount, deposit, locale }: JobRow & { locale: string }) => (
  <>
    {href ? <a href={href}>{capital(says)}</a> : capital(says)}
    {deposit !== undefined && amount ? (
      <span class="hint"> of {money(deposit, { locale, currency: amount.currency })}</span>
    ) : by ? (
      <span class="hint">{`${dayIs === "by" ? " by" : `; ${dayIs}`} ${day(by, locale)}`}</span>
    ) : null}
    {closedOn ? <span class="hint"> closed on {day(closedOn, locale)}</span> : null}
  </>
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
