/** How far work and bill may go on what the owner has agreed to. Minor units, with tax or without as the profile measures. */
import { estimate } from "../estimate.js";
import type { EstimateInput, Minor } from "../input.js";
import type { AgreementProfile } from "../law/profile.js";
import { profileOf } from "../law/profiles.js";
import { isFixed } from "../pricing/quote.js";
import { shopsCeiling, stopsAbove, withTolerance } from "../sheet/terms.js";
import type { Sheet, Totals } from "../sheet.js";
import { withFound } from "./choices.js";

/** An amount both ways, so that it is compared with a limit like with like. */
export type Measured = Pick<Totals, "total" | "withoutTax">;

export interface Limit {
  /** The agreed set's amount. */
  readonly agreed: Minor;
  /** The most that may be reached. */
  readonly upTo: Minor;
  /** Whether both are with tax. */
  readonly withTax: boolean;
  readonly by: "owner's ceiling" | "ceiling" | "tolerance" | "if declined";
}

/**
 * `agreed`: the revision agreed to, with the options chosen (`withChoices`). `found`: ids on its sheet of the groups 'if found' that
 * proved necessary: they were agreed in advance, so the agreed amount grows with them, within the ceiling. `sheet`: its own, where it
 * is known. Undefined when the input has problems.
 * - A ceiling the owner set is with tax and replaces every tolerance, both ways.
 * - A profile that bounds the bill by the estimate allows its tolerance on the agreed amount, never more than the printed ceiling.
 * - Otherwise the printed ceiling holds.
 */
export function agreedLimit(agreed: EstimateInput, found: readonly string[] = [], sheet?: Sheet): Limit | undefined {
  const profile = profileOf(agreed.policy?.profile);
  const base = sheet ?? sheetOrNone(agreed);
  const grown = found.length === 0 || isFixed(agreed.policy) ? base : sheetOrNone(withFound(agreed, found));
  if (!base || !grown) return undefined;
  if (agreed.policy?.ceiling !== undefined)
    return { ...bounds(base.totals.total, agreed.policy.ceiling), withTax: true, by: "owner's ceiling" };
  const amount = measured(profile, base.totals);
  const withTax = profile.taxCounts;
  const { ceiling } = base;
  const shops = ceiling.net === undefined ? shopsCeiling(amount, agreed.rateBook) : withTax ? ceiling.amount : ceiling.net;
  const allowed = withTolerance(measured(profile, grown.totals), profile);
  return stopsAbove(profile) && allowed < shops
    ? { ...bounds(amount, allowed), withTax, by: "tolerance" }
    : { ...bounds(amount, shops), withTax, by: "ceiling" };
}

/** What was agreed may always be reached. */
const bounds = (agreed: Minor, upTo: Minor) => ({ agreed, upTo: Math.max(agreed, upTo) });

const sheetOrNone = (input: EstimateInput): Sheet | undefined => {
  const outcome = estimate(input);
  return outcome.ok ? outcome.sheet : undefined;
};

/** The amount as the profile measures it. */
export const measured = ({ taxCounts }: Pick<AgreementProfile, "taxCounts">, { total, withoutTax }: Measured): Minor =>
  taxCounts ? total : withoutTax;

/** How far an amount passes the limit; 0 when it does not. */
export const over = ({ upTo, withTax }: Limit, { total, withoutTax }: Measured): Minor =>
  Math.max(0, (withTax ? total : withoutTax) - upTo);
