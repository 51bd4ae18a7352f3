/** Where a job stands in one word, by its newest revision and the answer to it that no other corrects. */
import { inArray, type SQL, sql } from "drizzle-orm";
import { agreementsTable } from "./agreements.js";
import { closeOutsTable } from "./closeOuts.js";
import type { Database } from "./database.js";
import { estimatesTable } from "./estimates.js";
import { jobsTable } from "./jobs.js";

/** draft: nothing is issued yet, or something newer than what was. agreed: in whole or in part. */
export const JOB_STATES = ["draft", "with the owner", "agreed", "declined", "closed"] as const;
export type JobState = (typeof JOB_STATES)[number];

const newest = sql`(select e.id from ${estimatesTable} e where e.job_id = jobs.id order by e.revision desc limit 1)`;
const issued = sql`exists (select 1 from ${estimatesTable} e where e.id = ${newest} and e.issued_at is not null)`;
const answer = sql`(select a.answer from ${agreementsTable} a where a.job_id = jobs.id and a.estimate_id = ${newest}
  and not exists (select 1 from ${agreementsTable} b where b.corrects = a.id))`;
const state = sql<JobState>`case
  when exists (select 1 from ${closeOutsTable} c where c.job_id = jobs.id) then 'closed'
  when not ${issued} then 'draft'
  else case ${answer} when 'declined' then 'declined' when 'agreed' then 'agreed' when 'part agreed' then 'agreed'
    else 'with the owner' end
  end`;

export const inState = (wanted: JobState): SQL => sql`${state} = ${wanted}`;

export async function statesOf(db: Database, ids: readonly string[]): Promise<ReadonlyMap<string, JobState>> {
  if (ids.length === 0) return new Map();
  const rows = await db
    .select({ id: jobsTable.id, state })
    .from(jobsTable)
    .where(inArray(jobsTable.id, [...ids]));
  return new Map(rows.map((row) => [row.id, row.state]));
}
