/** The next revision of a job, as a draft: the latest one once more, without the paperwork it went out with but for the photos. */
import type { Database, Instant } from "./database.js";
import { type Estimate, estimates } from "./estimates.js";

export type NextDraft =
  | { readonly is: "added"; readonly record: Estimate }
  | { readonly is: "draft open"; readonly current: Estimate }
  /** There is no such job, or it has no estimate to go on from. */
  | { readonly is: "missing" };

export async function nextDraft(db: Database, jobId: string, id: string, at: Instant): Promise<NextDraft> {
  const latest = (await estimates.ofJob(db, jobId)).at(-1);
  if (!latest) return { is: "missing" };
  if (!latest.issuedAt) return { is: "draft open", current: latest };
  const { paperwork, ...bare } = latest.input;
  const input = { ...bare, ...(paperwork?.photos && { paperwork: { photos: paperwork.photos } }) };
  const { rateBookId, rateBookVersion } = latest;
  const added = await estimates.add(db, id, { jobId, rateBookId, rateBookVersion, input }, at);
  if (added.is === "added") return added;
  const open = (await estimates.ofJob(db, jobId)).at(-1);
  if (!open || open.issuedAt) throw new Error(`The next revision of job ${jobId} could not be written: ${added.is}.`);
  return { is: "draft open", current: open };
}
