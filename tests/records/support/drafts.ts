/** Drafts as acts make, save and issue them, with what came of it as a value. */
import type { z } from "zod";
import type { Act } from "../../../src/acts/act.js";
import { addEstimate, addNextEstimate } from "../../../src/acts/beginDraft.js";
import { type IssuedDraft, issueEstimate, type Press } from "../../../src/acts/issue.js";
import { saveDraft } from "../../../src/acts/saveDraft.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import type { Database } from "../../../src/records/database.js";
import type { EstimateValue } from "../../../src/records/estimates.js";
import { deskAt, done } from "../../acts/support/desk.js";

async function made<F extends z.ZodObject, A, On>(
  act: Act<F, A, On>,
  desk: ReturnType<typeof deskAt>,
  value: z.output<F>,
  on: On,
) {
  const outcome = await done(act, desk, value, on);
  if (!outcome.ok) return { ...outcome.refusal, record: undefined };
  if ("replayed" in outcome) throw new Error("Nobody gave a key.");
  return { is: "done" as const, record: outcome.answer };
}

/** What is said of a draft by someone who read all of it. */
const whole = ({ jobId, rateBookId, rateBookVersion, input }: EstimateValue) =>
  ({ jobId, rateBookId, rateBookVersion, input, unfinished: true }) as never;

export const draftAdded = (db: Database, id: string, value: EstimateValue, at: string) =>
  made(addEstimate, deskAt(db, at), { ...(whole(value) as object), id } as never, {});

/** As it was at the version `seen`. */
export const draftSaved = (db: Database, id: string, seen: number, value: EstimateValue, at: string) =>
  made(saveDraft, deskAt(db, at), whole(value), { id, seen: [seen] });

export const nextDraft = (db: Database, job: string, id: string, at: string) =>
  made(addNextEstimate, deskAt(db, at, id), {}, { job });

export interface Outgoing extends Press {
  readonly by: string;
}

/** Printed for real. */
export const outgoing = (changed: Partial<Outgoing> = {}): Outgoing => ({
  by: "Wilhelmina Stråhle",
  address: (fragment) => `https://shop.example/o#${fragment}`,
  print: (sheet, input) => estimatePdf(sheet, input),
  ...changed,
});

/** With its link, which `outgoing` has an address for. */
export async function issue(db: Database, id: string, seen: number, { by, ...press }: Outgoing, at: string) {
  const { is, record, ...refusal } = await made(issueEstimate, deskAt(db, at), { by }, { id, seen: [seen], ...press });
  const whole = record as (typeof record & Required<IssuedDraft>) | undefined;
  return whole ? { is: "issued" as const, ...whole } : { is, ...refusal };
}
