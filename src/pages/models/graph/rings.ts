/** Assemblies that wait for one another: they have no order, and are drawn all the same. */
import type { MapReading } from "../../../estimating/teardown/map.js";

/** For each group of joined assemblies, the groups that come off before it. */
export function waitsOfGroups({ groups, groupOf, behind }: MapReading): number[][] {
  return groups.map((members, group) => {
    const fronts = members.flatMap((member) => behind[member]!.map((front) => groupOf[front]!));
    return [...new Set(fronts)].filter((front) => front !== group);
  });
}

/** One wait of each ring, which is left out of the columns: 'waiting waitedFor'. */
export function backWaits(waits: readonly (readonly number[])[]): ReadonlySet<string> {
  const back = new Set<string>();
  const state: ("new" | "on path" | "done")[] = waits.map(() => "new");
  const follow = (at: number): void => {
    state[at] = "on path";
    for (const next of waits[at]!) {
      if (state[next] === "on path") back.add(`${at} ${next}`);
      else if (state[next] === "new") follow(next);
    }
    state[at] = "done";
  };
  for (const at of waits.keys()) if (state[at] === "new") follow(at);
  return back;
}

/** Pairs [front, behind] of assemblies that are part of a ring. */
export function mutual({ behind, groupOf }: MapReading, waits: readonly (readonly number[])[]): [number, number][] {
  const groups = reaches(waits);
  const within = reaches(behind.map((fronts, at) => fronts.filter((front) => groupOf[front] === groupOf[at])));
  return behind.flatMap((fronts, at) =>
    fronts.flatMap((front): [number, number][] => {
      const [mine, its] = [groupOf[at]!, groupOf[front]!];
      const ring = mine === its ? within[front]!.has(at) : groups[its]!.has(mine);
      return ring ? [[front, at]] : [];
    }),
  );
}

/** For each, all that it waits for, near and far. */
function reaches(waits: readonly (readonly number[])[]): ReadonlySet<number>[] {
  return waits.map((first) => {
    const seen = new Set(first);
    for (const at of seen) for (const next of waits[at]!) seen.add(next);
    return seen;
  });
}
