/**
 * Each line and adjustment without tax, so that per tax category they sum exactly to the printed base. Where prices include tax, each
 * entry's exact share of it is cut and the units missing from the group's printed tax are handed out, largest fractions first: no
 * entry is a whole unit away from its exact share, whether the group comes to something or to nothing.
 */
import type { Minor } from "../input.js";
import { toScaledPercent, WHOLE } from "../money/scales.js";
import { handOut } from "../money/split.js";
import type { Adjustment, Line, Sheet } from "../sheet.js";

export interface NetAmounts {
  readonly lines: readonly { readonly line: Line; readonly net: Minor }[];
  /** Signed as printed: a charge's and a discount's amount are both positive. */
  readonly adjustments: readonly { readonly adjustment: Adjustment; readonly net: Minor }[];
}

export function netAmounts({ lines, adjustments, totals }: Pick<Sheet, "lines" | "adjustments" | "totals">): NetAmounts {
  const entries = [
    ...lines.map(({ amount, taxCategory }) => ({ amount, taxCategory })),
    ...adjustments.map(({ charge, amount, taxCategory }) => ({ amount: charge ? amount : -amount, taxCategory })),
  ];
  const nets = entries.map(({ amount }) => amount);
  if (totals.pricesIncludeTax)
    for (const { category, percent, tax } of totals.taxGroups) {
      const rate = BigInt(toScaledPercent(percent));
      const members = entries.flatMap(({ taxCategory }, at) => (taxCategory === category ? [at] : []));
      const within = members.map((at) => BigInt(entries[at]!.amount) * rate);
      handOut(BigInt(tax), within, BigInt(WHOLE) + rate).forEach((share, index) => {
        nets[members[index]!]! -= Number(share);
      });
    }
  return {
    lines: lines.map((line, at) => ({ line, net: nets[at]! })),
    adjustments: adjustments.map((adjustment, at) => {
      const net = nets[lines.length + at]!;
      return { adjustment, net: adjustment.charge || net === 0 ? net : -net };
    }),
  };
}
