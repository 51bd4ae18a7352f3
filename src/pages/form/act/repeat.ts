/** The same line once more, right after the first. */
import type { Fields } from "../fields.js";
import type { Acted } from "./act.js";
import { freeKey } from "./add.js";

export function repeatLine(fields: Fields, key: string): Acted {
  const row = freeKey(fields, "line", "l");
  const prefix = `line.${key}.`;
  const own = [...fields].filter(([name]) => name.startsWith(prefix));
  const again = own.map(([name, text]) => [`line.${row}.${name.slice(prefix.length)}`, text] as const);
  const last = own.at(-1)?.[0];
  const repeated = new Map([...fields].flatMap((pair) => (pair[0] === last ? [pair, ...again] : [pair])));
  return { fields: repeated, focus: `line.${row}.count`, say: "The line was repeated." };
}
