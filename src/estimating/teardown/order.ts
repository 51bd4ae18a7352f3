/**
 * One removal order and one refit order for the whole map; a job uses its part of them, so the same assemblies always
 * come in the same order whatever else is open.
 */
import type { MapReading } from "./map.js";

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

/** One of a ring: it waits for the next, or it is joined to the next, which waits. */
export interface Link {
  readonly place: number;
  readonly joined: boolean;
}

/** In order, or the ring that allows no order. */
export type Ordered =
  | { readonly ok: true; readonly order: readonly number[] }
  | { readonly ok: false; readonly ring: readonly Link[] };

/** Joined assemblies move as one, so what one of them waits for, all wait for; they come one after another. Among those that are free, the lowest rank first. */
function orderTogether(
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

/**
 * An order in which everything comes after what it waits for; among those that are free, the lowest rank first.
 * `waitsFor[i]` lists what must come before i. Undefined when some wait for one another.
 */
function order(waitsFor: readonly (readonly number[])[], rank: readonly number[]): number[] | undefined {
  const left = waitsFor.map((needed) => new Set(needed).size);
  const frees: number[][] = waitsFor.map(() => []);
  waitsFor.forEach((needed, node) => {
    for (const before of new Set(needed)) frees[before]!.push(node);
  });
  const free = left.flatMap((count, node) => (count === 0 ? [node] : []));
  const result: number[] = [];
  while (free.length > 0) {
    let next = 0;
    for (let i = 1; i < free.length; i++) if (rank[free[i]!]! < rank[free[next]!]!) next = i;
    const [node] = free.splice(next, 1);
    result.push(node!);
    for (const freed of frees[node!]!) if (--left[freed]! === 0) free.push(freed);
  }
  return result.length === waitsFor.length ? result : undefined;
}

/** Nodes that wait for one another in a ring, each for the next and the last for the first; undefined when there is none. */
function findCycle(waitsFor: readonly (readonly number[])[]): number[] | undefined {
  const done = new Set<number>();
  const path: number[] = [];
  const follow = (node: number): number[] | undefined => {
    const start = path.indexOf(node);
    if (start >= 0) return path.slice(start);
    if (done.has(node)) return undefined;
    path.push(node);
    for (const next of waitsFor[node]!) {
      const cycle = follow(next);
      if (cycle) return cycle;
    }
    path.pop();
    done.add(node);
    return undefined;
  };
  for (const node of waitsFor.keys()) {
    const cycle = follow(node);
    if (cycle) return cycle;
  }
  return undefined;
}
