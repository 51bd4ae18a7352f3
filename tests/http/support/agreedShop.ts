/** A shop of this test's own in which the tape echo's first revision is agreed to, without its options. Agreed to once, and copied. */
import { agreedJob } from "../../records/support/closed.js";
import { draftSaved } from "../../records/support/drafts.js";
import { draftOf, TAPE_ECHO } from "../../records/support/livedIn.js";
import { madeOnce } from "./madeOnce.js";
import { visitor } from "./noScript.js";
import { demoFile, shop } from "./shop.js";

export const agreedFile = madeOnce((db) => agreedJob(db), demoFile);

export const agreedShop = async () => shop({}, (await agreedFile()).path);

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
