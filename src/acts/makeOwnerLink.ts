/** One more link to an issued estimate, for one more address. Its secret and its code are told once. */
import { z } from "zod";
import { tellingOf } from "../records/keptOnce.js";
import { type LinkSecret, newLink } from "../records/newLink.js";
import { addLink, linkFrom, type OwnerLink } from "../records/ownerLinks.js";
import { act, type Decided, refused } from "./act.js";
import { hand, line, maybe, whole } from "./field.js";
import { handOf } from "./hand.js";
import { LINK_DAYS } from "./settings.js";
import { madeOwnerLink } from "./shapes/agreements.js";

const YOUR_NAME = "Your name";
const DAY = 24 * 3_600_000;

export const makeOwnerLink = act({
  name: "addOwnerLink",
  title: "Make a link for the owner",
  fields: z
    .strictObject({
      by: hand(YOUR_NAME, { hint: "It goes on record with the link." }),
      deliveredTo: line("Where it goes", {
        most: 200,
        hint: "An e-mail address, a telephone number, or the like; the answer's record tells it.",
      }),
      days: maybe(whole("Days it opens", { ...LINK_DAYS, hint: "Empty: as the shop's settings say" })),
    })
    .meta({ id: "OwnerLink" }),
  answer: madeOwnerLink,
  decide: async (
    desk,
    { by, deliveredTo, days },
    { estimate, reachable }: { readonly estimate: string; readonly reachable: boolean },
  ): Promise<Decided<OwnerLink & { readonly secret: LinkSecret }>> => {
    const job = await desk.job({ estimate });
    if (!job) return refused("not found", { detail: "There is no such estimate." });
    if (!job.issueOf(estimate)) return refused("estimate not issued");
    if (!reachable) return refused("no public address");
    const who = handOf(desk, by, YOUR_NAME);
    if ("refused" in who) return who;
    const expiresAt = new Date(desk.now.getTime() + (days ?? job.settings.linkDays) * DAY).toISOString();
    const { row, secret } = await newLink(
      { estimateId: estimate, jobId: job.id },
      { by: who.by, deliveredTo, expiresAt },
      desk.at,
    );
    return {
      answer: { ...linkFrom(row, undefined), secret },
      writes: [addLink(desk.db, row)],
      trail: {
        job: job.id,
        head: job.head,
        events: [{ is: "link made", content: { by: who.by, record: await tellingOf("owner_links", row) } }],
      },
    };
  },
});
