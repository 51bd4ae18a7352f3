/** How far work and bills may go on what the owner has agreed to. Minor units, measured with or without tax as the profile says. */
import type { Minor } from "../input.js";
import { percentOf } from "../money/scales.js";
import type { Sheet } from "../sheet.js";
import type { AgreementProfile } from "./profile.js";

export interface Limit {
  /** What was agreed. */
  readonly agreed: Minor;
  readonly tolerance: Minor;
  /** agreed + tolerance, or the agreed ceiling where that is lower than no figure allows. */
  readonly upTo: Minor;
  readonly withTax: boolean;
}

/** A profile that states no figure allows no excess. The agreed ceiling, where the owner agreed to one, replaces agreed + tolerance. */
export function agreedLimit(profile: AgreementProfile, agreed: { readonly amount: Minor; readonly ceiling?: Minor }): Limit {
  const tolerance = percentOf(agreed.amount, profile.tolerancePercent ?? 0, "down");
  return {
    agreed: agreed.amount,
    tolerance,
    upTo: Math.max(agreed.ceiling ?? 0, agreed.amount + tolerance),
    withTax: profile.taxCounts,
  };
}

/** The amount of a sheet as the profile measures it. */
export const measured = (profile: AgreementProfile, sheet: Sheet): Minor =>
  profile.taxCounts ? sheet.totals.total : sheet.totals.withoutTax;
