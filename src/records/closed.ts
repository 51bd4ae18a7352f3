/** Whether a job is closed, without reading what it came to. */
import { and, eq, gt, inArray, isNull } from "drizzle-orm";
import type { IsoDate } from "../estimating/input.js";
import { closeOutsTable } from "./closeOuts.js";
import type { Database } from "./database.js";
import { eventsTable, ON_THE_LOG } from "./trail.js";

/** The day it was first closed; undefined while it is open. */
export async function closedOn(db: Database, jobId: string): Promise<IsoDate | undefined> {
  const [row] = await db
    .select({ on: closeOutsTable.closedOn })
    .from(closeOutsTable)
    .where(and(eq(closeOutsTable.jobId, jobId), isNull(closeOutsTable.corrects)));
  return row?.on;
}

/** Whether the log is another than the one that stands in the newest close-out, so that it waits for a correction. */
export async function changedAfterClosing(db: Database, jobId: string): Promise<boolean> {
  const heads = await db.select({ head: closeOutsTable.headNumber }).from(closeOutsTable).where(eq(closeOutsTable.jobId, jobId));
  if (heads.length === 0) return false;
  const { job, number, is } = eventsTable;
  const newest = Math.max(...heads.map(({ head }) => head));
  const [later] = await db
    .select({ number })
    .from(eventsTable)
    .where(and(eq(job, jobId), gt(number, newest), inArray(is, [...ON_THE_LOG])))
    .limit(1);
  return later !== undefined;
}
