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

/** The names that have most of its words, then most of its first letters, and no more than six. */
function nearest(text: string, known: readonly string[]): readonly string[] {
  const wanted = text.toLowerCase();
  // "of" and "and" say nothing.
  const words = wanted.split(/\s+/).filter((word) => word.length > 2 || /\d/.test(word));
  const alike = (name: string): number => {
    const lower = name.toLowerCase();
    if (lower.includes(wanted) || wanted.includes(lower)) return 10_000;
    let same = 0;
    while (same < wanted.length && lower[same] === wanted[same]) same += 1;
    return words.filter((word) => lower.includes(word)).length * 100 + same;
  };
  return known
    .map((name) => ({ name, alike: alike(name) }))
    .sort((a, b) => b.alike - a.alike)
    .slice(0, 6)
    .map(({ name }) => name);
}
