/** Every job of a database in the order of their numbers, every row of what a shop keeps, logos and photos: all that does not match. */ import {
  asc,
  notInArray,
} from "drizzle-orm";
import type { Mismatch } from "../../acts/checked/mismatch.js";
import { copiesOtherwise } from "../../acts/checked/rowCopies.js";
import { verifyJob } from "../../acts/checked/verifyJob.js";
import type { Database } from "../../records/database.js";
import { type Job, jobNumber, jobsTable } from "../../records/jobs.js";
import { logos } from "../../records/logos.js";
import { countStray } from "../../records/onRecord.js";
import type { PhotoStore } from "../../records/photoStore.js";
import { photoRemovalsTable, photosTable } from "../../records/photos.js";
import { sha256 } from "../../records/sha256.js";
import { derivedOtherwise } from "./derivedRows.js";
import { damage, unfitRows, unreadableJson } from "./everyRow.js";

export interface Verdict {
  readonly jobs: number;
  readonly events: number;
  readonly revisions: number;
  /** Jobs whose personal data was erased. */
  readonly erased: number;
  /** The first, and whatever else does not match. */
  readonly mismatch?: Found;
  readonly others?: readonly Found[];
}

/** `job`: its number, where it is of one. */
interface Found {
  readonly job?: string;
  readonly what: Mismatch;
}

type Numbered = Pick<Job, "id" | "number">;

interface Beside {
  readonly photos?: PhotoStore | undefined;
  /** The database is a file of this machine. */
  readonly file?: boolean;
}

/** `heads`: by job number, short forms read off paper. */
export async function verifyShop(
  db: Database,
  heads: ReadonlyMap<string, readonly string[]> = new Map(),
  { photos, file = false }: Beside = {},
): Promise<Verdict> {
  const found: Found[] = (file ? await damage(db) : []).map((what) => ({ what }));
  const json = await unreadableJson(db);
  found.push(...json.map((what) => ({ what })));
  const told = new Set(json.flatMap((each) => (each.is === "unreadable" ? [`${each.in} ${each.id}`] : [])));
  found.push(...(await unfitRows(db, told)).map((what) => ({ what })));
  const counts = { jobs: 0, events: 0, revisions: 0 };
  const erasedJobs = new Set<string>();
  const all = await allJobs(db);
  const gap = missingNumber(all, [...heads.keys()]);
  if (gap) found.push({ what: { is: "job missing", number: gap } });
  for (const { id, number } of all) {
    try {
      const { mismatch, events, revisions, erased } = await verifyJob(db, id, heads.get(number) ?? []);
      if (mismatch) found.push({ job: number, what: mismatch });
      counts.jobs += 1;
      counts.events += events;
      counts.revisions += revisions;
      if (erased) erasedJobs.add(id);
    } catch (error) {
      if (json.length === 0) throw error;
      // What was told above kept it from being read.
      found.push({ job: number, what: { is: "unchecked", why: (error as Error).message.split("\n")[0]! } });
    }
  }
  const logo = await changedLogo(db);
  if (logo) found.push({ what: { is: "logo changed", id: logo } });
  if (photos) found.push(...(await changedPhotos(db, photos, erasedJobs)).map((what) => ({ what })));
  // JSON that cannot be read would end the statements that read it.
  if (json.length === 0) found.push(...(await derivedOtherwise(db)).map((what) => ({ what })));
  found.push(...(await copiesOtherwise(db)).map((what) => ({ what })));
  const stray = await countStray(db);
  if (stray > 0) found.push({ what: { is: "rows without job", count: stray } });
  const [mismatch, ...others] = found;
  return { ...counts, erased: erasedJobs.size, ...(mismatch && { mismatch }), ...(others.length > 0 && { others }) };
}

/** `erased`: jobs whose photos went with what told of the owner. */
async function changedPhotos(db: Database, photos: PhotoStore, erased: ReadonlySet<string>): Promise<Mismatch[]> {
  const found: Mismatch[] = [];
  const { id, jobId, sha256: hash } = photosTable;
  const removed = db.select({ id: photoRemovalsTable.photoId }).from(photoRemovalsTable);
  const kept = await db.select({ id, jobId, sha256: hash }).from(photosTable).where(notInArray(id, removed));
  const rows = kept.filter((row) => !erased.has(row.jobId));
  for (const row of rows) {
    const bytes = await photos.get(row.id);
    if (!bytes) found.push({ is: "photo missing", id: row.id });
    else if ((await sha256(bytes)) !== row.sha256) found.push({ is: "photo changed", id: row.id });
  }
  return found;
}

/** A picture is named by its hash. */
async function changedLogo(db: Database): Promise<string | undefined> {
  for (const id of await logos.ids(db)) {
    const found = await logos.find(db, id);
    if (!found || (await sha256(found.bytes)) !== id) return id;
  }
  return undefined;
}

/** Nothing else of them: what else a row holds may be what cannot be read. */
const allJobs = async (db: Database): Promise<Numbered[]> => {
  const { id, year, sequence } = jobsTable;
  const rows = await db.select({ id, year, sequence }).from(jobsTable).orderBy(asc(year), asc(sequence));
  return rows.map((row) => ({ id: row.id, number: jobNumber(row) }));
};

/** Numbers run from 1 without gaps within a year; those that were asked for are there. */
function missingNumber(all: readonly Numbered[], asked: readonly string[]): string | undefined {
  const there = new Set(all.map(({ number }) => number));
  const inYear = new Map<string, number>();
  for (const { number } of all) {
    const year = number.slice(0, 6);
    inYear.set(year, (inYear.get(year) ?? 0) + 1);
  }
  const wanted = [...inYear].flatMap(([year, count]) =>
    Array.from({ length: count }, (_, at) => `${year}-${String(at + 1).padStart(4, "0")}`),
  );
  return [...wanted, ...asked].find((number) => !there.has(number));
}
