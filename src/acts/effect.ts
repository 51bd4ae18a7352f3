/** What another version of a rate book does: the open drafts and the jobs issued last, priced by both. */
import { z } from "zod";
import { estimate as compute } from "../estimating/estimate.js";
import type { Minor, RateBook } from "../estimating/input.js";
import type { Database, Instant } from "../records/database.js";
import { type Estimate, estimates, priced } from "../records/estimates.js";
import { shopSettings } from "../records/settings.js";
import type { Write } from "../records/trail.js";
import { problemText } from "../wording/problem.js";
import { wrongField } from "./act.js";
import { maybe } from "./shapes/primitives.js";
import { today } from "./today.js";

const MOST_DRAFTS = 20;
const LAST_JOBS = 10;

/** Totals with tax; absent where that version cannot price it, and `why` says what is in the way. What was issued `was` as it was issued. */
export interface Repriced {
  readonly job: string;
  readonly number: string;
  readonly unit: string;
  readonly estimate: string;
  readonly revision: number;
  readonly was?: Minor;
  readonly becomes?: Minor;
  readonly why?: string;
}

export interface Effect {
  readonly drafts: readonly Repriced[];
  readonly issued: readonly Repriced[];
}

const repriced = z
  .strictObject({
    ...{ job: z.string(), number: z.string(), unit: z.string(), estimate: z.string(), revision: z.int() },
    ...{ was: maybe(z.int()), becomes: maybe(z.int()), why: maybe(z.string()) },
  })
  .meta({
    id: "Repriced",
    description: "Total with tax as issued, of a draft by the version before, and by the new one; `why` it cannot be priced",
  });
export const effectShape = z
  .strictObject({ drafts: z.array(repriced), issued: z.array(repriced) })
  .meta({ id: "RateBookEffect", description: `At most ${MOST_DRAFTS} open drafts and the ${LAST_JOBS} jobs issued last` });

export async function effectOf(db: Database, before: RateBook, after: RateBook): Promise<Effect> {
  const [drafts, issued] = await Promise.all([estimates.openDrafts(db, MOST_DRAFTS), estimates.issuedLast(db, LAST_JOBS)]);
  const both = (list: typeof drafts) =>
    list
      .filter(({ estimate: { rateBookId, input } }) => rateBookId === after.id && input.currency === after.currency)
      .map(({ estimate, number }) => ({ number, ...byBoth(estimate, before, after) }));
  return { drafts: both(drafts), issued: both(issued) };
}

function byBoth(
  { id, jobId, revision, input, issuedAt, sheet }: Estimate,
  before: RateBook,
  after: RateBook,
): Omit<Repriced, "number"> {
  const becomes = compute({ ...input, rateBook: after });
  const was = issuedAt && sheet ? { ok: true as const, sheet } : compute({ ...input, rateBook: before });
  const problem = [becomes, was].flatMap((each) => (each.ok ? [] : each.problems))[0];
  return {
    ...{ job: jobId, unit: `${input.unit.maker} ${input.unit.model}`, estimate: id, revision },
    ...(was.ok && { was: was.sheet.totals.total }),
    ...(becomes.ok && { becomes: becomes.sheet.totals.total }),
    ...(problem && { why: problemText(problem) }),
  };
}

/** These drafts priced by the new version; those that issue or save meets meanwhile are refused by the database. */
export async function movedTo(db: Database, book: RateBook, ids: readonly string[], at: Instant, now: Date) {
  const { timeZone } = await shopSettings(db);
  if (ids.length > 0 && book.inForceFrom > today(now, timeZone))
    return wrongField(
      "/drafts",
      "starts too early",
      `Drafts are priced today, and this version is in force from ${book.inForceFrom}.`,
    );
  const writes: Write[] = [];
  for (const id of ids) {
    const draft = await estimates.find(db, id);
    if (!draft || draft.issuedAt || draft.rateBookId !== book.id)
      return wrongField("/drafts", "record unknown", "One of the drafts is issued or gone by now; look at the list again.");
    const { problems: _, ...made } = await priced({ ...draft.input, rateBook: book });
    writes.push(estimates.changed(db, draft, { rateBookVersion: book.version, ...made }, at).write);
  }
  return { writes };
}
