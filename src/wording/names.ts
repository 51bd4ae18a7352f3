/** What the first rate book calls things, in the language of an owner. What the shop called by words of its own stands as it wrote it. */
import type { EstimateInput } from "../estimating/input.js";
import { names as german } from "./german/names.js";

const IN: Readonly<Record<string, Readonly<Record<string, string>>>> = { de: german };

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** Within names that are put together: 'Supply board: Replace, Resistor × 2'. The longest first. */
const within = new Map(
  Object.entries(IN).map(([language, names]) => {
    const known = Object.keys(names)
      .sort((a, b) => b.length - a.length)
      .map(escaped);
    return [language, new RegExp(`(?<=^|: |, |; )(?:${known.join("|")})(?=$|: |, |; | × )`, "g")] as const;
  }),
);

/** Every name within a JSON value, such as a sheet. */
export function namesIn<T>(value: T, language: string): T {
  const names = IN[language];
  const put = within.get(language);
  if (!names || !put) return value;
  const told = (text: string): string => names[text] ?? text;
  const look = (at: unknown, together: boolean): unknown => {
    if (typeof at === "string") return together ? at.replaceAll(put, told) : told(at);
    if (Array.isArray(at)) return at.map((each) => look(each, together));
    if (at === null || typeof at !== "object") return at;
    return Object.fromEntries(Object.entries(at).map(([key, each]) => [key, look(each, key === "names" || key === "work")]));
  };
  return look(value, false) as T;
}

/** The rate book alone: what else an input says is the shop's or the owner's own. */
export const bookIn = <I extends Pick<EstimateInput, "rateBook">>(input: I, language: string): I =>
  IN[language] ? { ...input, rateBook: namesIn(input.rateBook, language) } : input;
