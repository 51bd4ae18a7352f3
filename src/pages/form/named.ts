/** Things referred to by name as typed: whatever the case, by id where a name is not enough. */
import type { Reading } from "./reading.js";

export interface Named {
  readonly id: string;
  readonly name: string;
  /** What it was called when the page was made. */
  readonly was?: string;
}

/** An id from a name (or an id) as typed. */
export function named(at: Reading, field: string, text: string | undefined, among: readonly Named[]): string | undefined {
  const wanted = text?.trim() ?? "";
  if (wanted === "") return undefined;
  const found = find(wanted, among);
  if (!found) at.problems.push({ name: "name unknown", field, text: wanted, known: among.map(({ name }) => name) });
  return found?.id;
}

function find(wanted: string, among: readonly Named[]): Named | undefined {
  const same = (name: string | undefined) => name?.toLowerCase() === wanted.toLowerCase();
  const [only, ...more] = among.filter(({ name }) => same(name));
  if (only && more.length === 0) return only;
  return among.find(({ id }) => id === wanted) ?? only ?? among.find(({ was }) => same(was));
}

/** How a record is written in a field: by name where that is enough. */
export const nameFor = (id: string, among: readonly Named[]): string => {
  const own = among.find((one) => one.id === id);
  return own && find(own.name, among)?.id === id && !/[;]/.test(own.name) ? own.name : id;
};

/** Several names, parted by semicolons. */
export const namedList = (at: Reading, field: string, text: string | undefined, among: readonly Named[]): readonly string[] =>
  (text ?? "")
    .split(/[;\n]/)
    .map((part) => named(at, field, part, among))
    .filter((id) => id !== undefined);
