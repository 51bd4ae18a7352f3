/**
 * A form is drawn in part. What is not drawn travels with it in one field, a line each in the order of the form, so that nothing typed is
 * lost and rows keep their places: a name with its text, or alone where the field itself is drawn. Parts of a name that are those of the
 * line before are left out. Empty texts do not travel, but for the name of an assembly, which holds its row.
 */
import type { Fields } from "./fields.js";

export const REST = "meta.rest";
const HOLDS_A_ROW = /^assembly\.[^.]+\.name$/;

export function restOf(fields: Fields, drawn: ReadonlySet<string>): string {
  const lines: string[] = [];
  let before: readonly string[] = [];
  for (const [name, text] of fields) {
    const parts = name.split(".");
    if (name === REST || /\s/.test(name) || parts.includes("")) continue;
    if (text === "" && !drawn.has(name) && !HOLDS_A_ROW.test(name)) continue;
    let same = 0;
    while (same < parts.length - 1 && parts[same] === before[same]) same += 1;
    const short = parts.map((part, index) => (index < same ? "" : part)).join(".");
    lines.push(drawn.has(name) ? short : `${short} ${text.replace(/[%\r\n]/g, encodeURIComponent)}`);
    before = parts;
  }
  return lines.join("\n");
}

/** All fields of a form as it was sent. */
export function whole(sent: Fields): Map<string, string> {
  const all = new Map<string, string>();
  let before: readonly string[] = [];
  for (const line of (sent.get(REST) ?? "").split(/\r\n|\r|\n/)) {
    const [, short, text] = /^(\S+)(?: (.*))?$/.exec(line) ?? [];
    if (short === undefined) continue;
    before = short.split(".").map((part, index) => part || before[index] || "");
    const name = before.join(".");
    if (text !== undefined) all.set(name, text.replace(/%(?:25|0D|0A)/g, decodeURIComponent));
    else if (sent.has(name)) all.set(name, sent.get(name)!);
  }
  for (const [name, text] of sent) if (name !== REST) all.set(name, text);
  return all;
}

export const namesIn = (html: string): ReadonlySet<string> =>
  new Set([...html.matchAll(/ name="([^"]+)"/g)].map(([, name]) => name!));
