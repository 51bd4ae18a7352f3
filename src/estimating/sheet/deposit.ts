/** What is paid before work starts: a share of the parts that are hard to get, margin included, and of labour; both with their tax. */
import type { RateBook } from "../input.js";
import { percentOf } from "../money/scales.js";
import type { Priced } from "../pricing/workings.js";
import type { Line, Sheet, Source } from "../sheet.js";
import { addUp } from "../totals/addUp.js";

export function depositOn({ lines, parts, totals }: Priced, { deposit, tax }: RateBook): Sheet["deposit"] {
  const name = (part: { readonly type: string; readonly kind?: string }) => JSON.stringify([part.type, part.kind]);
  const hard = new Set(
    parts.results.filter(({ scarcity }) => scarcity === "scarce" || scarcity === "donor only").map((result) => name(result)),
  );
  const withTax = (wanted: (line: Line) => boolean) => addUp(lines.filter(wanted), [], tax, 0).total;
  const onParts = percentOf(
    withTax(
      ({ id, taxClass, part }) =>
        id === "allowance:sourcing" || (taxClass === "parts" && part !== undefined && hard.has(name(part))),
    ),
    deposit.scarcePartsPercent,
  );
  const onLabour = percentOf(
    withTax(({ taxClass }) => taxClass === "labour"),
    deposit.labourPercent,
  );
  const sources = (amount: number, entry: string, rule: "deposit on scarce parts" | "deposit on labour"): Source[] =>
    amount === 0
      ? []
      : [
          { is: "rate book", entry },
          { is: "rule", rule },
        ];
  return {
    // Tax rounded line by line can leave a total just below nothing when all is discounted.
    amount: Math.max(0, Math.min(onParts + onLabour, totals.total)),
    from: [
      ...sources(onParts, "/deposit/scarcePartsPercent", "deposit on scarce parts"),
      ...sources(onLabour, "/deposit/labourPercent", "deposit on labour"),
    ],
  };
}
