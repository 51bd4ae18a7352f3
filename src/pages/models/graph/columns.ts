/**
 * Groups in columns: each right of all that must come off before it. A wait that passes over columns has a bend in each of them, so
 * that its arrow runs between the nodes. Within a column the order is that of the neighbours' middles (barycentre rule).
 */

/** A group, or the bend of the arrow from one group to another. */
export type Item = { readonly group: number } | { readonly bend: string };

/** Waits that are left out of the columns are drawn against the order. */
export interface Columns {
  readonly columns: readonly (readonly Item[])[];
  readonly columnOf: readonly number[];
  /** Item -> those of the column before that lead to it. */
  readonly before: ReadonlyMap<string, readonly string[]>;
}

const SWEEPS = 4;

export const nameOf = (item: Item): string => ("group" in item ? `g${item.group}` : item.bend);

/** Middle of an arrow's bend in a column, by name. */
export type Bends = ReadonlyMap<string, { readonly x: number; readonly y: number }>;

/** Bend of the arrow `front` -> `behind` in a column. */
export const bendName = (front: number, behind: number, column: number): string => `${front}>${behind}@${column}`;

export function columnsOf(waits: readonly (readonly number[])[], left: ReadonlySet<string>): Columns {
  const kept = waits.map((fronts, at) => fronts.filter((front) => !left.has(`${at} ${front}`)));
  const columnOf: number[] = [];
  const column = (at: number): number => {
    columnOf[at] ??= kept[at]!.reduce((far, front) => Math.max(far, column(front) + 1), 0);
    return columnOf[at];
  };
  for (const at of kept.keys()) column(at);

  const columns: Item[][] = Array.from({ length: Math.max(0, ...columnOf) + 1 }, () => []);
  const before = new Map<string, string[]>();
  const after = new Map<string, string[]>();
  const join = (from: string, to: string) => {
    for (const [names, name, other] of [
      [before, to, from],
      [after, from, to],
    ] as const) {
      const those = names.get(name);
      if (those) those.push(other);
      else names.set(name, [other]);
    }
  };
  for (const [group, at] of columnOf.entries()) columns[at]!.push({ group });
  for (const [at, fronts] of kept.entries()) {
    for (const front of fronts) {
      let from = `g${front}`;
      for (let pass = columnOf[front]! + 1; pass < columnOf[at]!; pass += 1) {
        const bend = bendName(front, at, pass);
        columns[pass]!.push({ bend });
        join(from, bend);
        from = bend;
      }
      join(from, `g${at}`);
    }
  }
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    const forth = sweep % 2 === 0;
    const order = forth ? [...columns.keys()] : [...columns.keys()].reverse();
    for (const at of order) settle(columns, at, forth ? -1 : 1, forth ? before : after);
  }
  return { columns, columnOf, before };
}

function settle(columns: Item[][], at: number, step: 1 | -1, neighbours: ReadonlyMap<string, readonly string[]>): void {
  const beside = columns[at + step];
  if (!beside) return;
  const places = new Map(beside.map((item, place) => [nameOf(item), place]));
  const middle = (item: Item, own: number): number => {
    const those = (neighbours.get(nameOf(item)) ?? []).map((name) => places.get(name) ?? own);
    return those.length === 0 ? own : those.reduce((sum, place) => sum + place, 0) / those.length;
  };
  const ranked = columns[at]!.map((item, own) => ({ item, rank: middle(item, own), own }));
  columns[at] = ranked.sort((a, b) => a.rank - b.rank || a.own - b.own).map(({ item }) => item);
}
