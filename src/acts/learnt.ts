/** What the newest closed jobs say of a version of the rate book: which of them it has read, and what they hold. */
import type { Observation } from "../estimating/closeout/learning/observation.js";
import type { RateBook } from "../estimating/input.js";
import { closeOuts } from "../records/closeOuts.js";
import type { Database } from "../records/database.js";
import { notObserved, observations } from "../records/observations.js";
import { type NewestClosed, newestClosed } from "../records/outcomes.js";
import { observe } from "./closedJobs.js";

/** Older jobs say little of how the shop works now. */
const MOST = 200;
/** Priced again in one request. */
const AT_ONCE = 20;

export interface Learnt {
  readonly jobs: number;
  /** Not read by this version yet. */
  readonly unread: number;
  readonly observations: readonly Observation[];
  /** Of those jobs, by id: J-2026-0001. */
  readonly numbers: ReadonlyMap<string, string>;
}

export async function learnt(db: Database, book: RateBook): Promise<Learnt> {
  const numbers = new Map((await newest(db, book)).map(({ jobId, number }) => [jobId, number]));
  const ids = [...numbers.keys()];
  const [unread, seen] = await Promise.all([notObserved(db, book, ids), observations(db, book, { jobs: ids })]);
  return { jobs: ids.length - unread.length, unread: unread.length, observations: seen, numbers };
}

/** Reads some of the jobs that are unread, newest first. */
export async function readMore(db: Database, book: RateBook): Promise<void> {
  const ids = (await newest(db, book)).map(({ jobId }) => jobId);
  const unread = (await notObserved(db, book, ids)).slice(0, AT_ONCE);
  const records = await Promise.all(unread.map((id) => closeOuts.standing(db, id)));
  await observe(
    db,
    book,
    records.flatMap((record) => record ?? []),
  );
}

const newest = (db: Database, { currency }: RateBook): Promise<NewestClosed[]> => newestClosed(db, { currency }, MOST);
