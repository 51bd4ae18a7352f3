/** What the owner is asked for, by the shop's pricing: as counted, at a fixed price with allowances for risk, or as counted under a ceiling. */
import type { Minor, Policy, Pricing } from "../input.js";
import { isPossible } from "../labour/groups.js";
import { type Distribution, distributionOf } from "../risk/distribution.js";
import { priceBy } from "../risk/pricing.js";
import type { PricingUsed } from "../sheet.js";
import { allowanceLines } from "./allowanceLines.js";
import { isUsable } from "./buyPlans.js";
import { type Bare, bareOf, type JobRisk, jobRisk, netOf } from "./jobRisk.js";
import { nameOf } from "./nameOf.js";
import { withLines } from "./price.js";
import type { Priced, Workings } from "./workings.js";

export const AS_COUNTED: Pricing = { is: "as counted" };
export const pricingOf = ({ pricing = AS_COUNTED }: Policy): Pricing => pricing;

/** Whether the owner pays the same whatever turns up, so that possible work is within the price. */
export const isFixed = (policy: Policy | undefined): boolean =>
  policy?.pricing?.is === "fixed price" || policy?.pricing?.is === "expected cost plus";

/** Under a pricing by risk. */
export interface Weighed {
  readonly bare: Bare;
  readonly risk: JobRisk;
  readonly total: Distribution;
}

export interface Quote {
  /** With its allowances, if any. */
  readonly priced: Priced;
  /** Tax included, and without. */
  readonly ceiling?: { readonly amount: Minor; readonly net: Minor };
  readonly used: PricingUsed;
  readonly weighed?: Weighed;
}

export function weigh(counted: Priced, workings: Workings): Weighed {
  const bare = bareOf(counted, workings);
  const risk = jobRisk(counted, bare, workings);
  return { bare, risk, total: distributionOf(risk.model) };
}

/** `counted`: the price of the work as counted. */
export function quote(counted: Priced, workings: Workings): Quote {
  const by = pricingOf(counted.visit.policy);
  if (by.is === "as counted") {
    const price = netOf(counted.totals);
    return { priced: counted, used: { by, deterministic: price, price } };
  }
  const weighed = weigh(counted, workings);
  const { bare, risk, total } = weighed;
  const { deterministic } = risk;
  const { price, ceiling, margin, raisedTo } = priceBy(by, total, deterministic);
  const names = {
    parts: bare.plans.filter(isUsable).map(({ bought }) => bought.part.name),
    work: workings.items.filter(isPossible).map((read) => nameOf(read, workings)),
  };
  const lines = allowanceLines(risk.model, { above: (ceiling ?? price) - deterministic, margin }, names, workings.rateBook.tax);
  const most = withLines(bare.priced, lines, workings);
  return {
    priced: ceiling === undefined ? most : bare.priced,
    ceiling: { amount: most.totals.total, net: most.totals.withoutTax },
    used: { by, deterministic, price, ...(ceiling !== undefined && { ceiling }), ...(raisedTo && { raisedTo }) },
    weighed,
  };
}

/** The total of other work by the same pricing. */
export function quotedTotals(counted: Priced, workings: Workings): Priced["totals"] {
  const by = pricingOf(counted.visit.policy);
  if (by.is === "as counted") return counted.totals;
  return isFixed(counted.visit.policy) ? quote(counted, workings).priced.totals : bareOf(counted, workings).priced.totals;
}
