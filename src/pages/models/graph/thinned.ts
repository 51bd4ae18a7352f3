/** Of a dense map, the waits that do not follow from others: with hundreds of arrows nobody could follow one. */
import type { MapReading } from "../../../estimating/teardown/map.js";

/** As many arrows as a drawing of ordinary size still shows well. */
const MOST = 150;

export function thinned(reading: MapReading): { readonly reading: MapReading; readonly thinned: boolean } {
  const { behind } = reading;
  if (behind.reduce((sum, fronts) => sum + fronts.length, 0) <= MOST) return { reading, thinned: false };
  const before = behind.map((fronts) => {
    const seen = new Set(fronts);
    for (const at of seen) for (const next of behind[at]!) seen.add(next);
    return seen;
  });
  // In a ring each follows from the others, so those are all kept.
  const kept = behind.map((fronts, at) =>
    fronts.filter((front) => before[front]!.has(at) || !fronts.some((other) => other !== front && before[other]!.has(front))),
  );
  return { reading: { ...reading, behind: kept }, thinned: true };
}
