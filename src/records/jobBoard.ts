/** Jobs as a list shows them: whose, which unit, and what the latest estimate comes to. Three statements, however long the list. */
import { inArray, max, sql } from "drizzle-orm";
import type { Minor } from "../estimating/input.js";
import { batchOnce, type Database, type Instant } from "./database.js";
import { estimatesTable } from "./estimates.js";
import { type Job, jobsTable } from "./jobs.js";
import { ownersTable } from "./owners.js";
import { unitsTable } from "./units.js";

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

/** What stands beside these jobs. */
export async function jobCards(db: Database, listed: readonly (Job & { readonly id: string })[]): Promise<readonly JobCard[]> {
  if (listed.length === 0) return [];
  const [people, things, newestOnes] = await besideJobs(db, { jobs: JSON.stringify(listed.map(({ id }) => id)) });
  const latest = new Map(newestOnes.map(asLatest));
  return listed.map((job): JobCard => {
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
}

/** Owners, units and newest revisions of these jobs. */
const besideJobs = batchOnce((db) => {
  const shown = sql`select value from json_each(${sql.placeholder("jobs")})`;
  const of = (column: typeof jobsTable.ownerId | typeof jobsTable.unitId) =>
    sql`(select ${column} from ${jobsTable} where ${jobsTable.id} in (${shown}))`;
  const newest = db
    .select({ jobId: estimatesTable.jobId, revision: max(estimatesTable.revision).as("newest") })
    .from(estimatesTable)
    .where(inArray(estimatesTable.jobId, sql`(${shown})`))
    .groupBy(estimatesTable.jobId)
    .as("newest_revisions");
  return [
    db
      .select({ id: ownersTable.id, name: ownersTable.name })
      .from(ownersTable)
      .where(inArray(ownersTable.id, of(jobsTable.ownerId))),
    db
      .select({ id: unitsTable.id, maker: unitsTable.maker, model: unitsTable.model })
      .from(unitsTable)
      .where(inArray(unitsTable.id, of(jobsTable.unitId))),
    db
      .select({
        id: estimatesTable.id,
        jobId: estimatesTable.jobId,
        revision: estimatesTable.revision,
        issuedAt: estimatesTable.issuedAt,
        currency: sql<string>`json_extract(${estimatesTable.input}, '$.currency')`,
        total: sql<number | null>`json_extract(${estimatesTable.sheet}, '$.totals.total')`,
      })
      .from(estimatesTable)
      .innerJoin(newest, sql`${estimatesTable.jobId} = ${newest.jobId} and ${estimatesTable.revision} = ${newest.revision}`),
  ];
});

const asLatest = ({ jobId, issuedAt, total, ...row }: Awaited<ReturnType<typeof besideJobs>>[2][number]) =>
  [jobId, { ...row, ...(issuedAt !== null && { issuedAt }), ...(total !== null && { total }) }] as const;
