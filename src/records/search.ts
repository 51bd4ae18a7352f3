/**
 * Finds jobs by what stands in them: owner, unit, serial, faults, notes. Triggers keep one entry a job (migration 0008), so that no
 * writer has to remember it. Each word typed must begin a word of the entry, or stand anywhere in a number, serial, model or phone.
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
    .split(/\s+/)
    .filter((word) => (word.match(/[\p{L}\p{N}]/gu) ?? []).length >= SHORTEST)
    .slice(0, MOST_WORDS);

const quoted = (word: string): string => `"${word.replaceAll('"', '""')}"`;

function entriesWith(word: string): SQL {
  const words = sql`SELECT rowid FROM search_words WHERE search_words MATCH ${`${quoted(word)}*`}`;
  return word.length < TRIGRAM
    ? words
    : sql`${words} UNION SELECT rowid FROM search_codes WHERE search_codes MATCH ${quoted(word)}`;
}

/** Newest first; all words must be found. */
export async function search(db: Database, words: readonly string[], limit: number): Promise<Found[]> {
  if (words.length === 0) return [];
  const all = sql.join(
    words.map((word) => sql`e.id IN (${entriesWith(word)})`),
    sql` AND `,
  );
  const rows = await db.all<Row>(
    sql`SELECT e.job_id AS jobId, j.year, j.sequence, j.arrived_on AS arrivedOn, o.name AS owner, e.unit, u.serial, e.told
      FROM search_entries e JOIN jobs j ON j.id = e.job_id JOIN units u ON u.id = j.unit_id JOIN owners o ON o.id = j.owner_id
      WHERE ${all} ORDER BY e.id DESC LIMIT ${limit}`,
  );
  return rows.map(({ year, sequence, serial, ...row }) => ({
    ...row,
    number: jobNumber({ year, sequence }),
    ...(serial !== null && { serial }),
  }));
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
