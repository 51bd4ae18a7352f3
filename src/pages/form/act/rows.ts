/** Rows of the form: a new one, empty but for what is usual; one repeated; one taken out, and put back; one under another name. */
import type { Fields } from "../fields.js";

export interface Acted {
  readonly fields: Map<string, string>;
  /** Field to move to. */
  readonly focus?: string;
  /** What happened, for people who do not see it happen. */
  readonly say?: string;
}

export function addAssembly(fields: Fields): Acted {
  const row = freeKey(fields, "assembly", "a");
  return {
    fields: withFields(fields, [
      [`assembly.${row}.name`, ""],
      [`assembly.${row}.sort`, "board"],
    ]),
    focus: `assembly.${row}.name`,
    say: "A row for one more assembly was added.",
  };
}

/** `operation`: its name, when the button says which work. */
export function addLine(fields: Fields, operation: string): Acted {
  const row = freeKey(fields, "line", "l");
  return {
    fields: withFields(fields, [
      [`line.${row}.operation`, operation],
      [`line.${row}.count`, "1"],
      [`line.${row}.certainty`, "planned"],
    ]),
    focus: `line.${row}.${operation === "" ? "operation" : "count"}`,
    say: operation === "" ? "A line was added." : `A line was added: ${operation}.`,
  };
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

const withFields = (fields: Fields, pairs: Iterable<readonly [string, string]>): Map<string, string> =>
  new Map([...fields, ...pairs]);

/** The first of a1, a2, ... that is not in use, nor kept to be put back. */
function freeKey(fields: Fields, section: string, letter: string): string {
  const names = [...fields.keys(), fields.get("meta.undo") ?? ""].join("\n");
  for (let number = 1; ; number += 1) {
    if (!names.includes(`${section}.${letter}${number}.`)) return `${letter}${number}`;
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

/** Taking a row out of the form, and putting the last one removed back. */
const TABLES_BY_ASSEMBLY = ["fasteners", "hazards", "cells", "cellIds", "usual", "earlier"];

export function remove(fields: Fields, section: string, key: string): Acted {
  const sections = section === "assembly" ? ["assembly", ...TABLES_BY_ASSEMBLY] : [section];
  const what = fields.get(`${section}.${key}.name`) || fields.get(`${section}.${key}.operation`) || "the line";
  return take(fields, (name) => sections.some((head) => name.startsWith(`${head}.${key}.`)), what);
}

export function take(fields: Fields, gone: (name: string) => boolean, what: string): Acted {
  const taken = [...fields].filter(([name]) => gone(name));
  const left = new Map([...fields].filter(([name]) => !gone(name)));
  if (taken.length === 0) return { fields: left };
  left.set("meta.undo", JSON.stringify(taken));
  left.set("meta.undone", what);
  return { fields: left, focus: "put-back", say: `Removed: ${what}. It can be put back.` };
}

export function putBack(fields: Fields): Acted {
  const back = pairsIn(fields.get("meta.undo"));
  const what = fields.get("meta.undone") ?? "";
  const whole = new Map(fields);
  whole.delete("meta.undo");
  whole.delete("meta.undone");
  for (const [name, text] of back) if (!whole.get(name)) whole.set(name, text);
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
