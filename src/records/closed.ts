/** Whether a job is closed, without reading what it came to. */
import { and, eq, isNull } from "drizzle-orm";
import type { IsoDate } from "../estimating/input.js";
import { closeOutsTable } from "./closeOuts.js";
import type { Database } from "./database.js";

/** The day it was first closed; undefined while it is open. */
export async function closedOn(db: Database, jobId: string): Promise<IsoDate | undefined> {
  const [row] = await db
    .select({ on: closeOutsTable.closedOn })
    .from(closeOutsTable)
    .where(and(eq(closeOutsTable.jobId, jobId), isNull(closeOutsTable.corrects)));
  return row?.on;
}
