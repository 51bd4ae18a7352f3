import type { Adjustment, Sheet } from "../../estimating/sheet.js";

interface AddedUp extends Pick<Sheet, "lines" | "totals"> {
  readonly adjustments: readonly Pick<Adjustment, "charge" | "amount">[];
}

/** Names of the totals that are not the sum of what stands above them. Added up here once more, without the engine. */
export function sumsThatDiffer({ lines, adjustments, totals }: AddedUp): string[] {
  const sum = (amounts: readonly number[]) => amounts.reduce((total, amount) => total + amount, 0);
  const of = (charge: boolean) => sum(adjustments.filter((each) => each.charge === charge).map(({ amount }) => amount));
  const stated = totals.linesNet - totals.allowances + totals.charges;
  const wanted: Readonly<Record<string, readonly [number, number]>> = {
    "sum of lines": [totals.linesNet, sum(lines.map(({ amount }) => amount))],
    allowances: [totals.allowances, of(false)],
    charges: [totals.charges, of(true)],
    tax: [totals.tax, sum(totals.taxGroups.map(({ tax }) => tax))],
    "total without tax": [totals.withoutTax, totals.pricesIncludeTax ? stated - totals.tax : stated],
    total: [totals.total, totals.withoutTax + totals.tax],
    due: [totals.due, totals.total - totals.prepaid],
  };
  return Object.entries(wanted).flatMap(([name, [is, should]]) => (is === should ? [] : [name]));
}
