/** Rows of the form: a new one, empty but for what is usual; one repeated; one taken out, and put back; one under another name. */
import { nameFor } from "../../../wording/named.js";
import type { FormContext } from "../context.js";
import { draftFrom, WHOLE_UNIT } from "../draft.js";
import { type Fields, idOf, key } from "../fields.js";
import { assemblyRows, operationNames, partNames, typeNames } from "../names.js";
import { isOpen, opened, openIn } from "../open.js";
import { following, placesIn } from "../places.js";
import { cellId } from "../readItems.js";

export interface Acted {
  readonly fields: Map<string, string>;
  /** Field to move to. */
  readonly focus?: string;
  /** What happened, for people who do not see it happen. */
  readonly say?: string;
}

export function addAssembly(fields: Fields): Acted {
  const row = freeKey(fields, "assembly", "a");
  const added = withFields(fields, [
    [`assembly.${row}.name`, ""],
    [`assembly.${row}.sort`, "board"],
  ]);
  return {
    // Where no grid is drawn, it is named beside its lines.
    fields: isOpen(openIn(fields), "grid") ? added : opened(added.set("meta.at", row), "reach"),
    focus: `assembly.${row}.name`,
    say: "A row for one more assembly was added.",
  };
}

/** `operation`: its name, when the button says which work. `place`: name of the assembly. */
export function addLine(fields: Fields, operation: string, place = ""): Acted {
  const row = freeKey(fields, "line", "l");
  return {
    fields: withFields(fields, [
      [`line.${row}.operation`, operation],
      [`line.${row}.count`, "1"],
      [`line.${row}.certainty`, "planned"],
      ...(place === "" ? [] : [[`line.${row}.assembly`, place] as const]),
      ...(operation === "" ? [] : [["meta.added", row] as const]),
    ]),
    focus: `line.${row}.${operation === "" ? "operation" : "count"}`,
    say: operation === "" ? "A line was added." : `A line was added: ${operation}.`,
  };
}

/** `what`: ids of assembly and operation, the count, and the part type if any, parted by colons. */
export function addWorthDoing(fields: Fields, what: string, context: FormContext): Acted {
  const [assembly = "", operation = "", count = "", type = ""] = what.split(":").map((one) => idOf(one));
  const place = assemblyRows(draftFrom(fields)).find(({ id }) => id === assembly);
  const work = operationNames(context).find(({ id }) => id === operation);
  if (!place || !work) return { fields: new Map(fields) };
  const row = freeKey(fields, "line", "l");
  const added = withFields(fields, [
    [`line.${row}.operation`, nameFor(operation, operationNames(context))],
    ...(type === "" ? [] : [[`line.${row}.part`, nameFor(`type:${type}`, partNames(context))] as const]),
    [`line.${row}.count`, count],
    [`line.${row}.certainty`, "planned"],
    [`line.${row}.assembly`, place.name],
    ["meta.added", row],
  ]);
  return { fields: following(added, row), focus: `line.${row}.count`, say: `A line was added: ${work.name}, ${place.name}.` };
}

export function addFit(fields: Fields): Acted {
  const row = freeKey(fields, "fit", "f");
  return { fields: withFields(fields, [[`fit.${row}.first`, ""]]), focus: `fit.${row}.first`, say: "A line was added." };
}

export function addWorth(fields: Fields): Acted {
  const row = freeKey(fields, "worth", "w");
  return {
    fields: withFields(fields, [[`worth.${row}.assembly`, ""]]),
    focus: `worth.${row}.assembly`,
    say: "A line was added.",
  };
}

export const withFields = (fields: Fields, pairs: Iterable<readonly [string, string]>): Map<string, string> =>
  new Map([...fields, ...pairs]);

/** The first of a1, a2, ... that is not in use, nor kept to be put back. */
export function freeKey(fields: Fields, section: string, letter: string): string {
  const kept = fields.get("meta.undo") ?? "";
  const taken = new Set([...fields.keys()].flatMap((name) => (name.startsWith(`${section}.`) ? [name.split(".")[1]] : [])));
  for (let number = 1; ; number += 1) {
    const row = `${letter}${number}`;
    if (!taken.has(row) && !kept.includes(`${section}.${row}.`)) return row;
  }
}

/** The same line once more, right after the first. */
export function repeatLine(fields: Fields, key: string): Acted {
  const row = freeKey(fields, "line", "l");
  const prefix = `line.${key}.`;
  const own = [...fields].filter(([name]) => name.startsWith(prefix));
  const again = own.map(([name, text]) => [`line.${row}.${name.slice(prefix.length)}`, text] as const);
  const last = own.at(-1)?.[0];
  const repeated = new Map([...fields].flatMap((pair) => (pair[0] === last ? [pair, ...again] : [pair])));
  return { fields: repeated, focus: `line.${row}.count`, say: "The line was repeated." };
}

/** The line before or after the next one of its place. */
export function moveLine(fields: Fields, row: string, step: -1 | 1): Acted {
  const draft = draftFrom(fields);
  const mine = placesIn(draft).find(({ lines }) => lines.includes(row))?.lines ?? [];
  const other = mine[mine.indexOf(row) + step];
  if (other === undefined) return { fields: new Map(fields) };
  const swapped = Object.keys(draft.line).map((line) => (line === row ? other : line === other ? row : line));
  const rest = [...fields].filter(([name]) => !name.startsWith("line."));
  const lines = swapped.flatMap((line) => [...fields].filter(([name]) => name.startsWith(`line.${line}.`)));
  return { fields: new Map([...rest, ...lines]), focus: `line.${row}.count`, say: step < 0 ? "Moved up." : "Moved down." };
}

/** A count of the grid as a line of the same work, of which more can be said. */
export function asLine(fields: Fields, cell: string, context: FormContext): Acted {
  const at = cell.indexOf(".");
  const [row, column] = [cell.slice(0, at), cell.slice(at + 1)];
  const id = idOf(column);
  const [names, leaf] = id.startsWith("p:")
    ? ([typeNames(context), "part"] as const)
    : ([operationNames(context), "operation"] as const);
  const line = key(fields.get(`cellIds.${cell}`) || cellId(row, id));
  const left = new Map([...fields].filter(([name]) => name !== `cells.${cell}` && name !== `cellIds.${cell}`));
  const made = withFields(left, [
    [`line.${line}.${leaf}`, nameFor(id.slice(2), names)],
    [`line.${line}.count`, fields.get(`cells.${cell}`) ?? ""],
    [`line.${line}.certainty`, "planned"],
    ...(row === WHOLE_UNIT ? [] : [[`line.${line}.assembly`, fields.get(`assembly.${row}.name`) ?? ""] as const]),
  ]);
  return { fields: opened(made, `more.${line}`), focus: `line.${line}.certainty`, say: "More can be said of this line now." };
}

/** Taking a row out of the form, and putting the last one removed back. */
const TABLES_BY_ASSEMBLY = ["fasteners", "hazards", "cells", "cellIds", "usual", "earlier"];

export function remove(fields: Fields, section: string, key: string): Acted {
  const sections = section === "assembly" ? ["assembly", ...TABLES_BY_ASSEMBLY] : [section];
  const said = (leaf: string) => fields.get(`${section}.${key}.${leaf}`);
  const what = said("name") || said("part") || said("operation") || "the line";
  const acted = take(fields, (name) => sections.some((head) => name.startsWith(`${head}.${key}.`)), what);
  const rows = [...new Set([...fields.keys()].flatMap((name) => (name.startsWith(`${section}.`) ? name.split(".")[1]! : [])))];
  const next = rows[rows.indexOf(key) + 1];
  if (next !== undefined) acted.fields.set("meta.undoAt", `${section}.${next}.`);
  return acted;
}

export function take(fields: Fields, gone: (name: string) => boolean, what: string): Acted {
  const taken = [...fields].filter(([name]) => gone(name));
  const left = new Map([...fields].filter(([name]) => !gone(name)));
  if (taken.length === 0) return { fields: left };
  left.set("meta.undo", JSON.stringify(taken));
  left.delete("meta.undoAt");
  left.set("meta.undone", what);
  return { fields: left, focus: "put-back", say: `Removed: ${what}. It can be put back.` };
}

export function putBack(fields: Fields): Acted {
  const back = pairsIn(fields.get("meta.undo"));
  const what = fields.get("meta.undone") ?? "";
  // Rows stand in the order of their fields.
  const next = fields.get("meta.undoAt");
  const before = [...fields.keys()].find((name) => next !== undefined && name.startsWith(next));
  const missing = back.filter(([name]) => !fields.get(name));
  const there = [...fields].filter(([name]) => !missing.some(([one]) => one === name));
  const whole = new Map(there.flatMap((pair) => (pair[0] === before ? [...missing, pair] : [pair])));
  for (const [name, text] of missing) whole.set(name, text);
  for (const name of ["meta.undo", "meta.undoAt", "meta.undone"]) whole.delete(name);
  return { fields: whole, ...(back[0] && { focus: back[0][0] }), say: `Put back: ${what}.` };
}

/** What is kept travels through the browser, so it is read with care. */
function pairsIn(json = ""): readonly (readonly [string, string])[] {
  try {
    const read: unknown = JSON.parse(json);
    return Array.isArray(read) ? read.filter(isPair) : [];
  } catch {
    return [];
  }
}

const isPair = (one: unknown): one is readonly [string, string] =>
  Array.isArray(one) && one.length === 2 && one.every((part) => typeof part === "string");

/** When an assembly was given another name, whatever named it by the old one follows. */
const REFERS = /^(line\.[^.]+\.assembly|worth\.[^.]+\.assembly|fit\.[^.]+\.(first|then)|assembly\.[^.]+\.(behind|joined))$/;

export function settleNames(fields: Fields): Map<string, string> {
  const settled = new Map(fields);
  const renamed = new Map<string, string>();
  const names = new Set<string>();
  for (const [field, text] of fields) {
    const row = /^assembly\.([^.]+)\.name$/.exec(field)?.[1];
    const name = text.trim();
    if (row === undefined || name === "") continue;
    const was = fields.get(`assembly.${row}.was`)?.toLowerCase();
    names.add(name.toLowerCase());
    if (was !== undefined && was !== name.toLowerCase()) renamed.set(was, name);
    settled.set(`assembly.${row}.was`, name);
  }
  for (const old of names) renamed.delete(old);
  if (renamed.size === 0) return settled;
  for (const [field, text] of fields) {
    if (!REFERS.test(field)) continue;
    const parts = text.split(";").map((part) => renamed.get(part.trim().toLowerCase()) ?? part.trim());
    settled.set(field, parts.join("; "));
  }
  return settled;
}
