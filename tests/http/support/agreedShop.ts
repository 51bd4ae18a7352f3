/** A shop of this test's own in which the tape echo's first revision is agreed to, without its options. Agreed to once, and copied. */

import type { Database } from "../../../src/records/database.js";
import { agreedJob } from "../../records/support/closed.js";
import { draftSaved } from "../../records/support/drafts.js";
import { at, draftOf, TAPE_ECHO } from "../../records/support/livedIn.js";
import { madeOnce } from "./madeOnce.js";
import { visitor } from "./noScript.js";
import { demoFile, shop } from "./shop.js";

export const agreedFile = madeOnce((db) => agreedJob(db), demoFile);

export const agreedShop = async () => shop({}, (await agreedFile()).path);

/** The open draft is priced so that its time and parts are billed as they come. */
export async function byTime(db: Database, jobId = TAPE_ECHO) {
  const draft = await draftOf(db, jobId);
  const policy = { ...draft.input.policy, pricing: { is: "time and parts with ceiling", confidencePercent: 95 } as const };
  const saved = await draftSaved(db, draft.id, draft.version, { ...draft, input: { ...draft.input, policy } }, at(0));
  if (saved.is !== "done") throw new Error(JSON.stringify(saved));
}

/** The tape echo agreed to, to be billed by its time. */
export async function agreedByTime() {
  const opened = await shop();
  await byTime(opened.db);
  await agreedJob(opened.db);
  return opened;
}

/** The tape echo agreed to on an estimate that counts so much as paid before. */
export async function agreedPaidBefore(prepaid: number) {
  const opened = await shop();
  const { db } = opened;
  const draft = await draftOf(db, TAPE_ECHO);
  const input = { ...draft.input, policy: { ...draft.input.policy, prepaid } };
  const saved = await draftSaved(db, draft.id, draft.version, { ...draft, input }, "2026-11-25T09:00:00.000Z");
  if (saved.is !== "done") throw new Error(JSON.stringify(saved));
  await agreedJob(db);
  return { ...opened, desk: visitor(opened) };
}
