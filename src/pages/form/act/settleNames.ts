/** When an assembly was given another name, whatever named it by the old one follows. */
import type { Fields } from "../fields.js";

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
