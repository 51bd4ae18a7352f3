/** A job that was agreed to, worked on as its sheet says or as a test wants, and closed. Times and people invented. */

import type { Closing } from "../../../src/acts/closeJob.js";
import { partOf } from "../../../src/estimating/resolve.js";
import type { Database } from "../../../src/records/database.js";
import { tellingOf } from "../../../src/records/keptOnce.js";
import { recorded } from "../../../src/records/trail.js";
import { type LogEntry, type LogEntryValue, workLogTable } from "../../../src/records/workLog.js";
import { answerOf, close, stands } from "../../acts/support/bench.js";
import { answer } from "./answer.js";
import { closing, HAND } from "./closing.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "./livedIn.js";

export { closing, HAND } from "./closing.js";

/** Its first revision is agreed to, without options. */
export async function agreedJob(db: Database, jobId = TAPE_ECHO) {
  const { record } = await issued(db, (await draftOf(db, jobId)).id);
  recordOf(await answer(db, `yes ${jobId}`, await given(db, record.id), at(2)));
  return record;
}

/** Put on record at once, as `logWork` would one by one. */
export async function logged(db: Database, jobId: string, entries: readonly Partial<LogEntryValue>[], when = at(3)) {
  const rows = entries.map((entry, index): LogEntry => {
    const id = `${jobId} ${when} ${index}`;
    return { id, jobId, at: when, person: HAND, workedOn: "2026-11-25", ...entry };
  });
  const events = await Promise.all(
    rows.map(async (row) => ({
      is: "work logged" as const,
      content: { person: HAND, record: await tellingOf("work_log", row) },
    })),
  );
  await recorded(db, jobId, when, async () => ({ answer: 0, writes: [db.insert(workLogTable).values(rows)], events }));
}

/** Every line of work that is charged, at `times` its likely minutes, and every part at its catalogue cost. */
export async function worked(db: Database, jobId: string, times = 1) {
  const { sheet, input } = (await stands(db, jobId)).agreed()!;
  const costOf = (type: string | undefined) => input.rateBook.partTypes.find(({ id }) => id === type)?.typicalCost ?? 100;
  const time = sheet.lines.flatMap(({ sort, id, assembly, minutes = 0 }): Partial<LogEntryValue>[] => {
    const taken = Math.round(minutes * times * 10) / 10;
    if (sort === "access") return [{ ...(assembly && { assembly: assembly.id }), minutes: taken }];
    return id.startsWith("labour:") ? [{ item: id.slice(7), minutes: taken }] : [];
  });
  const parts = input.items.flatMap((item): Partial<LogEntryValue>[] => {
    const { id, count, certainty } = item;
    const part = partOf(item);
    if (!part || certainty.is !== "planned" || count === 0) return [];
    const type = "kind" in part ? input.kinds?.find((each) => each.id === part.kind)?.type : part.type;
    const named = "kind" in part ? { partKind: part.kind } : { partType: part.type };
    return [{ item: id, ...named, partCount: count, paidPrice: costOf(type), paidPer: 1, partState: "new" }];
  });
  await logged(db, jobId, [...time, ...parts]);
}

export async function closed(db: Database, jobId = TAPE_ECHO, changed: Partial<Closing> = {}, times = 1, id = "closed") {
  await agreedJob(db, jobId);
  await worked(db, jobId, times);
  answerOf(await close(db, { id, job: jobId, when: at(600) }, closing(changed)));
  return (await stands(db, jobId)).closeOut!;
}
