/** A teardown map as a drawing: plain figures in CSS pixels, from the left top corner. The same map, the same drawing. */
import type { TeardownMap } from "../../../estimating/input.js";
import { type MapReading, readMap } from "../../../estimating/teardown/map.js";
import { refitOrder, removalOrder } from "../../../estimating/teardown/order.js";
import { type Arrow, arrowsOf } from "./arrows.js";
import { columnsOf } from "./columns.js";
import { type Box, place } from "./place.js";

export interface Node extends Box {
  readonly id: string;
  readonly name: string;
  /** Its place in the order they come off, and go back, from 1; absent where a ring allows no order. */
  readonly off?: number;
  readonly back?: number;
  readonly inRing: boolean;
  /** Something refers to it, and the map does not have it. */
  readonly unknown: boolean;
}

export interface MapDrawing {
  readonly width: number;
  readonly height: number;
  readonly nodes: readonly Node[];
  /** Around those that come out together. */
  readonly joined: readonly Box[];
  readonly arrows: readonly Arrow[];
  /** Arrows that follow from others are left out. */
  readonly thinned: boolean;
}

/** `unknown`: ids of assemblies that are only referred to. */
export function drawingOf(map: TeardownMap, unknown: ReadonlySet<string> = new Set()): MapDrawing {
  const whole = readMap(map);
  const { reading, thinned: isThinned } = thinned(whole);
  const waits = waitsOfGroups(reading);
  const columns = columnsOf(waits, backWaits(waits));
  const placed = place(reading.groups, columns);
  const removal = removalOrder(whole);
  const refit = removal.ok ? refitOrder(whole, removal.order) : removal;
  const rings = mutual(reading, waits);
  const ringed = new Set(rings.flat());
  const nodes = reading.assemblies.map(({ id, name }, at): Node => {
    const [off, back] = [removal.ok ? removal.order.indexOf(at) + 1 : 0, refit.ok ? refit.order.indexOf(at) + 1 : 0];
    return {
      ...placed.nodes[at]!,
      id,
      name,
      ...(off > 0 && { off }),
      ...(back > 0 && { back }),
      inRing: ringed.has(at),
      unknown: unknown.has(id),
    };
  });
  const arrows = arrowsOf(reading, placed, rings);
  const { width, height, joined } = placed;
  return { width, height, nodes, joined, arrows, thinned: isThinned };
}

/** As many arrows as a drawing of ordinary size still shows well. */
const MOST = 150;

/** Of a dense map, the waits that do not follow from others: with hundreds of arrows nobody could follow one. */
function thinned(reading: MapReading): { readonly reading: MapReading; readonly thinned: boolean } {
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

/** Assemblies that wait for one another: they have no order, and are drawn all the same. */
/** For each group of joined assemblies, the groups that come off before it. */
function waitsOfGroups({ groups, groupOf, behind }: MapReading): number[][] {
  return groups.map((members, group) => {
    const fronts = members.flatMap((member) => behind[member]!.map((front) => groupOf[front]!));
    return [...new Set(fronts)].filter((front) => front !== group);
  });
}

/** One wait of each ring, which is left out of the columns: 'waiting waitedFor'. */
function backWaits(waits: readonly (readonly number[])[]): ReadonlySet<string> {
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
function mutual({ behind, groupOf }: MapReading, waits: readonly (readonly number[])[]): [number, number][] {
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
