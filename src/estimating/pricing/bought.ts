/** Parts of the catalogue that some work has bought, as the price counts them: pieces beyond the shelf, and their cost without mark-up. */
import { known } from "../book.js";
import { priceMilli, toMilli } from "../money/scales.js";
import type { PartResult } from "../sheet.js";
import type { Bought } from "./buyPlans.js";
import type { Priced, Workings } from "./workings.js";

const NOTHING: ReadonlySet<PartResult> = new Set();

/** By kind, in the order of the sheet. What is got as it was `before` is left out. */
export function boughtFor(
  { parts }: Priced,
  { book, rateBook }: Workings,
  before: ReadonlySet<PartResult> = NOTHING,
): ReadonlyMap<string, Bought> {
  const lots = new Map<string, PartResult[]>();
  for (const result of parts.results)
    if (result.kind !== undefined && !before.has(result)) lots.set(result.kind, [...(lots.get(result.kind) ?? []), result]);
  const pullRate = known(book.classes, rateBook.accessClass).is.ratePerHour;
  const bought = new Map<string, Bought>();
  for (const [id, all] of lots) {
    const kind = known(book.kinds, id).is;
    // The shelf comes first.
    const own = (kind.stock ?? 0) > 0 ? all.slice(1) : all;
    if (own.length === 0) continue;
    const { type, name, scarcity } = own[0]!;
    const pulling = parts.pulls.filter(({ part }) => part.kind === id);
    bought.set(id, {
      kind,
      part: { type, kind: id, name },
      pieces: own.reduce((sum, { needed }) => sum + needed, 0),
      cost:
        own.reduce((sum, { cost }) => sum + cost, 0) +
        pulling.reduce((sum, { minutes }) => sum + priceMilli(toMilli(minutes), pullRate), 0),
      scarcity,
      offers: own.flatMap(({ offer }) => offer ?? []),
    });
  }
  return bought;
}
