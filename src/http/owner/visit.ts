/** An owner's visit: the link they came in by, and the revision they look at. */
import type { Context } from "hono";
import { type JobAsItStands, jobAsItStands } from "../../acts/job.js";
import type { Sheet } from "../../estimating/sheet.js";
import type { GoneView, OwnerShop } from "../../pages/owner/view.js";
import type { Estimate } from "../../records/estimates.js";
import type { Issue } from "../../records/issues.js";
import { ownerEntries } from "../../records/ownerEntries.js";
import { deadSince, type OwnerLink } from "../../records/ownerLinks.js";
import type { Settings } from "../../records/settings.js";
import { moment, spokenIn } from "../../wording/time.js";
import { languageOf } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { entryToken } from "./cookie.js";

export interface Visit {
  readonly link: OwnerLink;
  readonly job: JobAsItStands;
  readonly settings: Settings;
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
  const job = await jobAsItStands(c.var.db, link.jobId);
  if (!job) throw new Error(`Link ${link.id} leads to no job.`);
  const { settings } = job;
  const dead = deadSince(link, c.var.clock().toISOString());
  if (!dead) return { is: "in", visit: { link, job, settings } };
  const { language, locale = settings.locale } = job.revision(link.estimateId)?.input.paperwork ?? {};
  const since = moment(dead.since, spokenIn(locale, languageOf(language)), settings.timeZone);
  const current = { number: job.job.number, revision: job.current?.revision ?? 0 };
  const view = { language: languageOf(language), shop: ownerShop(settings), why: dead.why, since, current };
  return { is: "gone", view: { is: "gone", ...view } };
}

/** As it stands after what was done. */
export const anew = async (c: Context<AppEnv>, visit: Visit): Promise<Visit> => ({
  ...visit,
  job: (await jobAsItStands(c.var.db, visit.job.id))!,
});

export const ownerShop = ({ name, address, phone, email }: Settings): OwnerShop => ({
  name,
  ...(address && { address }),
  ...(phone && { phone }),
  ...(email && { email }),
});

/** By number, by content hash, or the one the link was made for. */
export function issueSeen(
  { job: { issues }, link }: Visit,
  wanted: { readonly revision?: number; readonly hash?: string },
): Issue | undefined {
  if (wanted.hash !== undefined) return issues.find(({ contentHash }) => contentHash === wanted.hash);
  if (wanted.revision !== undefined) return issues.find(({ revision }) => revision === wanted.revision);
  return issues.find(({ id }) => id === link.estimateId);
}

/** An issue's own estimate: it is there, since neither is ever deleted. */
export function estimateOf({ job }: Visit, { id }: Issue): Estimate & { readonly sheet: Sheet } {
  const found = job.revision(id);
  if (!found?.sheet) throw new Error(`Issued estimate ${id} is gone, or has no sheet.`);
  return { ...found, sheet: found.sheet };
}
