/** Takes a wrong entry back: it stays on record and counts nowhere, and its part goes back on the shelf. An override of it stays too. */
import type { Database, Instant } from "./database.js";
import { jobs } from "./jobs.js";
import { tellingOf } from "./keptOnce.js";
import { putBack } from "./stock.js";
import { type Decided, recorded } from "./trail.js";
import { type EntryWithdrawal, everyEntryOf, logWithdrawalsTable } from "./workLog.js";

export interface Withdrawing {
  /** Of the withdrawal, chosen by the caller. */
  readonly id: string;
  readonly entryId: string;
  readonly by: string;
  readonly reason: string;
}

export type WithdrawOutcome =
  | { readonly is: "withdrawn"; readonly record: EntryWithdrawal }
  | { readonly is: "missing" }
  | { readonly is: "entry unknown" }
  | { readonly is: "withdrawn already"; readonly record: EntryWithdrawal };

/** The same withdrawal sent twice is one; on a closed job the account stays as it is until it is corrected (`changedAfterClosing`). */
export async function withdrawEntry(db: Database, jobId: string, value: Withdrawing, at: Instant): Promise<WithdrawOutcome> {
  if (!(await jobs.find(db, jobId))) return { is: "missing" };
  const { id, entryId, by } = value;
  return recorded(db, jobId, at, async (): Promise<Decided<WithdrawOutcome>> => {
    const entry = (await everyEntryOf(db, jobId)).find((each) => each.id === entryId);
    if (!entry) return { answer: { is: "entry unknown" } };
    const { withdrawal: before } = entry;
    if (before) return { answer: { is: before.id === id ? "withdrawn" : "withdrawn already", record: before } };
    const record: EntryWithdrawal = { ...value, jobId, at };
    return {
      answer: { is: "withdrawn", record },
      writes: [
        db.insert(logWithdrawalsTable).values(record),
        ...(await putBack(db, `used:${entryId}`, { id: `back:${entryId}`, jobId, by, at })),
      ],
      events: [{ is: "entry withdrawn", content: { by, entry: entryId, record: await tellingOf("log_withdrawals", record) } }],
    };
  });
}
