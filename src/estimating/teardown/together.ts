/** Orders the assemblies of a map; joined ones move as one, so what one of them waits for, all wait for. */
import { findCycle } from "./cycle.js";
import type { MapReading } from "./map.js";
import { order } from "./order.js";

/** One of a ring: it waits for the next, or it is joined to the next, which waits. */
export interface Link {
  readonly place: number;
  readonly joined: boolean;
}

/** In order, or the ring that allows no order. */
export type Ordered =
  | { readonly ok: true; readonly order: readonly number[] }
  | { readonly ok: false; readonly ring: readonly Link[] };

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
  if (inside) return { ok: false, ring: inside.map((place) => ({ place, joined: false })) };
  const groupRank = groups.map((members) => Math.min(...members.map((place) => rank[place]!)));
  const groupOrder = order(groupWaits, groupRank);
  if (!groupOrder) {
    const cycle = findCycle(groupWaits)!;
    const steps = cycle.map((group, i) => reason.get(`${group} ${cycle[(i + 1) % cycle.length]}`)!);
    const ring = steps.flatMap(([waits, other], i): Link[] => {
      const hop = { place: waits, joined: false };
      return other === steps[(i + 1) % steps.length]![0] ? [hop] : [hop, { place: other, joined: true }];
    });
    return { ok: false, ring };
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
