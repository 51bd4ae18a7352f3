/**
 * A wrong entry of the work log is taken back: it stays on record and no longer counts, and its part goes back on the shelf. An override
 * of it stays too. On a closed job the account stays as it is until it is corrected.
 */
import { z } from "zod";
import { tellingOf } from "../records/keptOnce.js";
import { putBack } from "../records/stock.js";
import { type EntryWithdrawal, logWithdrawalsTable } from "../records/workLog.js";
import { act, type Desk, refused } from "./act.js";
import { draftFinding } from "./draftFinding.js";
import { hand, line, maybe, note } from "./field.js";
import { handOf } from "./hand.js";
import type { JobAsItStands } from "./job.js";
import { keptLogEntry, logEntryKeys, logWork, type OnJob } from "./logWork.js";
import { keptOnce } from "./shapes/primitives.js";

const WHO = "Your name";
const by = line(WHO, { most: 200 });
const reason = note("Why", { hint: "Such as: 200 typed for 20." });

export const keptWithdrawal = z
  .strictObject({ ...keptOnce, entryId: z.string(), by, reason })
  .meta({ id: "EntryWithdrawalRecord" });
export const listedLogEntry = z
  .strictObject({
    ...logEntryKeys,
    withdrawal: maybe(keptWithdrawal).meta({ description: "The entry was wrong and no longer counts" }),
  })
  .meta({ id: "LogEntryListed" });

export const withdrawEntry = act({
  name: "withdrawLogEntry",
  title: "Withdraw a wrong entry: it stays on record and no longer counts, and its part goes back on the shelf",
  fields: z.strictObject({ by: hand(WHO), reason }).meta({ id: "EntryWithdrawal" }),
  answer: keptWithdrawal,
  decide: async (desk, value, on: OnEntry) => {
    const job = await desk.job(on.job);
    if (!job) return NO_JOB;
    const gone = await withdrawn(desk, job, on.entry, value);
    if ("refused" in gone) return gone;
    const { entry, writes, ...rest } = gone;
    return { ...rest, writes: [...writes, ...(await draftFinding(desk, job, job.without(entry).found()))] };
  },
});

interface OnEntry extends OnJob {
  readonly entry: string;
}

async function withdrawn(
  desk: Desk,
  job: JobAsItStands,
  entryId: string,
  { by: named, reason: why }: { readonly by?: string | undefined; readonly reason: string },
  pointer?: string,
) {
  const entry = job.everyEntry.find(({ id }) => id === entryId);
  if (!entry) return NO_ENTRY;
  if (entry.withdrawal) return withdrawnAlready(entry.withdrawal);
  const who = handOf(desk, named, WHO, pointer);
  if ("refused" in who) return who;
  const { db, at } = desk;
  const jobId = job.id;
  const record: EntryWithdrawal = { id: desk.newId(), entryId, by: who.by, reason: why, jobId, at };
  const used = job.movements.find(({ id }) => id === `used:${entryId}`);
  const event = { by: who.by, entry: entryId, record: await tellingOf("log_withdrawals", record) };
  return {
    answer: record,
    writes: [
      db.insert(logWithdrawalsTable).values(record),
      ...(used ? [putBack(db, used, { id: `back:${entryId}`, jobId, by: who.by, at })] : []),
    ],
    trail: { job: jobId, head: job.head, events: [{ is: "entry withdrawn" as const, content: event }] },
    entry,
  };
}

/** Both or neither: the new entry is judged by the job without the wrong one. */
export const correctEntry = act({
  name: "correctLogEntry",
  title: "Withdraw a wrong entry and log it again",
  fields: logWork.fields
    .safeExtend({ withdrawal: z.strictObject({ by: hand(WHO), reason }) })
    .meta({ id: "EntryCorrection", description: "The entry as it should have been, and why the wrong one is withdrawn" }),
  answer: keptLogEntry,
  decide: async (desk, { withdrawal, ...value }, on: OnEntry) => {
    const job = await desk.job(on.job);
    if (!job) return NO_JOB;
    const gone = await withdrawn(desk, job, on.entry, withdrawal, "/withdrawal/by");
    if ("refused" in gone) return gone;
    // One change of the draft, by all that there is once both are done.
    const { draft: _, ...rest } = job.without(gone.entry);
    const made = await logWork.decide({ ...desk, job: async () => rest }, value, { job: on.job });
    if ("refused" in made) return made;
    const events = [...gone.trail.events, ...(made.trail?.events ?? [])];
    const drafted = await draftFinding(desk, job, rest.found(made.answer));
    return {
      answer: made.answer,
      writes: [...gone.writes, ...(made.writes ?? []), ...drafted],
      trail: { ...gone.trail, events },
    };
  },
});

const NO_JOB = refused("not found", { detail: "There is no such job." });

export const NO_ENTRY = refused("log entry unknown", {
  detail: "The work log of this job has no such entry; open the log again and choose one.",
});
export const withdrawnAlready = ({ by: first, reason: why }: EntryWithdrawal) =>
  refused("entry withdrawn already", { detail: `${first} withdrew this entry before: ${why}` });
