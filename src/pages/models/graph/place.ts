/** Where everything stands. Pixels. */
import { type Bends, type Columns, type Item, nameOf } from "./columns.js";

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Placing {
  readonly width: number;
  readonly height: number;
  /** By place in the map. */
  readonly nodes: readonly Box[];
  readonly joined: readonly Box[];
  readonly bends: Bends;
  /** Column of each group. */
  readonly columnOf: readonly number[];
}

export const NODE = { width: 168, height: 62 } as const;
const PAD = 10;
const BETWEEN_JOINED = 22;
const COLUMN_GAP = 46;
/** From one column to the next. */
const COLUMN = NODE.width + COLUMN_GAP;
const ROW_GAP = 26;
const BEND = 10;
/** Room for the arrows that run over and under the nodes. */
const EDGE = { side: 8, over: 12, under: 40 } as const;

export function place(groups: readonly (readonly number[])[], { columns, columnOf, before }: Columns): Placing {
  const heightOf = (item: Item): number => {
    if ("bend" in item) return BEND;
    const many = groups[item.group]!.length;
    return many * NODE.height + (many - 1) * BETWEEN_JOINED + (many > 1 ? 2 * PAD : 0);
  };
  const middles = new Map<string, number>();
  for (const column of columns) stack(column, heightOf, before, middles);

  const all = columns.flat();
  const top = Math.min(0, ...all.map((item) => middles.get(nameOf(item))! - heightOf(item) / 2));
  const foot = Math.max(0, ...all.map((item) => middles.get(nameOf(item))! + heightOf(item) / 2));
  const nodes: Box[] = [];
  const joined: Box[] = [];
  const bends = new Map<string, { x: number; y: number }>();
  for (const [at, column] of columns.entries()) {
    const x = EDGE.side + PAD + at * COLUMN;
    for (const item of column) {
      const middle = middles.get(nameOf(item))! - top + EDGE.over;
      if ("bend" in item) {
        bends.set(item.bend, { x: x + NODE.width / 2, y: middle });
        continue;
      }
      const members = groups[item.group]!;
      const own = heightOf(item);
      const inset = members.length > 1 ? PAD : 0;
      for (const [row, member] of members.entries())
        nodes[member] = { x, y: middle - own / 2 + inset + row * (NODE.height + BETWEEN_JOINED), ...NODE };
      if (inset > 0) joined.push({ x: x - PAD, y: middle - own / 2, width: NODE.width + 2 * PAD, height: own });
    }
  }
  return {
    width: 2 * (EDGE.side + PAD) + columns.length * COLUMN - COLUMN_GAP,
    height: EDGE.over + EDGE.under + foot - top,
    nodes,
    joined,
    bends,
    columnOf,
  };
}

/** As near as may be to the middles of what leads there, from the top down, then the column as a whole put back in line. */
function stack(
  column: readonly Item[],
  heightOf: (item: Item) => number,
  before: Columns["before"],
  middles: Map<string, number>,
): void {
  let foot = Number.NEGATIVE_INFINITY;
  const off: number[] = [];
  for (const item of column) {
    const own = heightOf(item);
    const those = (before.get(nameOf(item)) ?? []).flatMap((name) => middles.get(name) ?? []);
    const wanted = those.length > 0 ? those.reduce((sum, y) => sum + y, 0) / those.length : undefined;
    const least = foot === Number.NEGATIVE_INFINITY ? undefined : foot + ROW_GAP + own / 2;
    const middle = Math.max(wanted ?? least ?? own / 2, least ?? Number.NEGATIVE_INFINITY);
    if (wanted !== undefined) off.push(middle - wanted);
    middles.set(nameOf(item), middle);
    foot = middle + own / 2;
  }
  const shift = off.length > 0 ? off.reduce((sum, y) => sum + y, 0) / off.length : 0;
  for (const item of column) middles.set(nameOf(item), Math.round(middles.get(nameOf(item))! - shift));
}
