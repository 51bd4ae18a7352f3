/** What is called by names, in the language of an owner: those of the first rate book, and over them the names the shop itself gave there. */
import type { EstimateInput, Unit } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { names as german, ticks as germanTicks } from "./german/names.js";

export type Names = Readonly<Record<string, string>>;

const IN: Readonly<Record<string, Names>> = { de: german };
const TICKS: Readonly<Record<string, Names>> = { de: germanTicks };

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** Within names that are put together: 'Supply board: Replace, Resistor × 2'. The longest first. */
const within = (names: Names): RegExp => {
  const known = Object.keys(names)
    .sort((a, b) => b.length - a.length)
    .map(escaped);
  return new RegExp(`(?<=^|: |, |; )(?:${known.join("|")})(?=$|: |, |; | × )`, "g");
};
const WITHIN = new Map(Object.values(IN).map((names) => [names, within(names)]));

const TOGETHER = ["names", "work"];
/** Where a text stands that a person reads: under any other key the same word may be an id. */
const READ = new Set([...TOGETHER, "name", "reason", "why", "terms", "of", "to", "parts", "text"]);

function put<T>(value: T, names: Names, keys?: ReadonlySet<string>): T {
  const parts = WITHIN.get(names) ?? within(names);
  const told = (text: string): string => (Object.hasOwn(names, text) ? names[text]! : text);
  const look = (at: unknown, key: string): unknown => {
    if (typeof at === "string") {
      if (keys && !keys.has(key)) return at;
      return TOGETHER.includes(key) ? at.replaceAll(parts, told) : told(at);
    }
    if (Array.isArray(at)) return at.map((each) => look(each, key));
    if (at === null || typeof at !== "object") return at;
    return Object.fromEntries(Object.entries(at).map(([under, each]) => [under, look(each, under)]));
  };
  return look(value, "") as T;
}

/** Every name within a JSON value, such as a sheet. */
export function namesIn<T>(value: T, language: string, own: Names = {}): T {
  const first = IN[language];
  if (!first) return value;
  const ours = Object.keys(own).length > 0 ? put(value, own, READ) : value;
  return put(ours, first);
}

/** A line that was ticked at the intake; what was typed there stands as it was said. */
export const tickIn = (line: string, language: string): string => {
  const ticks = TICKS[language] ?? {};
  return Object.hasOwn(ticks, line) ? ticks[line]! : line;
};

function unitIn(unit: Unit, language: string): Unit {
  const said = (line: string) => tickIn(line, language);
  const { condition, accessories } = unit;
  return {
    ...unit,
    ...(accessories && { accessories: accessories.map(said) }),
    ...(condition !== undefined && { condition: condition.split("\n").map(said).join("\n") }),
  };
}

/** What of an input has names: the owner's words and the unit's stand as they were said. `own`: those of a later paper, to be held against it. */
export function bookIn<I extends Pick<EstimateInput, "rateBook" | "paperwork">>(
  input: I,
  language: string,
  own = input.paperwork?.names,
): I {
  if (!IN[language]) return input;
  const { unit, paperwork, ...named } = input as I & Partial<EstimateInput>;
  const ours = own ? { ...put(named, own, READ), ...(unit && { unit }) } : input;
  const terms = own && paperwork?.terms && { terms: put(paperwork, own, READ).terms! };
  return {
    ...ours,
    ...(unit && { unit: unitIn(unit, language) }),
    ...(paperwork && { paperwork: { ...paperwork, ...terms } }),
    rateBook: namesIn(input.rateBook, language, own),
  } as I;
}

/** Names on an owner's paper that have no other in its language, each once, in the order they stand. */
export function namesWithout(sheet: Sheet, input: EstimateInput, language: string): readonly string[] {
  const first = IN[language];
  if (!first) return [];
  const found = new Set<string>();
  const look = (at: unknown, key: string): void => {
    if (typeof at === "string") {
      if (READ.has(key) && !TOGETHER.includes(key) && /\p{L}/u.test(at) && !Object.hasOwn(first, at)) found.add(at);
    } else if (at !== null && typeof at === "object")
      for (const [under, each] of Object.entries(at)) look(each, Array.isArray(at) ? key : under);
  };
  const { lines, options, ifFound, suggestions, adjustments, totals } = sheet;
  // Where an option stands by itself, its names are put together: the work itself tells them apart.
  const works = new Map(input.rateBook.operations.map(({ id, name }) => [id, name]));
  const said = input.items.map(({ own, operation, reason }) => ({
    name: own?.name ?? works.get(operation ?? "") ?? "",
    reason,
  }));
  look([lines, options, ifFound, suggestions, said, adjustments, totals.taxGroups, { terms: input.paperwork?.terms ?? [] }], "");
  return [...found];
}
