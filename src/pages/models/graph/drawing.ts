/** A teardown map as a drawing: plain figures in CSS pixels, from the left top corner. The same map, the same drawing. */
import type { TeardownMap } from "../../../estimating/input.js";
import { readMap } from "../../../estimating/teardown/map.js";
import { refitOrder, removalOrder } from "../../../estimating/teardown/order.js";
import { type Arrow, arrowsOf } from "./arrows.js";
import { columnsOf } from "./columns.js";
import { type Box, place } from "./place.js";
import { backWaits, mutual, waitsOfGroups } from "./rings.js";
import { thinned } from "./thinned.js";

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
