/** Every job of a database, in the order of their numbers, up to the first thing that does not match. */

import type { Mismatch } from "../../acts/checked/mismatch.js";
import { verifyJob } from "../../acts/checked/verifyJob.js";
import type { Database } from "../../records/database.js";
import { type Job, jobs } from "../../records/jobs.js";
import { logos } from "../../records/logos.js";
import { countOnRecord } from "../../records/onRecord.js";
import { sha256 } from "../../records/sha256.js";

export interface Verdict {
  readonly jobs: number;
  readonly events: number;
  readonly revisions: number;
  /** Jobs whose personal data was erased. */
  readonly erased: number;
  /** Number of the job, where it is of one. */
  readonly mismatch?: { readonly job?: string; readonly what: Mismatch };
}

/** `heads`: by job number, short forms read off paper. */
export async function verifyShop(db: Database, heads: ReadonlyMap<string, readonly string[]> = new Map()): Promise<Verdict> {
  const all = await allJobs(db);
  const counts = { jobs: 0, events: 0, revisions: 0, erased: 0, rows: 0 };
  const verdict = (mismatch?: Verdict["mismatch"]): Verdict => {
    const { rows: _, ...counted } = counts;
    return mismatch ? { ...counted, mismatch } : counted;
  };
  const gap = missingNumber(all, [...heads.keys()]);
  if (gap) return verdict({ what: { is: "job missing", number: gap } });
  for (const { id, number } of all) {
    const { mismatch, events, rows, revisions, erased } = await verifyJob(db, id, heads.get(number) ?? []);
    if (mismatch) return verdict({ job: number, what: mismatch });
    counts.jobs += 1;
    counts.events += events;
    counts.rows += events + rows;
    counts.revisions += revisions;
    if (erased) counts.erased += 1;
  }
  const logo = await changedLogo(db);
  if (logo) return verdict({ what: { is: "logo changed", id: logo } });
  const stray = (await countOnRecord(db)) - counts.rows;
  return verdict(stray > 0 ? { what: { is: "rows without job", count: stray } } : undefined);
}

/** A picture is named by its hash. */
async function changedLogo(db: Database): Promise<string | undefined> {
  for (const id of await logos.ids(db)) {
    const found = await logos.find(db, id);
    if (!found || (await sha256(found.bytes)) !== id) return id;
  }
  return undefined;
}

async function allJobs(db: Database): Promise<Job[]> {
  const found: Job[] = [];
  for (let after: string | undefined; ; ) {
    const page = await jobs.list(db, { limit: 1000, after });
    found.push(...page.rows);
    after = page.next;
    if (after === undefined) break;
  }
  return found.sort((a, b) => (a.number < b.number ? -1 : 1));
}

/** Numbers run from 1 without gaps within a year; those that were asked for are there. */
function missingNumber(all: readonly Job[], asked: readonly string[]): string | undefined {
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
