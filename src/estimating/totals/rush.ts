/** A rush job pays a percentage of labour and access on top. */
import type { RateBook } from "../input.js";
import { percentOf } from "../money/scales.js";
import type { Adjustment, Line } from "../sheet.js";

export function rush(lines: readonly Line[], { fees, tax }: RateBook): Adjustment[] {
  const base = lines.filter(({ taxClass }) => taxClass === "labour").reduce((sum, { amount }) => sum + amount, 0);
  const amount = percentOf(base, fees.rushPercent);
  if (amount <= 0) return [];
  return [
    {
      id: "rush",
      sort: "rush",
      charge: true,
      amount,
      taxCategory: tax.labour,
      taxClass: "labour",
      percent: fees.rushPercent,
      base,
      from: [
        { is: "rate book", entry: "/fees/rushPercent" },
        { is: "rule", rule: "rush percentage" },
      ],
    },
  ];
}
