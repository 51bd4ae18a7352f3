import { eq } from "drizzle-orm";
import { job, keptJob } from "../../acts/shapes/resources.js";
import { type Job, type JobValue, jobsTable, jobs as records } from "../../records/jobs.js";
import { resource } from "./resource.js";

export const jobs = resource<JobValue, Job>({
  path: "/api/jobs",
  one: "job",
  many: "jobs",
  value: job,
  kept: keptJob,
  narrow: { unit: "Only visits of this unit" },
  ...records,
  list: (db, wanted, { unit }) => records.list(db, wanted, unit ? eq(jobsTable.unitId, unit) : undefined),
});
