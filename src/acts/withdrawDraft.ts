/** A draft that was a mistake is taken back: it was never issued, so its event is all that stays of it, and the next draft takes its number. */
import { eq } from "drizzle-orm";
import { z } from "zod";
import { estimates, estimatesTable } from "../records/estimates.js";
import { act, refused } from "./act.js";
import { hand, note } from "./field.js";
import { handOf } from "./hand.js";
import { keptOnce } from "./shapes/primitives.js";

const YOUR_NAME = "Your name";
const reason = note("Why", { hint: "Such as: begun on the wrong job." });

export const withdrawDraft = act({
  name: "withdrawDraft",
  title: "Withdraw a draft that was a mistake",
  fields: z.strictObject({ by: hand(YOUR_NAME), reason }).meta({ id: "DraftWithdrawal" }),
  answer: z
    .strictObject({ ...keptOnce, revision: z.int(), by: z.string(), reason })
    .meta({ id: "DraftWithdrawn", description: "The draft that is gone, by whom and why" }),
  /** `seen`: the version that whoever withdraws it looked at. */
  decide: async (desk, { by: named, reason: why }, { id, seen }: { readonly id: string; readonly seen?: number }) => {
    const { db, at } = desk;
    const job = await desk.job({ estimate: id });
    const draft = job?.revision(id);
    if (!job || !draft) return refused("not found", { detail: "There is no such estimate; the draft may be withdrawn already." });
    if (draft.issuedAt) return refused("estimate issued", { headers: { etag: `"${draft.version}"` }, current: draft });
    if (seen !== undefined && seen !== draft.version) return refused("version moved", { current: draft });
    const who = handOf(desk, named, YOUR_NAME);
    if ("refused" in who) return who;
    const { revision, contentHash } = draft;
    const said = { revision, by: who.by, reason: why };
    return {
      answer: { id, jobId: job.id, at, ...said },
      writes: [
        // Fails where it was saved or issued meanwhile, which the row that goes cannot tell.
        estimates.changed(db, draft, {}, at).write,
        db.delete(estimatesTable).where(eq(estimatesTable.id, id)),
      ],
      trail: {
        job: job.id,
        head: job.head,
        events: [{ is: "draft withdrawn", content: { ...said, estimate: id, contentHash } }],
      },
    };
  },
});
