/** What the owner is asked for, by the shop's pricing: as counted, at a fixed price with allowances for risk, or as counted under a ceiling. */
import type { Minor, Policy, Pricing, TaxRules } from "../input.js";
import { isPossible, nameOf } from "../labour/groups.js";
import { behindOf } from "../resolve.js";
import { type Distribution, distributionOf } from "../risk/distribution.js";
import { pricedMinutes, type RiskModel, worth } from "../risk/model.js";
import { type Allowance, allowancesFor, priceBy } from "../risk/pricing.js";
import type { Line, PricingUsed, Why } from "../sheet.js";
import { type Bare, bareOf, netOf, sharesRisk, sourced } from "./bare.js";
import { isUsable } from "./buyPlans.js";
import { type JobRisk, jobRisk } from "./jobRisk.js";
import { price as priceOf, withLines } from "./price.js";
import type { Priced, Workings } from "./workings.js";

const AS_COUNTED: Pricing = { is: "as counted" };
const pricingOf = ({ pricing = AS_COUNTED }: Policy): Pricing => pricing;

/** Whether the owner pays the same whatever turns up, so that possible work is within the price. */
export const isFixed = (policy: Policy | undefined): boolean =>
  policy?.pricing?.is === "fixed price" || policy?.pricing?.is === "expected cost plus";

/** Under a pricing by risk. */
interface Weighed {
  /** What is counted, and what is certain to be found. */
  readonly counted: Priced;
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
  const all = withPossible(counted, workings, (chance) => chance >= 1);
  const bare = bareOf(all, workings);
  const risk = jobRisk(all, bare, workings);
  return { counted: all, bare, risk, total: distributionOf(risk.model) };
}

/** The same with possible work of such chances, as if planned. */
function withPossible(counted: Priced, workings: Workings, wanted: (chance: number) => boolean): Priced {
  if (!sharesRisk(workings.rateBook)) return counted;
  const more = workings.items.filter(({ item: { certainty } }) => certainty.is === "if found" && wanted(certainty.probability));
  if (more.length === 0) return counted;
  const has = new Set([...counted.items, ...more]);
  return priceOf(
    workings,
    workings.items.filter((read) => has.has(read)),
    counted.visit,
    true,
  );
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
  const { risk } = weighed;
  const bare = weighed.counted === counted ? weighed.bare : bareOf(counted, workings);
  const deterministic = netOf(bare.priced.totals);
  const { ceiling, margin, raisedTo, ...asked } = pricedBy(by, weighed, counted, workings);
  const price = ceiling === undefined ? asked.price : deterministic;
  const names = {
    parts: bare.plans.filter(isUsable).map(({ bought }) => bought.part.name),
    work: workings.items
      .filter((read) => isPossible(read) && behindOf(read.item) === undefined)
      .map((read) => nameOf(read, workings)),
  };
  const certain = risk.deterministic - deterministic;
  const above = (ceiling ?? price) - deterministic;
  const lines = allowanceLines(risk.model, { above, margin, certain }, names, workings.rateBook.tax);
  const most = withLines(bare.priced, lines, workings);
  return {
    priced: ceiling === undefined ? most : bare.priced,
    ceiling: { amount: most.totals.total, net: most.totals.withoutTax },
    used: { by, deterministic, price, ...(ceiling !== undefined && { ceiling }), ...(raisedTo && { raisedTo }) },
    weighed,
  };
}

/** Where what is not found would add so little to the price that a figure of the lattice could stand in for it. */
const CLOSE = 0.03;

/** A set costs no more than all of it does, and so does its price; but two distributions are not alike to the last figure. */
function mayPass({ model: { ifFound }, withAll }: JobRisk, most: Minor): boolean {
  if (withAll === undefined || ifFound.length === 0 || withAll >= most) return false;
  const all = ifFound.reduce((chance, { probability }) => chance * probability, 1);
  const missing = ifFound.reduce((sum, { probability, labour, parts }) => {
    const time = labour.reduce(
      (total, line) => total + worth(pricedMinutes(line.time, { charged: "expected" }), line.ratePerHour),
      0,
    );
    return sum + (1 - probability) * (time + parts);
  }, 0);
  return all > 0.001 || missing < CLOSE * most;
}

/** Never above what the same costs with all of it planned. */
function pricedBy(by: Exclude<Pricing, { is: "as counted" }>, { risk, total }: Weighed, counted: Priced, workings: Workings) {
  const own = priceBy(by, total, risk.deterministic);
  const most = ({ price, ceiling = price }: typeof own) => ceiling;
  if (!mayPass(risk, most(own))) return own;
  const planned = weigh(
    withPossible(counted, workings, () => true),
    workings,
  );
  const all = priceBy(by, planned.total, planned.risk.deterministic);
  return most(all) < most(own) ? all : own;
}

/** The total of other work by the same pricing. */
export function quotedTotals(counted: Priced, workings: Workings): Priced["totals"] {
  const by = pricingOf(counted.visit.policy);
  if (by.is === "as counted") return sourced(counted, workings).totals;
  return isFixed(counted.visit.policy) ? quote(counted, workings).priced.totals : bareOf(counted, workings).priced.totals;
}

/**
 * What a price charges above the work as counted, for risk and as margin: lines of their own, each with its reason. They sum to it to
 * the minor unit. `above`: all of it; `margin`: how much of it is set against no risk; `certain`: how much is possible work that is certain. `parts`: names of those bought by plan; `work`: names of what may be found. Nothing is said of an allowance of 0.
 */
function allowanceLines(
  model: RiskModel,
  { above, margin, certain }: { readonly above: Minor; readonly margin: Minor; readonly certain: Minor },
  { parts, work }: { readonly parts: readonly string[]; readonly work: readonly string[] },
  tax: TaxRules,
): Line[] {
  const why: Readonly<Record<Allowance["is"] | "margin", Why>> = {
    labour: { rule: "labour allowance" },
    sourcing: { rule: "sourcing allowance", parts },
    "if found": { rule: "if-found allowance", work },
    margin: { rule: "margin allowance" },
  };
  return [...allowancesFor(model, above - margin, certain), { is: "margin", amount: margin } as const]
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
