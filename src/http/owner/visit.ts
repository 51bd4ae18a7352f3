/** An owner's visit: the link they came in by, and the revision they look at. */
import type { Context } from "hono";
import type { GoneView, OwnerShop } from "../../pages/owner/view.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { type Issue, issues } from "../../records/issues.js";
import { jobs } from "../../records/jobs.js";
import { ownerEntries } from "../../records/ownerEntries.js";
import { deadSince, type OwnerLink } from "../../records/ownerLinks.js";
import { type Settings, shopSettings } from "../../records/settings.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { entryToken } from "./cookie.js";

export interface Visit {
  readonly link: OwnerLink;
  readonly settings: Settings;
  readonly number: string;
  /** Every issued revision of the job, oldest first. */
  readonly issued: readonly Issue[];
}

export type Visiting =
  | { readonly is: "in"; readonly visit: Visit }
  | { readonly is: "out" }
  | { readonly is: "gone"; readonly view: GoneView };

export async function visiting(c: Context<AppEnv>): Promise<Visiting> {
  const token = entryToken(c);
  const link = token === undefined ? undefined : await ownerEntries.linkOf(c.var.db, token);
  return link ? visitBy(c, link) : { is: "out" };
}

export async function visitBy(c: Context<AppEnv>, link: OwnerLink): Promise<Exclude<Visiting, { is: "out" }>> {
  const { db } = c.var;
  const [settings, job, issued] = await Promise.all([shopSettings(db), jobs.find(db, link.jobId), issues.ofJob(db, link.jobId)]);
  const number = job?.number ?? "";
  const dead = deadSince(link, c.var.clock().toISOString());
  if (!dead) return { is: "in", visit: { link, settings, number, issued } };
  const since = moment(dead.since, settings.locale, settings.timeZone);
  const current = { number, revision: issued.at(-1)?.revision ?? 0 };
  return { is: "gone", view: { is: "gone", shop: ownerShop(settings), why: dead.why, since, current } };
}

export const ownerShop = ({ name, address, phone, email }: Settings): OwnerShop => ({
  name,
  ...(address && { address }),
  ...(phone && { phone }),
  ...(email && { email }),
});

/** By number, by content hash, or the one the link was made for. */
export function issueSeen(
  { issued, link }: Visit,
  wanted: { readonly revision?: number; readonly hash?: string },
): Issue | undefined {
  if (wanted.hash !== undefined) return issued.find(({ contentHash }) => contentHash === wanted.hash);
  if (wanted.revision !== undefined) return issued.find(({ revision }) => revision === wanted.revision);
  return issued.find(({ id }) => id === link.estimateId);
}

/** An issue's own estimate: it is there, since neither is ever deleted. */
export async function estimateOf(c: Context<AppEnv>, { id }: Issue): Promise<Estimate> {
  const found = await estimates.find(c.var.db, id);
  if (!found?.sheet) throw new Error(`Issued estimate ${id} is gone, or has no sheet.`);
  return found;
}
