/** What is done where: the rows of the form that stand on each assembly, those of the whole unit under `*`. */
import { foundByName } from "../../wording/named.js";
import { type Draft, draftFrom, WHOLE_UNIT } from "./draft.js";
import type { Fields } from "./fields.js";
import { assemblyRows } from "./names.js";
import { isOpen, openIn } from "./open.js";

/** The place whose lines are drawn: the one chosen; with the grid beside it the whole unit; else the first where anything is done. */
export function placeAt(fields: Fields, places: readonly Place[]): Place {
  const chosen = places.find(({ row }) => row === fields.get("meta.at"));
  const first = isOpen(openIn(fields), "grid") ? undefined : places.find(({ lines, cells }) => lines.length + cells.length > 0);
  return chosen ?? first ?? places[0]!;
}

/** Lines of one place that are drawn at a time. */
export const MOST_LINES = 40;

/** The place where a line stands by now becomes the one that is drawn, at that line. */
export function following(fields: Fields, line: string): Map<string, string> {
  const place = placesIn(draftFrom(fields)).find(({ lines }) => lines.includes(line));
  const followed = new Map(fields);
  if (!place) return followed;
  const at = place.lines.indexOf(line);
  return followed.set("meta.at", place.row).set("meta.from", String(at - (at % MOST_LINES)));
}

export interface Place {
  /** `*`, or the assembly's part of a field name. */
  readonly row: string;
  /** Part of a field name behind `cells.ROW.`, in the order they were counted. */
  readonly cells: readonly string[];
  readonly lines: readonly string[];
}

/** The whole unit first, then every assembly that says anything, or is `at`. A line that names no assembly that is there is of the whole unit. */
export function placesIn(draft: Draft, at?: string): readonly Place[] {
  const known = assemblyRows(draft);
  const rowOf = (name = "") => (name.trim() === "" ? undefined : foundByName(name.trim(), known)?.key) ?? WHOLE_UNIT;
  const lines = new Map<string, string[]>();
  for (const [line, { assembly }] of Object.entries(draft.line)) {
    const row = rowOf(assembly);
    lines.set(row, [...(lines.get(row) ?? []), line]);
  }
  const said = new Set(known.map(({ key }) => key));
  const rows = Object.keys(draft.assembly).filter((row) => row !== WHOLE_UNIT && (said.has(row) || row === at));
  return [WHOLE_UNIT, ...rows].map((row) => ({
    row,
    cells: Object.entries(draft.cells[row] ?? {}).flatMap(([column, text]) => (text.trim() === "" ? [] : [column])),
    lines: lines.get(row) ?? [],
  }));
}
