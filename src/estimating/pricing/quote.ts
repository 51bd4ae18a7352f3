/** What the owner is asked for, by the shop's pricing: as counted, at a fixed price with allowances for risk, or as counted under a ceiling. */
import type { Minor, Policy, Pricing, TaxRules } from "../input.js";
import { isPossible, nameOf } from "../labour/groups.js";
import { behindOf } from "../resolve.js";
import { type Distribution, distributionOf } from "../risk/distribution.js";
import type { RiskModel } from "../risk/model.js";
import { type Allowance, allowancesFor, priceBy } from "../risk/pricing.js";
import type { Line, PricingUsed, Why } from "../sheet.js";
import { type Bare, bareOf, netOf, sourced } from "./bare.js";
import { isUsable } from "./buyPlans.js";
import { type JobRisk, jobRisk } from "./jobRisk.js";
import { withLines } from "./price.js";
import type { Priced, Workings } from "./workings.js";

const AS_COUNTED: Pricing = { is: "as counted" };
const pricingOf = ({ pricing = AS_COUNTED }: Policy): Pricing => pricing;

/** Whether the owner pays the same whatever turns up, so that possible work is within the price. */
export const isFixed = (policy: Policy | undefined): boolean =>
  policy?.pricing?.is === "fixed price" || policy?.pricing?.is === "expected cost plus";

/** Under a pricing by risk. */
interface Weighed {
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
    const priced = sourced(counted, workings);
    const price = netOf(priced.totals);
    return { priced, used: { by, deterministic: price, price } };
  }
  const weighed = weigh(counted, workings);
  const { bare, risk, total } = weighed;
  const { deterministic } = risk;
  const { price, ceiling, margin, raisedTo } = priceBy(by, total, deterministic);
  const names = {
    parts: bare.plans.filter(isUsable).map(({ bought }) => bought.part.name),
    work: workings.items
      .filter((read) => isPossible(read) && behindOf(read.item) === undefined)
      .map((read) => nameOf(read, workings)),
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
  if (by.is === "as counted") return sourced(counted, workings).totals;
  return isFixed(counted.visit.policy) ? quote(counted, workings).priced.totals : bareOf(counted, workings).priced.totals;
}

/**
 * What a price charges above the work as counted, for risk and as margin: lines of their own, each with its reason. They sum to it to
 * the minor unit. `above`: all of it; `margin`: how much of it is set against no risk. `parts`: names of those bought by plan; `work`: names of what may be found. Nothing is said of an allowance of 0.
 */
function allowanceLines(
  model: RiskModel,
  { above, margin }: { readonly above: Minor; readonly margin: Minor },
  { parts, work }: { readonly parts: readonly string[]; readonly work: readonly string[] },
  tax: TaxRules,
): Line[] {
  const why: Readonly<Record<Allowance["is"] | "margin", Why>> = {
    labour: { rule: "labour allowance" },
    sourcing: { rule: "sourcing allowance", parts },
    "if found": { rule: "if-found allowance", work },
    margin: { rule: "margin allowance" },
  };
  return [...allowancesFor(model, above - margin), { is: "margin", amount: margin } as const]
    .filter(({ amount }) => amount !== 0)
    .map(({ is, amount }) => {
      const taxClass = is === "sourcing" ? "parts" : "labour";
      return {
        id: `allowance:${is}`,
        sort: "allowance",
        taxClass,
        taxCategory: tax[taxClass],
        amount,
        why: why[is],
        from: [
          { is: "policy", entry: "/pricing" },
          { is: "rule", rule: "allowance for risk" },
        ],
      };
    });
}
