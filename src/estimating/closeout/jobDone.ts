/** A job whose work is done, and what of it was allowed: agreed, found necessary, and really done. */
import { withFound } from "../agreement/choices.js";
import { heldTo, keepsPromises, withPromised } from "../agreement/promises.js";
import type { Revision } from "../agreement/rowChanges.js";
import { estimate } from "../estimate.js";
import type { EstimateInput } from "../input.js";
import { isCharged } from "../labour/groups.js";
import { bareOf } from "../pricing/bare.js";
import { linesBehind, price, timeTaken, visitNow } from "../pricing/price.js";
import { isFixed } from "../pricing/quote.js";
import { workingsOf } from "../pricing/workings.js";
import type { Problem } from "../problems.js";
import { behindOf, resolve } from "../resolve.js";
import type { Sheet } from "../sheet.js";
import type { PersonRates } from "./log/spent.js";
import type { WorkLog } from "./log/workLog.js";

export interface NumberedRevision extends Revision {
  readonly revision: number;
}

/** An agreement that was taken back: what it was, what was found of it, and counts ticked off while it stood. */
export interface ThenAgreed {
  readonly revision: NumberedRevision;
  readonly found: readonly string[];
  readonly done: Readonly<Record<string, number>>;
  /** Never dearer than promised, nor than closing it as agreed would have been; absent: as before that was held. */
  readonly kept?: boolean;
}

/** How it was, by work item. 'done': what it took is not known. 'as planned': someone vouches for the time that was planned. */
export type Untimed = Readonly<Record<string, "done" | "as planned">>;

export interface JobDone {
  /**
   * The first is what was quoted, the last what is agreed; between them every state the owner answered, in order. Inputs have the
   * options chosen (`withChoices`), sheets are those inputs'.
   */
  readonly revisions: readonly [NumberedRevision, ...NumberedRevision[]];
  /** Groups 'if found' that proved necessary, by their ids on the agreed sheet: those logged (`foundByLog`), and those said to be. */
  readonly found: readonly string[];
  /** Counts really done, by work item, where they are below the agreed; 0: not done. A count above the agreed is not taken. */
  readonly done: Readonly<Record<string, number>>;
  readonly log: WorkLog;
  /** Work done that nobody timed; absent: none is said to be. */
  readonly untimed?: Untimed;
  /** Timed work on which no piece was logged, whose parts were used as planned. */
  readonly unlogged?: readonly string[];
  /** The revision worked by, where it has work, parts or assemblies beyond what is agreed. */
  readonly current?: EstimateInput;
  /** Held to what was printed even where the book is from before prices were kept; absent: as such a book was priced. */
  readonly promised?: boolean;
  /** Work at a fixed price that nobody timed stands at its price; absent: at nothing, as it did. */
  readonly atPrice?: boolean;
  /**
   * Possible work that was found brings its parts where nobody logged them, and within a price that covers it leaves services what stands
   * behind them; absent: only what was agreed brings parts, and beside what was found nothing stands behind.
   */
  readonly foundParts?: boolean;
  /** A part nobody logged was paid for as its own line says; absent: as the first line of the same part. */
  readonly linePrices?: boolean;
  /** Hours on work at a fixed price that no time was allowed for are held against nothing; absent: against no time at all. */
  readonly allowedTime?: boolean;
  /** What an hour earned is told only where all that is billed was timed; absent: over whatever was timed. */
  readonly hoursKnown?: boolean;
  /** Absent: none, or closed before what was ticked off under it was charged. */
  readonly thenAgreed?: ThenAgreed;
  /** What an hour of a person is worth, where it is not the rate of the labour class worked at. */
  readonly rates?: PersonRates;
}

/** Possible work that was logged proved necessary: ids of its groups on the sheet. */
export function foundByLog({ items }: Pick<EstimateInput, "items">, log: WorkLog): string[] {
  const worked = new Set([
    ...log.time.flatMap(({ work }) => (work.is === "item" ? [work.id] : [])),
    ...log.parts.map(({ item }) => item),
  ]);
  const groups = items.flatMap(({ id, certainty }) =>
    certainty.is === "if found" && worked.has(id) ? [certainty.group ?? id] : [],
  );
  return [...new Set(groups)];
}

export const quotedOf = ({ revisions }: JobDone): NumberedRevision => revisions[0];
export const agreedOf = ({ revisions }: JobDone): NumberedRevision => revisions.at(-1)!;

/** Agreed, and nothing of it done; by time and parts, what was logged on it is charged, and so it was. */
export function isNothingDone(job: JobDone, byLog: boolean): boolean {
  const { items } = agreedOf(job).input;
  const { found, done, log } = job;
  const wanted = items.filter((item) => {
    const { id, count, certainty } = item;
    const turnedUp = certainty.is === "if found" && found.includes(certainty.group ?? id);
    return count > 0 && behindOf(item) === undefined && (turnedUp || isCharged({ item }));
  });
  const ids = new Set(items.map(({ id }) => id));
  const logged =
    log.time.some(({ work }) => work.is === "item" && ids.has(work.id)) || log.parts.some(({ item }) => ids.has(item));
  return wanted.length > 0 && wanted.every(({ id }) => done[id] === 0) && !(byLog && logged);
}

/** What a close-out reads of a sheet. */
export type Charged = Pick<Sheet, "lines" | "behind" | "adjustments" | "time"> & Partial<Pick<Sheet, "parts">>;

export interface ChargedRevision {
  readonly input: EstimateInput;
  readonly sheet: Charged;
}

export type Allowed =
  | {
      readonly ok: true;
      /** What a fixed price comes to: the agreed work as done and, where the price does not cover it already, as found. */
      readonly billed: Revision;
      /** The agreed work as done, without what was found. */
      readonly planned: ChargedRevision;
      /** What the actual is held against: the same, and all that was found. */
      readonly allowed: ChargedRevision;
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/**
 * The agreed sheet itself when nothing was found or left undone; otherwise the same input priced for what was. An assembly opened by
 * the log and by the agreed sheet stays opened, even if all work on it turned out not to be needed.
 */
export function allowedFor(job: JobDone): Allowed {
  const agreed = agreedOf(job);
  const covered = isFixed(agreed.input.policy);
  const billed = repriced(agreed, withDone(covered ? agreed.input : withFound(agreed.input, job.found), job.done), job.log);
  const planned = covered || job.found.length === 0 ? billed : repriced(agreed, withDone(agreed.input, job.done), job.log);
  if (!billed.ok) return billed;
  if (!planned.ok) return planned;
  const keeps = job.promised || keepsPromises(agreed.input.rateBook);
  const revision = keeps ? asPromised(billed.revision, planned.revision, agreed, job.found) : billed.revision;
  const found = job.found.length > 0 && !covered;
  return {
    ...{ ok: true, billed: revision, planned: found ? planned.revision : revision },
    allowed: covered ? withFoundWork(revision, job) : revision,
  };
}

/** No dearer than what was agreed, as far as it was done, and what was found at the price it was agreed at. */
function asPromised(billed: Revision, planned: Revision, { input, sheet }: Revision, found: readonly string[]): Revision {
  const total = Math.min(planned.sheet.totals.total, sheet.totals.total);
  const held = heldTo(billed.sheet, withPromised(total, sheet.ifFound, found), input.rateBook);
  return held === billed.sheet ? billed : { ...billed, sheet: held };
}

type Repriced =
  | { readonly ok: true; readonly revision: Revision }
  | { readonly ok: false; readonly problems: readonly Problem[] };

function repriced(agreed: Revision, input: EstimateInput, log: WorkLog): Repriced {
  if (sameItems(input, agreed.input)) return { ok: true, revision: agreed };
  const first = priced(input);
  if (!first.ok) return first;
  const opened = new Set(log.time.flatMap(({ work }) => (work.is === "access" && work.assembly ? [work.assembly] : [])));
  const still = openedBy(first.revision);
  const kept = openedBy(agreed).filter((id) => opened.has(id) && !still.includes(id));
  return kept.length === 0 ? first : priced({ ...input, toOpen: [...(input.toOpen ?? []), ...kept] });
}

function priced(input: EstimateInput): Repriced {
  const outcome = estimate(input);
  return outcome.ok ? { ok: true, revision: { input, sheet: outcome.sheet } } : outcome;
}

/** A fixed price covers what may be found, so what was found is allowed for as counted and the price's allowances stay as billed. */
function withFoundWork(billed: Revision, { found, foundParts }: JobDone): ChargedRevision {
  const input = withFound(resolve(billed.input), found);
  if (sameItems(input, billed.input)) return billed;
  const workings = workingsOf(input);
  const counted = price(workings, workings.items.filter(isCharged), visitNow(input, workings.map));
  const bare = bareOf(counted, workings).priced;
  const lines = [...bare.lines, ...billed.sheet.lines.filter(({ sort }) => sort === "allowance")];
  const more = foundParts && { behind: linesBehind(bare), parts: bare.parts.results };
  return { input, sheet: { lines, ...more, adjustments: bare.adjustments, time: timeTaken(bare, input.rateBook) } };
}

const sameItems = (a: EstimateInput, b: EstimateInput): boolean => a.items.every((item, index) => item === b.items[index]);

const openedBy = ({ sheet }: Revision): string[] => sheet.access.removal.map(({ id }) => id);

const withDone = (input: EstimateInput, done: JobDone["done"]): EstimateInput => ({
  ...input,
  items: input.items.map((item) => {
    const count = done[item.id];
    return count === undefined || count >= item.count ? item : { ...item, count };
  }),
});
