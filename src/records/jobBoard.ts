/** Jobs as a list shows them: whose, which unit, and what the latest estimate comes to. Four statements, however long the list. */
import { inArray, max, type SQL, sql } from "drizzle-orm";
import type { Minor } from "../estimating/input.js";
import type { Database, Instant } from "./database.js";
import { estimatesTable } from "./estimates.js";
import { type Job, jobs } from "./jobs.js";
import type { Page, PageWanted } from "./noun.js";
import { owners, ownersTable } from "./owners.js";
import { units, unitsTable } from "./units.js";

export interface JobCard {
  readonly id: string;
  readonly job: Job;
  readonly owner: string;
  readonly unit: string;
  readonly latest?: {
    readonly id: string;
    readonly revision: number;
    readonly issuedAt?: Instant;
    readonly currency: string;
    /** Absent while the estimate has problems. */
    readonly total?: Minor;
  };
}

export async function jobBoard(db: Database, wanted: PageWanted, condition?: SQL): Promise<Page<JobCard>> {
  const page = await jobs.list(db, wanted, condition);
  const ids = <K extends "ownerId" | "unitId" | "id">(name: K) => [...new Set(page.rows.map((job) => job[name]))];
  if (page.rows.length === 0) return { rows: [] };
  const [people, things, latest] = await Promise.all([
    owners.where(db, inArray(ownersTable.id, ids("ownerId"))),
    units.where(db, inArray(unitsTable.id, ids("unitId"))),
    latestOf(db, ids("id")),
  ]);
  const rows = page.rows.map((job): JobCard => {
    const unit = things.find(({ id }) => id === job.unitId);
    const newest = latest.get(job.id);
    return {
      id: job.id,
      job,
      owner: people.find(({ id }) => id === job.ownerId)?.name ?? "",
      unit: unit ? `${unit.maker} ${unit.model}` : "",
      ...(newest && { latest: newest }),
    };
  });
  return { ...page, rows };
}

async function latestOf(db: Database, jobIds: readonly string[]): Promise<ReadonlyMap<string, NonNullable<JobCard["latest"]>>> {
  const newest = db
    .select({ jobId: estimatesTable.jobId, revision: max(estimatesTable.revision).as("newest") })
    .from(estimatesTable)
    .where(inArray(estimatesTable.jobId, [...jobIds]))
    .groupBy(estimatesTable.jobId)
    .as("newest_revisions");
  const rows = await db
    .select({
      id: estimatesTable.id,
      jobId: estimatesTable.jobId,
      revision: estimatesTable.revision,
      issuedAt: estimatesTable.issuedAt,
      currency: sql<string>`json_extract(${estimatesTable.input}, '$.currency')`,
      total: sql<number | null>`json_extract(${estimatesTable.sheet}, '$.totals.total')`,
    })
    .from(estimatesTable)
    .innerJoin(newest, sql`${estimatesTable.jobId} = ${newest.jobId} and ${estimatesTable.revision} = ${newest.revision}`);
  return new Map(
    rows.map(({ jobId, issuedAt, total, ...row }) => [
      jobId,
      { ...row, ...(issuedAt !== null && { issuedAt }), ...(total !== null && { total }) },
    ]),
  );
}
