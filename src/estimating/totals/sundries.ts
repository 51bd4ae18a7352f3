/** Solder, cleaner, wipes: a percentage of parts (without scarcity margin) and of labour and access, never above the cap. */
import type { RateBook } from "../input.js";
import { divide } from "../money/rounding.js";
import { toScaledPercent, WHOLE } from "../money/scales.js";
import type { Adjustment, Line } from "../sheet.js";

export function sundries(lines: readonly Line[], { parts, tax }: RateBook): Adjustment[] {
  const { percentOfParts, percentOfLabour, cap } = parts.sundries;
  const sum = (wanted: (line: Line) => boolean) => lines.filter(wanted).reduce((total, { amount }) => total + amount, 0);
  const ofParts = sum(({ sort }) => sort === "part");
  const ofLabour = sum(({ taxClass }) => taxClass === "labour");
  const full = divide(
    BigInt(ofParts) * BigInt(toScaledPercent(percentOfParts)) + BigInt(ofLabour) * BigInt(toScaledPercent(percentOfLabour)),
    BigInt(WHOLE),
  );
  const amount = Math.min(full, cap ?? full);
  if (amount <= 0) return [];
  const single =
    amount < full || (percentOfParts > 0 && percentOfLabour > 0)
      ? {}
      : percentOfParts > 0
        ? { percent: percentOfParts, base: ofParts }
        : { percent: percentOfLabour, base: ofLabour };
  return [
    {
      id: "sundries",
      sort: "sundries",
      charge: true,
      amount,
      taxCategory: tax.parts,
      taxClass: "parts",
      ...single,
      from: [
        { is: "rate book", entry: "/parts/sundries" },
        { is: "rule", rule: "sundries percentage" },
        ...(amount < full ? [{ is: "rule", rule: "sundries cap" } as const] : []),
      ],
    },
  ];
}
