/**
 * Where a job stands with its owner, in one word. The view `job_states_now` says the rule; triggers keep what it comes to, a row a job
 * (migration 0020), so that jobs in a state are found without looking at all of them. How far agreed work is: acts/standing.
 */
import { inArray, type SQL, type SQLWrapper, sql } from "drizzle-orm";
import { index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { CurrencyCode, IsoDate, Minor } from "../estimating/input.js";
import type { Database, Instant } from "./database.js";
import { jobsTable } from "./jobs.js";
import { type PageWanted, withoutNulls } from "./noun.js";

/** draft: nothing is issued yet, or something newer than what was. agreed: in whole or in part, and no later answer of the owner undid it. */
export const OWNER_STATES = ["draft", "with the owner", "agreed", "declined", "closed"] as const;
export type OwnerState = (typeof OWNER_STATES)[number];

export const jobStatesTable = sqliteTable(
  "job_states",
  {
    jobId: text("job_id")
      .primaryKey()
      .references(() => jobsTable.id),
    state: text("state").$type<OwnerState>().notNull(),
  },
  (table) => [
    index("job_states_state").on(table.state, table.jobId),
    index("job_states_open").on(table.jobId).where(sql`state <> 'closed'`),
  ],
);

/** Narrows a list of jobs; with the page that is wanted, no more than its jobs are read. */
export function inState(wanted: OwnerState | "open", page?: PageWanted): SQL {
  const which = wanted === "open" ? sql`state <> 'closed'` : sql`state = ${wanted}`;
  if (!page) return sql`exists (select 1 from job_states where job_id = ${jobsTable.id} and ${which})`;
  const { after, limit, newestFirst } = page;
  const beyond = after === undefined ? sql`` : newestFirst ? sql`and job_id < ${after}` : sql`and job_id > ${after}`;
  const order = newestFirst ? sql`job_id desc` : sql`job_id`;
  return sql`${jobsTable.id} in (select job_id from job_states where ${which} ${beyond} order by ${order} limit ${limit + 1})`;
}

/** How many jobs that are not closed stand in each. */
export async function openStates(db: Database): Promise<ReadonlyMap<OwnerState, number>> {
  const rows = await db.all<{ state: OwnerState; jobs: number }>(
    sql`select state, count(*) as jobs from job_states indexed by job_states_open where state <> 'closed' group by state`,
  );
  return new Map(rows.map(({ state, jobs }) => [state, jobs]));
}

/** What is on record of a job, for what is to be done next. */
export interface StateRow {
  readonly id: string;
  readonly state: OwnerState;
  /** Questions without a reply. */
  readonly questions: number;
  /** 1: the newest revision has no problems. */
  readonly ready: number;
  /** 1: a draft that says some work. */
  readonly worked: number;
  readonly validUntil?: IsoDate;
  /** Of the answer that stands. */
  readonly agreedAt?: Instant;
  readonly zone?: string;
  readonly days?: number;
  /** Promised for what was agreed; absent from answers before 2026-11-28. */
  readonly deposit?: Minor;
  /** The least that was promised, of all answers that stand. */
  readonly leastDeposit?: Minor;
  /** Of the whole revision that was answered. */
  readonly depositOffered?: Minor;
  /** As the estimate counted it. */
  readonly prepaid?: Minor;
  readonly amount?: Minor;
  readonly currency?: CurrencyCode;
  readonly billed?: Minor;
  readonly closedOn?: IsoDate;
  /** 1: something stands in the work log. */
  readonly begun: number;
  /** Pieces of agreed work that nobody logged or ticked off; of a service, neither it nor each of its own (`behindId` in estimating/resolve). */
  readonly left: number;
  /** 1: possible work that was agreed to in advance may have been found, since it is named in the log or by a tick. */
  readonly found: number;
}

/** A statement for all of them, or those a query finds. What a state has no use for is not looked for: it stands in long JSON. */
export async function stateRows(db: Database, which: readonly string[] | SQLWrapper): Promise<readonly StateRow[]> {
  if ("length" in which && which.length === 0) return [];
  const logged = (job: SQL, item: SQL) => sql`exists (select 1 from work_log w where w.job_id = ${job} and w.item = ${item}
      and not exists (select 1 from log_withdrawals where entry_id = w.id))`;
  /** Of the piece itself, or of one that a service of it is made of. */
  const within = (item: SQL) => sql`(${item} = i.value ->> '$.id' or ${item} like (i.value ->> '$.id') || '/%')`;
  // How far a piece is ticked off is what was said last.
  const ticked = (item: SQL, least: SQL) => sql`exists (select 1 from tick_offs t where t.job_id = s.job_id and ${item}
      and t.count >= ${least} and not exists (select 1 from tick_offs x where x.job_id = t.job_id and x.item = t.item and x.rowid > t.rowid))`;
  const done = (item: SQL, count: SQL) => sql`(${logged(sql`s.job_id`, item)} or ${ticked(sql`t.item = ${item}`, count)})`;
  const rows = await db.all<object>(sql`with pieces as materialized (
      select b.id, b.version, v.value ->> '$.id' as service, p.key + 1 as place, p.value ->> '$.count' as count
      from rate_books b, json_each(b.book, '$.services') v, json_each(v.value, '$.work') p
      where (b.id, b.version) in (select rate_book_id, rate_book_version from estimates x where ${inArray(sql`x.job_id`, which)}))
    select s.job_id as id, s.state,
    (select count(*) from questions q where q.job_id = s.job_id
      and not exists (select 1 from question_replies where question_id = q.id)) as questions,
    coalesce(n.sheet is not null, 0) as ready,
    s.state = 'draft' and exists (select 1 from json_each(n.input, '$.items') i where i.value ->> '$.count' > 0) as worked,
    case s.state when 'with the owner' then json_extract(n.sheet, '$.validUntil') end as validUntil,
    a.at as agreedAt, a.zone, a.amount, coalesce(o.currency, a.currency) as currency, a.deposit,
    case s.state when 'agreed' then json_extract(e.sheet, '$.days.total') end as days,
    case s.state when 'agreed' then (select min(deposit) from agreements x where x.job_id = s.job_id and x.deposit > 0
      and x.answer <> 'declined' and not exists (select 1 from agreements where corrects = x.id)) end as leastDeposit,
    case s.state when 'agreed' then json_extract(e.sheet, '$.deposit.amount') end as depositOffered,
    case s.state when 'agreed' then json_extract(e.input, '$.policy.prepaid') end as prepaid,
    o.billed_total as billed, o.closed_on as closedOn,
    exists (select 1 from work_log w where w.job_id = s.job_id
      and not exists (select 1 from log_withdrawals where entry_id = w.id)) as begun,
    case when s.state <> 'agreed' then 0 else (select count(*) from json_each(e.input, '$.items') i where i.value ->> '$.count' > 0
      and (i.value ->> '$.certainty.is' = 'planned' or (i.value ->> '$.certainty.is' = 'optional'
        and i.value ->> '$.id' in (select value from json_each(a.chosen))))
      and i.value ->> '$.id' not in (select value from json_each(a.struck))
      and not ${done(sql`i.value ->> '$.id'`, sql`i.value ->> '$.count'`)}
      and not (i.value ->> '$.service' is not null and coalesce((select min(${done(sql`(i.value ->> '$.id') || '/' || p.place`, sql`p.count * (i.value ->> '$.count')`)})
        from pieces p where p.id = e.rate_book_id and p.version = e.rate_book_version and p.service = i.value ->> '$.service'), 0))) end as left,
    s.state not in ('closed', 'declined') and exists (select 1 from json_each(e.input, '$.items') i where i.value ->> '$.certainty.is' = 'if found'
      and i.value ->> '$.id' not in (select value from json_each(a.struck))
      and (exists (select 1 from work_log w where w.job_id = s.job_id and ${within(sql`w.item`)}
        and not exists (select 1 from log_withdrawals where entry_id = w.id))
      or ${ticked(within(sql`t.item`), sql`1`)})) as found
    from job_states s
    left join estimates n on n.id = (select id from estimates where job_id = s.job_id order by revision desc limit 1)
    left join agreements a on a.id = (select id from agreements x where x.job_id = s.job_id and x.answer <> 'declined'
      and not exists (select 1 from agreements where corrects = x.id) order by x.revision desc limit 1)
    left join estimates e on e.id = a.estimate_id
    left join outcomes o on o.job_id = s.job_id
    where ${inArray(sql`s.job_id`, which)}`);
  return rows.map((row) => withoutNulls<StateRow>(row));
}
