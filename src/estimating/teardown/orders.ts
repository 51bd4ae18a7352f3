/**
 * One removal order and one refit order for the whole map; a job uses its part of them, so the same assemblies always
 * come in the same order whatever else is open.
 */
import type { MapReading } from "./map.js";
import { type Ordered, orderTogether } from "./together.js";

/** What sits in front comes off first; otherwise in map order. */
export const removalOrder = (map: MapReading): Ordered =>
  orderTogether(
    map,
    map.behind,
    map.assemblies.map((_, place) => place),
  );

/** What sits behind goes back first, and what the map says must be refitted first; otherwise the removal order backwards. */
export function refitOrder(map: MapReading, removal: readonly number[]): Ordered {
  const rank: number[] = [];
  removal.forEach((place, position) => {
    rank[place] = -position;
  });
  return orderTogether(map, refitAfter(map), rank);
}

/** For each assembly, those that must be back before it. */
export const refitAfter = ({ hides, fitAfter }: MapReading): number[][] =>
  fitAfter.map((first, place) => [...new Set([...first, ...hides[place]!])].sort((a, b) => a - b));
