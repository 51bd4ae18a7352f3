/** Sends an owner's link, just made, where the person who made it ticked so. */
import type { Context } from "hono";
import type { LinkOnceProps } from "../../pages/revise/linkOnce.js";
import { ownerMail } from "../../wording/sending.js";
import type { AppEnv } from "../bindings.js";
import { send } from "./send.js";

export async function sendLink(
  c: Context<AppEnv>,
  fields: ReadonlyMap<string, string>,
  link: LinkOnceProps,
): Promise<LinkOnceProps> {
  if (fields.get("send") !== "yes") return link;
  const { owner, job, revision, shop, address, code, deliveredTo } = link;
  const to = deliveredTo.includes("@") ? deliveredTo : (owner.email ?? "");
  if (to === "") return { ...link, sent: { failed: "no e-mail address is known" } };
  const { subject, text } = ownerMail({ owner, number: job.number, unit: job.unit, revision, shop, address, code });
  const about = { id: job.id, number: job.number, revision };
  const sent = await send(c, { type: "estimate", to, subject, text, link: address, job: about });
  if (sent.is === "sent") return { ...link, sent: { to } };
  return {
    ...link,
    sent: { failed: sent.is === "off" ? "the send hook is switched off" : `your program did not take it, ${sent.why}` },
  };
}
