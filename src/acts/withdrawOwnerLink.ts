/** A link that is to open nothing any more. Withdrawing twice is harmless: the first withdrawal stands. */
import { z } from "zod";
import { tellingOf } from "../records/keptOnce.js";
import { addLinkWithdrawal, type OwnerLink, ownerLinks } from "../records/ownerLinks.js";
import { act, type Decided, refused } from "./act.js";
import { hand, line, maybe } from "./field.js";
import { handOf } from "./hand.js";
import { keptOwnerLink } from "./shapes/agreements.js";

const YOUR_NAME = "Your name";

export const withdrawOwnerLink = act({
  name: "withdrawOwnerLink",
  title: "Withdraw the link",
  fields: z
    .strictObject({
      by: hand(YOUR_NAME, { hint: "It goes on record with the withdrawal." }),
      reason: maybe(line("Why")),
    })
    .meta({ id: "Withdrawal" }),
  answer: keptOwnerLink,
  decide: async (
    desk,
    { by, reason },
    { link: id, job: from }: { readonly link: string; readonly job?: string },
  ): Promise<Decided<OwnerLink>> => {
    const found = await ownerLinks.find(desk.db, id);
    const job = !found || (from !== undefined && from !== found.jobId) ? undefined : await desk.job(found.jobId);
    const link = job?.links.find((each) => each.id === id);
    if (!job || !link) return refused("not found", { detail: "There is no such link." });
    if (link.withdrawal) return { answer: link };
    const who = handOf(desk, by, YOUR_NAME);
    if ("refused" in who) return who;
    const row = { id: desk.newId(), jobId: job.id, at: desk.at, linkId: id, by: who.by, ...(reason && { reason }) };
    return {
      answer: { ...link, withdrawal: row },
      writes: [addLinkWithdrawal(desk.db, row)],
      trail: {
        job: job.id,
        head: job.head,
        events: [{ is: "link withdrawn", content: { by: who.by, record: await tellingOf("link_withdrawals", row) } }],
      },
    };
  },
});
