/** What a lump costs when it is found, on the lattice, for any condition factor. */
import { convolve, type Masses, scaled, splitOnto } from "./lattice.js";
import { sumOfLines } from "./lineMasses.js";
import type { Lump } from "./lump.js";
import { twoPoint } from "./twoPoint.js";

/** `lowestFactor`: the least c that will be asked for. Labour by two points when the gap between them drowns in the `smooth` spread of the total, else by its whole shape; parts by their outcomes. */
export function foundMasses(lump: Lump, smooth: number, h: number, top: number, lowestFactor: number): (c: number) => Masses {
  const points = twoPoint(lump.labour);
  const gap = points.length < 2 ? 0 : points[1]!.amount - points[0]!.amount;
  const labour = gap > smooth ? sumOfLines(lump.lines, h, Math.ceil(top / lowestFactor)) : undefined;
  if (labour !== undefined) {
    const other = splitOnto(lump.otherChances, h, top);
    return (c) => convolve(scaled(labour, c, top), other, top);
  }
  const pairs = points.flatMap((a) =>
    lump.otherChances.map((b) => ({ probability: a.probability * b.probability, labour: a.amount, other: b.amount })),
  );
  return (c) =>
    splitOnto(
      pairs.map((pair) => ({ probability: pair.probability, amount: c * pair.labour + pair.other })),
      h,
      top,
    );
}
