/** Where jobs stand and what is to be done next: the records' word for it, and for agreed work how far parts and bench are. */
import { eq, inArray, type SQL } from "drizzle-orm";
import { addDays } from "../estimating/day.js";
import type { CurrencyCode, IsoDate, Minor } from "../estimating/input.js";
import type { Database } from "../records/database.js";
import { inState, jobStatesTable, type OwnerState, openStates, type StateRow, stateRows } from "../records/jobState.js";
import { jobsTable } from "../records/jobs.js";
import type { PageWanted } from "../records/noun.js";
import { credited, paidAmong } from "../records/payments.js";
import { type JobAsItStands, jobAsItStands } from "./job.js";
import { depositAwaited } from "./owed.js";
import { openClaims } from "./partsToGet.js";
import { today } from "./today.js";

/** An agreed job is `answered` until something stands in its log or its parts keep it waiting; `ready` once all its agreed work is logged or ticked off. */
export const JOB_STATES = [
  "draft",
  "with the owner",
  "answered",
  "waiting for parts",
  "on the bench",
  "ready",
  "closed",
  "declined",
] as const;
export type JobState = (typeof JOB_STATES)[number];

export const NEXT_STEPS = [
  "reply to a question",
  "put the estimate right",
  "count the work",
  "issue the estimate",
  "await the answer",
  "renew the offer",
  "read the answer",
  "begin, parts are in",
  "take the deposit",
  "order parts",
  "await parts",
  "go on with the work",
  "finish today",
  "finish, it is late",
  "close and hand back",
  "hand back",
  "take what is unpaid",
  "pay back what is over",
  "nothing",
] as const;
export type NextStep = (typeof NEXT_STEPS)[number];

export interface Standing {
  readonly state: JobState;
  readonly next: NextStep;
  /** The day the next step goes by: an offer ends, or the unit was promised. */
  readonly by?: IsoDate;
  /** Billed where the job is closed, else agreed, with possible work found so far; tax included. Absent while neither. */
  readonly amount?: Minor;
  readonly currency?: CurrencyCode;
  readonly closedOn?: IsoDate;
  /** Payments in all, refunds taken off; absent where there are none. */
  readonly paid?: Minor;
  /** Awaited of the deposit before work may begin. */
  readonly deposit?: Minor;
}

/** Of jobs agreed to and not closed: pieces to order, pieces to come, and pieces held. */
interface Parts {
  toGet: number;
  onOrder: number;
  held: number;
}

async function partsOfOpen(db: Database): Promise<ReadonlyMap<string, Parts>> {
  const parts = new Map<string, Parts>();
  for (const { job, toGet, onOrder, fromStock } of await openClaims(db)) {
    const own = parts.get(job) ?? { toGet: 0, onOrder: 0, held: 0 };
    parts.set(job, { toGet: own.toGet + toGet, onOrder: own.onOrder + onOrder, held: own.held + fromStock });
  }
  return parts;
}

const NO_PARTS: Parts = { toGet: 0, onOrder: 0, held: 0 };

/** `agreed`: those that were read already for the same page. `amounts`: with possible work that was found, which is priced job by job. */
export async function standings(
  db: Database,
  ids: readonly string[],
  now: Date,
  { agreed = new Map(), amounts = false }: { readonly agreed?: Agreed; readonly amounts?: boolean } = {},
): Promise<ReadonlyMap<string, Standing>> {
  if (ids.length === 0) return new Map();
  const rest = ids.filter((id) => !agreed.has(id));
  const [others, paid] = await Promise.all([withParts(db, rest), paidAmong(db, ids)]);
  const known = ids.flatMap((id) => {
    const own = agreed.get(id);
    return own ? [own.read] : [];
  });
  const standing = new Map<string, Standing>();
  const each = await Promise.all(
    [...others, ...known].map(async ([row, parts]) => [await reckoned(db, row, amounts), parts] as const),
  );
  for (const [row, parts] of each) standing.set(row.id, standingOf(row, parts, paid.get(row.id), now));
  return standing;
}

/** Of one that is read already. */
export async function standingOfJob(db: Database, job: JobAsItStands, now: Date): Promise<Standing> {
  const { id, payments, closeOut } = job;
  const [[row, parts]] = (await withParts(db, [id])) as [readonly [StateRow, Parts]];
  const credits = credited(payments, closeOut?.basis.terms.payments);
  const paid = credits.length === 0 ? undefined : credits.reduce((sum, { amount }) => sum + amount, 0);
  return standingOf(await reckoned(db, row, true, job), parts, paid, now);
}

type Read = readonly [StateRow, Parts];

/** Jobs that are agreed and not closed, with what was read to tell how far each is. */
export type Agreed = ReadonlyMap<string, { readonly state: JobState; readonly read: Read }>;

async function withParts(db: Database, ids: readonly string[]): Promise<readonly Read[]> {
  if (ids.length === 0) return [];
  const rows = await stateRows(db, ids);
  const parts = rows.some(({ state }) => state === "agreed") ? await partsOfOpen(db) : new Map<string, Parts>();
  return rows.map((row) => [row, parts.get(row.id) ?? NO_PARTS]);
}

/** Possible work that was found, and an answer from before deposits were kept with it, are priced again. */
async function reckoned(db: Database, row: StateRow, amounts: boolean, read?: JobAsItStands): Promise<StateRow> {
  const unkept = row.state === "agreed" && row.deposit === undefined && row.depositOffered;
  if (!(amounts && row.found) && !unkept) return row;
  const job = read ?? (await jobAsItStands(db, row.id));
  const amount = row.found ? job?.bill()?.totals.total : undefined;
  return {
    ...row,
    ...(amount !== undefined && { amount }),
    ...(unkept && { deposit: job?.agreed()?.sheet.deposit.amount ?? 0 }),
  };
}

/** A question is replied to before anything else; it changes the next step and not the state. */
function standingOf(row: StateRow, parts: Parts, paid: Minor | undefined, now: Date): Standing {
  const state = stateOf(row, parts);
  const promised =
    row.agreedAt !== undefined && row.days !== undefined
      ? addDays(today(new Date(row.agreedAt), row.zone ?? "UTC"), row.days)
      : undefined;
  const day = today(now, row.zone ?? "UTC");
  const by = state === "with the owner" ? row.validUntil : row.state === "agreed" ? promised : undefined;
  const amount = row.billed ?? row.amount;
  const agreed = row.state === "agreed";
  const soFar = paid ?? (agreed ? (row.prepaid ?? 0) : 0);
  const deposit = agreed ? depositAwaited(row.deposit ?? 0, soFar, row.begun ? row.leastDeposit : undefined) : 0;
  return {
    state,
    next:
      row.questions > 0 && state !== "closed" ? "reply to a question" : nextOf(state, { ...row, deposit }, parts, soFar, by, day),
    ...(by !== undefined && { by }),
    ...(amount !== undefined && row.currency !== undefined && { amount, currency: row.currency }),
    ...(row.closedOn !== undefined && { closedOn: row.closedOn }),
    ...(paid !== undefined && { paid }),
    ...(deposit > 0 && { deposit }),
  };
}

function stateOf({ state, begun, left }: StateRow, { toGet, onOrder }: Parts): JobState {
  if (state !== "agreed") return state;
  if (left === 0) return "ready";
  if (toGet + onOrder > 0) return "waiting for parts";
  return begun ? "on the bench" : "answered";
}

function nextOf(state: JobState, row: StateRow, parts: Parts, paid: Minor, by: IsoDate | undefined, day: IsoDate): NextStep {
  const { ready, worked, deposit = 0, billed = 0 } = row;
  if ((state === "answered" || state === "waiting for parts") && deposit > 0) return "take the deposit";
  switch (state) {
    case "draft":
      return !ready ? "put the estimate right" : worked ? "issue the estimate" : "count the work";
    case "with the owner":
      return by !== undefined && day > by ? "renew the offer" : "await the answer";
    case "answered":
      return parts.held > 0 ? "begin, parts are in" : "read the answer";
    case "waiting for parts":
      return parts.toGet > 0 ? "order parts" : "await parts";
    case "on the bench":
      return by === undefined || day < by ? "go on with the work" : day === by ? "finish today" : "finish, it is late";
    case "ready":
      return "close and hand back";
    case "declined":
      return "hand back";
    case "closed":
      return billed > paid ? "take what is unpaid" : billed < paid ? "pay back what is over" : "nothing";
  }
}

const isKept = (state: JobState): state is JobState & OwnerState =>
  ["draft", "with the owner", "closed", "declined"].includes(state);

/** Agreed jobs are only as many as are open, so how far each is may be asked of all. */
export async function agreedIn(db: Database): Promise<Agreed> {
  const agreed = db.select({ id: jobStatesTable.jobId }).from(jobStatesTable).where(eq(jobStatesTable.state, "agreed"));
  const [rows, parts] = await Promise.all([stateRows(db, agreed), partsOfOpen(db)]);
  const found = rows.map((row): Read => [row, parts.get(row.id) ?? NO_PARTS]);
  return new Map(found.map((read) => [read[0].id, { state: stateOf(...read), read }]));
}

/** Narrows a list of jobs to a state; with the page that is wanted, no more than its jobs are read. */
export async function inJobState(
  db: Database,
  state: JobState | "open",
  page?: PageWanted,
  agreed?: Promise<Agreed>,
): Promise<SQL> {
  if (state === "open" || isKept(state)) return inState(state, page);
  const ids = [...(await (agreed ?? agreedIn(db)))].flatMap(([id, stands]) => (stands.state === state ? [id] : []));
  return inArray(jobsTable.id, ids);
}

/** How many jobs that are not closed stand in each state. */
export async function jobsInEach(db: Database, agreed?: Agreed): Promise<ReadonlyMap<JobState, number>> {
  const counts = new Map<JobState, number>();
  for (const [state, jobs] of await openStates(db)) if (state !== "agreed") counts.set(state, jobs);
  for (const { state } of (agreed ?? (await agreedIn(db))).values()) counts.set(state, (counts.get(state) ?? 0) + 1);
  return counts;
}
