/** Orders the assemblies of a map; joined ones move as one, so what one of them waits for, all wait for. */
import { findCycle } from "./cycle.js";
import type { MapReading } from "./map.js";
import { order } from "./order.js";

/** In order, or the assemblies that wait for one another in a ring (each for the next, or joined to it). */
export type Ordered =
  | { readonly ok: true; readonly order: readonly number[] }
  | { readonly ok: false; readonly cycle: readonly number[] };

/** Joined assemblies come one after another. Among those that are free, the lowest rank first. */
export function orderTogether(
  { groups, groupOf }: MapReading,
  waitsFor: readonly (readonly number[])[],
  rank: readonly number[],
): Ordered {
  const groupWaits: number[][] = groups.map(() => []);
  const reason = new Map<string, readonly [waits: number, for_: number]>();
  const within: number[][] = waitsFor.map(() => []);
  waitsFor.forEach((needed, place) => {
    for (const other of needed) {
      const [mine, its] = [groupOf[place]!, groupOf[other]!];
      if (mine === its) within[place]!.push(other);
      else {
        groupWaits[mine]!.push(its);
        reason.set(`${mine} ${its}`, [place, other]);
      }
    }
  });

  const inside = findCycle(within);
  if (inside) return { ok: false, cycle: inside };
  const groupRank = groups.map((members) => Math.min(...members.map((place) => rank[place]!)));
  const groupOrder = order(groupWaits, groupRank);
  if (!groupOrder) {
    const ring = findCycle(groupWaits)!;
    const links = ring.map((group, i) => reason.get(`${group} ${ring[(i + 1) % ring.length]}`)!);
    const cycle = links.flatMap(([waits, other], i) => (other === links[(i + 1) % links.length]![0] ? [waits] : [waits, other]));
    return { ok: false, cycle };
  }
  return {
    ok: true,
    order: groupOrder.flatMap((group) => {
      const members = groups[group]!;
      const local = members.map((place) => within[place]!.map((other) => members.indexOf(other)));
      const ranks = members.map((place) => rank[place]!);
      return order(local, ranks)!.map((index) => members[index]!);
    }),
  };
}
