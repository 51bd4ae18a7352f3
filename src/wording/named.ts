/** Things referred to by name as typed: whatever the case, by id where a name is not enough. */
import { listed } from "./list.js";

export interface Named {
  readonly id: string;
  readonly name: string;
  /** What it was called when the page was made. */
  readonly was?: string;
}

export function foundByName<N extends Named>(wanted: string, among: readonly N[]): N | undefined {
  const same = (name: string | undefined) => name?.toLowerCase() === wanted.toLowerCase();
  const [only, ...more] = among.filter(({ name }) => same(name));
  if (only && more.length === 0) return only;
  return among.find(({ id }) => id === wanted) ?? only ?? among.find(({ was }) => same(was));
}

/** How a record is written in a field: by name where that is enough. */
export const nameFor = (id: string, among: readonly Named[]): string => {
  const own = among.find((one) => one.id === id);
  return own && foundByName(own.name, among)?.id === id && !/[;]/.test(own.name) ? own.name : id;
};

export const unknownNameText = (text: string, known: readonly string[]): string =>
  known.length === 0
    ? `'${short(text)}' is not known, because nothing is listed yet; add it first, or leave this empty.`
    : `'${short(text)}' is not known; choose one of ${listed(nearest(text, known), "or")}.`;

export const short = (text: string): string => (text.length > 60 ? `${text.slice(0, 60)}…` : text);

/** Of what can also be said without a list. */
export const notListedText = (text: string, known: readonly string[], where: string, otherwise: string): string => {
  const others = nearest(text, known);
  return `'${short(text)}' is not ${where}: ${otherwise}${others.length === 0 ? "" : `, or choose one of ${listed(others, "or")}`}.`;
};

/** The names that share most of their first letters with what was typed, and no more than six. */
function nearest(text: string, known: readonly string[]): readonly string[] {
  const wanted = text.toLowerCase();
  const alike = (name: string): number => {
    const lower = name.toLowerCase();
    if (lower.includes(wanted) || wanted.includes(lower)) return 100;
    let same = 0;
    while (same < wanted.length && lower[same] === wanted[same]) same += 1;
    return same;
  };
  return [...known].sort((a, b) => alike(b) - alike(a)).slice(0, 6);
}
