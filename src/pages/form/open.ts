/** Which parts of the form are drawn: their names in `meta.open`, parted by spaces; `all` draws every one. */
import type { Fields } from "./fields.js";

/** A grid of more rows is drawn when it is asked for. */
const FEW_ROWS = 5;

export function openIn(fields: Fields): ReadonlySet<string> {
  const said = fields.get("meta.open");
  if (said !== undefined) return new Set(said.split(" ").filter(Boolean));
  const rows = [...fields].filter(([name, text]) => /^assembly\.[^.]+\.name$/.test(name) && text.trim() !== "");
  return new Set(rows.length > FEW_ROWS ? [] : ["grid"]);
}

export const isOpen = (open: ReadonlySet<string>, name: string): boolean => open.has(name) || open.has("all");

export function opened(fields: Fields, name: string, open = true): Map<string, string> {
  const now = new Set(openIn(fields));
  if (open) now.add(name);
  else now.delete(name);
  return new Map(fields).set("meta.open", [...now].join(" "));
}
