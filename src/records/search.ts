/**
 * Finds jobs by what stands in them: owner, unit, serial, faults, notes. Triggers keep one entry a job (migration 0008), so that no
 * writer has to remember it. Each word typed must begin a word of the entry or, where it has a figure, stand anywhere in a number, serial, model or phone.
 */
import { type SQL, sql } from "drizzle-orm";
import type { BatchItem } from "drizzle-orm/batch";
import type { IsoDate } from "../estimating/input.js";
import type { Database } from "./database.js";
import { jobNumber } from "./jobs.js";

export interface Found {
  readonly jobId: string;
  /** Such as J-2026-0001. */
  readonly number: string;
  readonly arrivedOn: IsoDate;
  readonly owner: string;
  readonly unit: string;
  readonly serial?: string;
  /** What was reported, found and noted. */
  readonly told: string;
}

export const SHORTEST = 2;
/** SQLite's trigram index knows nothing shorter. */
const TRIGRAM = 3;
const MOST_WORDS = 8;

/** The words looked for; none when nothing typed is long enough. */
export const wordsIn = (typed: string): string[] =>
  typed
    .normalize("NFC")
    // SQLite's query ends there.
    .replaceAll("\0", " ")
    .split(/\s+/)
    .filter((word) => (word.match(/[\p{L}\p{N}]/gu) ?? []).length >= SHORTEST)
    .slice(0, MOST_WORDS);

const quoted = (word: string): string => `"${word.replaceAll('"', '""')}"`;
const beginning = (words: readonly string[]): string => words.map((word) => `${quoted(word)}*`).join(" AND ");

/** Numbers, serials and telephone numbers have figures, and are remembered by any part of them. */
const isCode = (word: string): boolean => word.length >= TRIGRAM && /\p{N}/u.test(word);

/** Beyond so many jobs with a piece of a number it tells nothing: then it must begin a word, as names must. */
const TELLING = 2000;

/**
 * Newest first; all words must be found. Names alone are one walk through the index of words, which ends when enough is found. Where
 * a number is among them, its jobs are few, and each other word is looked for among those.
 */
export async function search(db: Database, words: readonly string[], limit: number): Promise<Found[]> {
  if (words.length === 0) return [];
  const [begun, coded] = await Promise.all([
    ids(
      db,
      sql`SELECT rowid AS id FROM search_words WHERE search_words MATCH ${beginning(words)} ORDER BY rowid DESC LIMIT ${limit}`,
    ),
    codedIn(db, words),
  ]);
  const within = begun.length < limit ? await foundByCode(db, words, coded) : [];
  const newest = [...new Set([...begun, ...within])].sort((a, b) => b - a).slice(0, limit);
  const rows = await db.all<Row>(
    sql`SELECT e.job_id AS jobId, j.year, j.sequence, j.arrived_on AS arrivedOn, o.name AS owner, e.unit, u.serial, e.told
      FROM search_entries e JOIN jobs j ON j.id = e.job_id JOIN units u ON u.id = j.unit_id JOIN owners o ON o.id = j.owner_id
      WHERE e.id IN (SELECT value FROM json_each(${JSON.stringify(newest)})) ORDER BY e.id DESC`,
  );
  return rows.map(({ year, sequence, serial, ...row }) => ({
    ...row,
    number: jobNumber({ year, sequence }),
    ...(serial !== null && { serial }),
  }));
}

const ids = async (db: Database, query: SQL): Promise<number[]> => (await db.all<{ id: number }>(query)).map(({ id }) => id);

type Coded = ReadonlyMap<string, ReadonlySet<number>>;

/** Jobs in whose numbers a word stands, by words that tell something. */
async function codedIn(db: Database, words: readonly string[]): Promise<Coded> {
  const found = await Promise.all(
    words.filter(isCode).map(async (word) => {
      const jobs = await ids(
        db,
        sql`SELECT rowid AS id FROM search_codes WHERE search_codes MATCH ${quoted(word)} ORDER BY rowid DESC LIMIT ${TELLING + 1}`,
      );
      return [word, new Set(jobs)] as const;
    }),
  );
  return new Map(found.filter(([, jobs]) => jobs.size <= TELLING));
}

/** Jobs in which at least one word stands within a number. */
async function foundByCode(db: Database, words: readonly string[], coded: Coded): Promise<number[]> {
  let left = [...new Set([...coded.values()].flatMap((found) => [...found]))];
  for (const word of words) {
    if (left.length === 0) return [];
    // The plus keeps SQLite to one walk through the word's jobs; it would else look the word up anew for each job left.
    const begun = await ids(
      db,
      sql`SELECT rowid AS id FROM search_words WHERE search_words MATCH ${beginning([word])}
        AND +rowid IN (SELECT value FROM json_each(${JSON.stringify(left)}))`,
    );
    const [names, code] = [new Set(begun), coded.get(word)];
    left = left.filter((id) => names.has(id) || code?.has(id));
  }
  return left;
}

type Row = Omit<Found, "number" | "serial"> & {
  readonly year: number;
  readonly sequence: number;
  readonly serial: string | null;
};

/** After rows were put back without their triggers. */
export const searchRebuilt = (db: Database): BatchItem<"sqlite">[] => [
  db.run(sql`INSERT INTO search_words (search_words) VALUES ('rebuild')`),
  db.run(sql`INSERT INTO search_codes (search_codes) VALUES ('rebuild')`),
];
