/** Arrows from what comes first to what comes after it, as SVG paths. */
import type { MapReading } from "../../../estimating/teardown/map.js";
import { bendName } from "./columns.js";
import { type Box, NODE, type Placing } from "./place.js";

export interface Arrow {
  /** `off`: must come off first; `back`: must go back first. */
  readonly is: "off" | "back";
  readonly from: string;
  readonly to: string;
  readonly path: string;
  /** Part of a ring, so that no order holds. */
  readonly inRing: boolean;
}

/** The head of an arrow stands before the node. */
const HEAD = 2;

export function arrowsOf(
  { assemblies, behind, groupOf, fitAfter }: MapReading,
  placed: Placing,
  rings: readonly (readonly [number, number])[],
): Arrow[] {
  const ends = (from: number, to: number) => ({ from: assemblies[from]!.id, to: assemblies[to]!.id });
  const ringed = new Set(rings.map(([first, then]) => `${first} ${then}`));
  const off = behind.flatMap((fronts, at) =>
    [...new Set(fronts)].map((front): Arrow => {
      const inRing = ringed.has(`${front} ${at}`);
      return { is: "off", ...ends(front, at), path: pathOff(front, at, groupOf, placed), inRing };
    }),
  );
  const back = fitAfter.flatMap((firsts, at) =>
    [...new Set(firsts)].map(
      (first): Arrow => ({ is: "back", ...ends(first, at), path: refit(placed.nodes[first]!, placed.nodes[at]!), inRing: false }),
    ),
  );
  return [...off, ...back];
}

function pathOff(front: number, at: number, groupOf: readonly number[], { nodes, bends, columnOf, height }: Placing): string {
  const [from, to] = [nodes[front]!, nodes[at]!];
  if (front === at || to.x <= from.x) return groupOf[front] === groupOf[at] ? beside(from, to) : under(from, to, height);
  let [x, y] = [from.x + from.width, middle(from)];
  let path = `M${x} ${y}`;
  const curve = (toX: number, toY: number) => {
    const half = (x + toX) / 2;
    path += `C${half} ${y} ${half} ${toY} ${toX} ${toY}`;
    [x, y] = [toX, toY];
  };
  for (let column = columnOf[groupOf[front]!]! + 1; column < columnOf[groupOf[at]!]!; column += 1) {
    const bend = bends.get(bendName(groupOf[front]!, groupOf[at]!, column));
    if (!bend) continue;
    curve(bend.x - NODE.width / 2, bend.y);
    path += `H${bend.x + NODE.width / 2}`;
    x = bend.x + NODE.width / 2;
  }
  curve(to.x - HEAD, middle(to));
  return path;
}

const middle = ({ y, height }: Box): number => y + height / 2;

/** Against the order of the columns, or from a node to itself: under both. */
function under(from: Box, to: Box, foot: number): string {
  const [x1, x2] = [from.x + from.width * 0.6, to.x + to.width * 0.4];
  const [y1, y2] = [from.y + from.height, to.y + to.height];
  return `M${x1} ${y1}C${x1} ${foot} ${x2} ${foot} ${x2} ${y2 + HEAD}`;
}

/** Between two that stand in one column. */
function beside(from: Box, to: Box): string {
  const x = from.x + from.width;
  return `M${x} ${middle(from) - 6}C${x + 28} ${middle(from)} ${x + 28} ${middle(to)} ${x + HEAD} ${middle(to) + 6}`;
}

/** Refit runs below the arrows of removal; within a column, on the left. */
function refit(from: Box, to: Box): string {
  const [y1, y2] = [from.y + from.height * 0.8, to.y + to.height * 0.8];
  if (from.x === to.x) return `M${from.x} ${y1}C${from.x - 30} ${y1} ${from.x - 30} ${y2} ${to.x - HEAD} ${y2}`;
  const forth = to.x > from.x;
  const [x1, x2] = forth ? [from.x + from.width, to.x - HEAD] : [from.x, to.x + to.width + HEAD];
  const half = (x1 + x2) / 2;
  return `M${x1} ${y1}C${half} ${y1} ${half} ${y2} ${x2} ${y2}`;
}
