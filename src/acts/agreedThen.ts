/** What was logged as agreed before the owner took the agreement back: neither looking, nor let through by an override. */
import { isLooking } from "../estimating/agreement/workLog.js";
import type { AccountTerms } from "../estimating/closeout/account/terms.js";
import type { EstimateInput } from "../estimating/input.js";
import type { LogEntryValue } from "../records/workLog.js";
import type { JobAsItStands } from "./job.js";

/** Opening and refitting, finding the fault and inspecting; no part is any of it. */
export const looks = (input: EstimateInput, { own, offer, item, partKind, partType, ownPart, parts }: LogEntryValue): boolean =>
  (own ?? offer ?? partKind ?? partType ?? ownPart ?? parts) === undefined && isLooking(input, item);

/** Undefined where there is none. */
export function agreedThen(job: JobAsItStands): Omit<NonNullable<AccountTerms["agreedThen"]>, "charged"> | undefined {
  const input = job.input();
  const agreements = job.answers.filter(({ answer }) => answer !== "declined");
  if (!input || agreements.length === 0 || job.agreed()) return undefined;
  const entries = job.entries.filter(
    (entry) =>
      entry.overrideId === undefined &&
      entry.parts === undefined &&
      !looks(input, entry) &&
      agreements.some(({ at }) => at <= entry.at),
  );
  const upTo = Math.max(...agreements.map(({ amount = 0, ceiling = amount }) => Math.max(amount, ceiling)));
  return entries.length === 0 ? undefined : { entries: entries.map(({ id }) => id), upTo };
}
