import type { VarianceKind } from "../estimating/closeout/variance/figures.js";
import type { Minor } from "../estimating/input.js";
import { money } from "./money.js";
import type { Tongue } from "./tongue.js";

const NAME: Readonly<Record<VarianceKind, string>> = {
  rate: "Rate",
  efficiency: "Time",
  price: "Price",
  usage: "Use",
  risk: "Risk",
  terms: "Steps, fees and charges",
  "not agreed": "Not agreed",
};

/** What a variance is called in a table. */
export const varianceName = (kind: VarianceKind): string => NAME[kind];

const WHY: Readonly<Record<VarianceKind, { readonly more: string; readonly less: string }>> = {
  rate: { more: "the time was worked at dearer rates than allowed", less: "the time was worked at cheaper rates than allowed" },
  efficiency: { more: "the work took longer than allowed", less: "the work took less time than allowed" },
  price: { more: "the parts were dearer than allowed", less: "the parts were cheaper than allowed" },
  usage: { more: "more pieces were used than allowed", less: "fewer pieces were used than allowed" },
  risk: { more: "risk cost more than was charged for it", less: "what was charged for risk gives way to what was really spent" },
  terms: {
    more: "billing steps, fees, allowances and charges follow from the rest",
    less: "billing steps, fees, allowances and charges follow from the rest",
  },
  "not agreed": { more: "work or parts were not agreed", less: "work or parts were not agreed" },
};

/** '£96.00 more: the work took longer than allowed.' */
export function varianceText(kind: VarianceKind, amount: Minor, tongue: Tongue): string {
  if (amount === 0) return `${NAME[kind]}: as allowed.`;
  const [size, word, why] = amount > 0 ? [amount, "more", WHY[kind].more] : [-amount, "less", WHY[kind].less];
  return `${money(size, tongue)} ${word}: ${why}.`;
}
