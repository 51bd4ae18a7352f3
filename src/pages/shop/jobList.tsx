/** The first page: every job, newest first. */

import type { IsoDate, Minor } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import { day } from "../../wording/time.js";
import { type Frame, Page } from "../frame/layout.js";
import { figure, Table } from "../frame/table.js";

interface JobRow {
  readonly id: string;
  readonly number: string;
  readonly arrivedOn: IsoDate;
  readonly owner: string;
  readonly unit: string;
  readonly reported?: string;
  readonly closedOn?: IsoDate;
  readonly paid?: Minor;
  readonly billed?: Minor;
  readonly estimate?: {
    readonly id: string;
    readonly revision: number;
    readonly issued: boolean;
    readonly currency: string;
    readonly total?: Minor;
  };
}

interface JobListProps {
  readonly frame: Frame;
  readonly locale: string;
  readonly rows: readonly JobRow[];
  /** Where older jobs are. */
  readonly next?: string;
  readonly first: boolean;
  /** Nobody has an account yet, and it was not put off. */
  readonly unsettled: boolean;
  /** An empty shop whose rates are the example's: nobody has said its own. */
  readonly untouched: boolean;
}

export const JobList = ({ frame, locale, rows, next, first, unsettled, untouched }: JobListProps) => (
  <Page frame={frame} title="Jobs" at="/">
    <div class="heading">
      <h1>Jobs</h1>
      <a class={untouched ? "button" : "button primary"} href="/estimates/new">
        New estimate
      </a>
    </div>
    {(unsettled || untouched) && first ? <SetUpOffer mayGoOn={!frame.guarded && !untouched} untouched={untouched} /> : null}
    {rows.length === 0 && first ? (
      <div class="empty">
        <p>
          Each unit that comes in gets a job here, with its estimates. {untouched ? "Set up the shop, then start" : "Start"} with
          a <a href="/estimates/new">new estimate</a>: the owner, the unit, and what is to be done.
        </p>
      </div>
    ) : (
      <Table
        class="list"
        caption="Jobs, newest first"
        heads={["Job", "Unit", "Owner", "Came in", "Latest estimate", figure("Total")]}
        rows={rows.map((row) => [
          <a href={`/jobs/${row.id}`}>{row.number}</a>,
          <>
            {row.unit}
            {row.reported ? <div class="hint">{short(row.reported)}</div> : null}
          </>,
          row.owner,
          <>
            {day(row.arrivedOn, locale)}
            {row.closedOn ? <div class="hint">closed on {day(row.closedOn, locale)}</div> : null}
          </>,
          <Latest {...row} />,
          <>
            {row.estimate?.total === undefined
              ? row.estimate && "to put right"
              : money(row.billed ?? row.estimate.total, { locale, currency: row.estimate.currency })}
            <Paid row={row} locale={locale} />
          </>,
        ])}
      />
    )}
    {next ? (
      <p>
        <a href={next} rel="next">
          Older jobs
        </a>
      </p>
    ) : null}
  </Page>
);

const Paid = ({ row: { paid = 0, billed, estimate }, locale }: { row: JobRow; locale: string }) => {
  if (!estimate || (paid === 0 && billed === undefined)) return null;
  const cash = (amount: Minor) => money(amount, { locale, currency: estimate.currency });
  if (billed === undefined) return <div class="hint">{cash(paid)} paid</div>;
  const due = billed - paid;
  return <div class="hint">{due === 0 ? "paid" : due > 0 ? `${cash(due)} unpaid` : `${cash(-due)} to pay back`}</div>;
};

const Latest = ({ estimate }: JobRow) => {
  if (!estimate) return "none yet";
  if (estimate.issued) return `Revision ${estimate.revision}, issued`;
  return (
    <>
      <a href={`/estimates/${estimate.id}`}>Revision {estimate.revision}</a>, draft
    </>
  );
};

const SetUpOffer = ({ mayGoOn, untouched }: { mayGoOn: boolean; untouched: boolean }) => (
  <section class="card offer" aria-labelledby="offer-name">
    <h2 id="offer-name">Set up the shop</h2>
    <p>
      Give the shop its name, its currency and its rates, and make your account.{" "}
      {untouched
        ? "Until then an estimate has the rates of an example."
        : "Until then whoever gets to this page may do everything."}
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

const short = (text: string): string => (text.length > 90 ? `${text.slice(0, 90).trimEnd()}…` : text);
