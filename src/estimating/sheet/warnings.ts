/** What the shop should look at; none of it stops an estimate. Substitutions and offers are warned about by the parts. */
import { sumOfTimes } from "../labour/times.js";
import { decimalsOf } from "../money/currency.js";
import { timesOver } from "../money/rounding.js";
import { fromMilli } from "../money/scales.js";
import type { Priced, Workings } from "../pricing/workings.js";
import type { Sheet, Warning } from "../sheet.js";

export function warningsOf({ input, map }: Workings, priced: Priced, ceiling: Sheet["ceiling"]): Warning[] {
  const { total } = priced.totals;
  const decimals = decimalsOf(input.currency) ?? 0;
  const declared = input.unit.declaredValue ?? 0;
  // Hundredths of a percent.
  const share = declared > 0 ? timesOver(total, 10_000, declared) / 100 : 0;
  const limit = input.rateBook.valueSharePercent;
  const { asked, given } = priced.discount;
  const standard = sumOfTimes(
    priced.access
      .filter((_, index) => {
        const place = priced.opened[index];
        return place === undefined || map.assemblies[place]!.access.by === "standard";
      })
      .map(({ times }) => times),
  );
  return [
    ...(share > limit ? [{ is: "value share", percent: share, limit, total, declared } as const] : []),
    ...(total > ceiling.amount ? [{ is: "above ceiling", total, ceiling: ceiling.amount } as const] : []),
    ...(given < asked ? [{ is: "discount limited", asked, given } as const] : []),
    ...(standard.high > 0
      ? [
          {
            is: "access by standard",
            lowMinutes: fromMilli(standard.low),
            likelyMinutes: fromMilli(standard.likely),
            highMinutes: fromMilli(standard.high),
          } as const,
        ]
      : []),
    ...(decimals > 2 ? [{ is: "currency scale", currency: input.currency, decimals } as const] : []),
  ];
}
