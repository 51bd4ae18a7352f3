/** The teardown map by number: an assembly is its place in the map. Ids the map does not have are left out; the check names them. */
import type { Assembly, TeardownMap } from "../input.js";

export interface MapReading {
  readonly assemblies: readonly Assembly[];
  readonly at: ReadonlyMap<string, number>;
  /** What must be off first. */
  readonly behind: readonly (readonly number[])[];
  /** What it must be off before: the other way round of `behind`. */
  readonly hides: readonly (readonly number[])[];
  /** What it is joined to, whichever side says so. */
  readonly joined: readonly (readonly number[])[];
  /** Assemblies that come out together, each with itself at least; in map order. */
  readonly groups: readonly (readonly number[])[];
  readonly groupOf: readonly number[];
  /** What must be refitted first, by the map's `fitBefore`. */
  readonly fitAfter: readonly (readonly number[])[];
}

export function readMap({ assemblies, fitBefore = [] }: TeardownMap = { assemblies: [] }): MapReading {
  const at = new Map<string, number>();
  assemblies.forEach(({ id }, place) => {
    if (!at.has(id)) at.set(id, place);
  });
  const places = (ids: readonly string[] = []) => ids.flatMap((id) => at.get(id) ?? []);
  const behind = assemblies.map((assembly) => places(assembly.behind));
  const hides: number[][] = assemblies.map(() => []);
  behind.forEach((fronts, place) => {
    for (const front of new Set(fronts)) hides[front]!.push(place);
  });
  const joined: Set<number>[] = assemblies.map(() => new Set());
  assemblies.forEach((assembly, place) => {
    for (const other of places(assembly.joined)) {
      if (other === place) continue;
      joined[place]!.add(other);
      joined[other]!.add(place);
    }
  });
  const fitAfter: number[][] = assemblies.map(() => []);
  for (const { first, then } of fitBefore) {
    const [before, after] = [at.get(first), at.get(then)];
    if (before !== undefined && after !== undefined) fitAfter[after]!.push(before);
  }
  const neighbours = joined.map((others) => [...others].sort((a, b) => a - b));
  return { assemblies, at, behind, hides, joined: neighbours, ...grouped(neighbours), fitAfter };
}

function grouped(joined: readonly (readonly number[])[]): Pick<MapReading, "groups" | "groupOf"> {
  const groupOf: number[] = joined.map(() => -1);
  const groups: number[][] = [];
  joined.forEach((_, start) => {
    if (groupOf[start] !== -1) return;
    const members = [start];
    groupOf[start] = groups.length;
    for (const member of members)
      for (const other of joined[member]!)
        if (groupOf[other] === -1) {
          groupOf[other] = groups.length;
          members.push(other);
        }
    groups.push(members.sort((a, b) => a - b));
  });
  return { groups, groupOf };
}

/** Everything that must be off when these are: what they sit behind and what they are joined to, and so on. Each once. */
export function closure({ behind, groups, groupOf }: MapReading, starts: Iterable<number>): Set<number> {
  const opened = new Set<number>(starts);
  for (const place of opened) {
    for (const other of groups[groupOf[place]!]!) opened.add(other);
    for (const other of behind[place]!) opened.add(other);
  }
  return opened;
}
