/** Taking a row out of the form, and putting the last one removed back. */
import type { Fields } from "../fields.js";
import type { Acted } from "./act.js";

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
