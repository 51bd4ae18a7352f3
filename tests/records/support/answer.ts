/** The owner's side of a story, at a told moment and under a told id. */
import { z } from "zod";
import { act, refused } from "../../../src/acts/act.js";
import { answered, type Given } from "../../../src/acts/answered.js";
import { askQuestion } from "../../../src/acts/askQuestion.js";
import { makeOwnerLink } from "../../../src/acts/makeOwnerLink.js";
import { replyToQuestion } from "../../../src/acts/replyToQuestion.js";
import { withdrawOwnerLink } from "../../../src/acts/withdrawOwnerLink.js";
import type { Agreement } from "../../../src/records/agreements.js";
import type { Database } from "../../../src/records/database.js";
import type { OwnerLink } from "../../../src/records/ownerLinks.js";
import { deskAt, done } from "../../acts/support/desk.js";

/** What both doors of the answer open onto. */
const any = act({
  name: "anyAnswer",
  title: "Any answer",
  fields: z.strictObject({}),
  answer: z.unknown(),
  decide: async (desk, _: object, given: Given) => {
    const job = await desk.job({ estimate: given.estimateId });
    return job ? answered(desk, job, given) : refused("not found");
  },
});

export type Answered =
  | { readonly is: "recorded"; readonly record: Agreement; readonly again: boolean }
  /** Name of the refusal, or of the fault; its sentence; what stands in the way. */
  | { readonly is: string; readonly pointers: readonly string[]; readonly detail?: string; readonly current?: unknown };

export async function answer(db: Database, id: string, given: Given, at: string): Promise<Answered> {
  const outcome = await done(any, deskAt(db, at, id), {}, given);
  if (!outcome.ok) {
    const { is, errors = [], detail, current } = outcome.refusal;
    const said = errors[0]?.detail ?? detail;
    return {
      is: errors[0]?.name ?? is,
      pointers: errors.map(({ pointer }) => pointer),
      ...(said && { detail: said }),
      ...(current !== undefined && { current }),
    };
  }
  if ("replayed" in outcome) throw new Error("There was no key.");
  const { again = false, ...record } = outcome.answer;
  return { is: "recorded", record, again };
}

const sure = <A>(outcome: Awaited<ReturnType<typeof done<z.ZodObject, A, unknown>>>): A => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusal));
  if ("replayed" in outcome) throw new Error("There was no key.");
  return outcome.answer;
};

export const asks = async (db: Database, id: string, link: OwnerLink, text: string, at: string) =>
  sure(await done(askQuestion, deskAt(db, at, id), { text }, { link, estimate: link.estimateId }));
export const replies = async (db: Database, id: string, question: string, said: { by: string; text: string }, at: string) =>
  sure(await done(replyToQuestion, deskAt(db, at, id), said, { question }));
export const links = async (
  db: Database,
  estimate: string,
  said: { by: string; deliveredTo: string; days?: number },
  at: string,
) => sure(await done(makeOwnerLink, deskAt(db, at), said, { estimate, reachable: true }));
export const withdraws = async (db: Database, id: string, link: string, said: { by: string; reason?: string }, at: string) =>
  sure(await done(withdrawOwnerLink, deskAt(db, at, id), said, { link }));
