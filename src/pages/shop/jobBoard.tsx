/** Jobs as the first page lists them: one row a job, with what is next and what it comes to. */
import type { IsoDate, Minor } from "../../estimating/input.js";
import { money } from "../../wording/figures.js";
import { capital } from "../../wording/list.js";
import { day } from "../../wording/time.js";
import { figure, Table } from "../frame/table.js";

export interface JobRow {
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

interface BoardProps {
  readonly rows: readonly JobRow[];
  readonly locale: string;
  readonly caption: string;
  readonly empty?: string;
}

export const Board = ({ rows, locale, ...said }: BoardProps) => (
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
