/** Invariant: every total is the sum of what is printed above it, in the order of EN 16931 (BR-CO-10 to BR-CO-17). */
import type { Minor, TaxRules } from "../input.js";
import type { Totals } from "../sheet.js";
import { type Taxed, taxGroups } from "./taxGroups.js";

/** A document allowance (`charge` false) or charge; the amount as printed, positive. */
export interface AllowanceOrCharge extends Taxed {
  readonly charge: boolean;
}

/** Lines -> allowances and charges -> tax per group -> total -> prepaid -> due, in minor units. Throws on a tax category that is not in the rules. */
export function addUp(lines: readonly Taxed[], adjustments: readonly AllowanceOrCharge[], tax: TaxRules, prepaid: Minor): Totals {
  const signed = adjustments.map(({ charge, amount, taxCategory }) => ({ taxCategory, amount: charge ? amount : -amount }));
  const groups = taxGroups([...lines, ...signed], tax);
  const linesNet = sum(lines);
  const allowances = sum(adjustments.filter(({ charge }) => !charge));
  const charges = sum(adjustments.filter(({ charge }) => charge));
  const taxTotal = groups.reduce((total, { tax: amount }) => total + amount, 0);
  const withoutTax = linesNet - allowances + charges - (tax.included ? taxTotal : 0);
  const total = withoutTax + taxTotal;
  return {
    linesNet,
    allowances,
    charges,
    withoutTax,
    taxGroups: groups,
    tax: taxTotal,
    total,
    prepaid,
    due: total - prepaid,
    pricesIncludeTax: tax.included,
    rounding: tax.rounding,
  };
}

const sum = (all: readonly Taxed[]): Minor => all.reduce((total, { amount }) => total + amount, 0);
