/** Texts in letters that the fonts lack: where they stand, and how they are spelled on paper where the shop said so. */
import type { EstimateInput } from "../../estimating/input.js";
import type { Warning } from "../../estimating/sheet.js";

export interface Unprintable {
  /** JSON pointer (RFC 6901) into the input. */
  readonly pointer: string;
  readonly text: string;
  /** Each once. */
  readonly characters: readonly string[];
}

/** Every text of a JSON value that is spelled otherwise, spelled so; ids too, so that what refers to another still does. */
export function spelled<T>(value: T, spellings: Readonly<Record<string, string>> | undefined): T {
  if (!spellings) return value;
  if (typeof value === "string") return (Object.hasOwn(spellings, value) ? spellings[value] : value) as T;
  if (Array.isArray(value)) return value.map((entry) => spelled(entry, spellings)) as T;
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, spelled(entry, spellings)])) as T;
}

/** Where in an input the texts stand that printing it warned of. */
export function unprintable(input: EstimateInput, warnings: readonly Warning[]): Unprintable[] {
  const missing = warnings.flatMap((warning) => (warning.is === "missing glyphs" ? [warning] : []));
  if (missing.length === 0) return [];
  const found = new Map<string, Unprintable>();
  const look = (value: unknown, pointer: string): void => {
    if (typeof value === "string") {
      const printed = missing.filter(({ text }) => text.includes(lineOf(value)) || value.includes(text));
      const characters = [...new Set(printed.flatMap((each) => each.characters))].filter((character) =>
        value.includes(character),
      );
      if (characters.length > 0 && !found.has(value)) found.set(value, { pointer, text: value, characters });
    } else if (value !== null && typeof value === "object") {
      for (const [key, entry] of Object.entries(value))
        look(entry, `${pointer}/${key.replaceAll("~", "~0").replaceAll("/", "~1")}`);
    }
  };
  const { rateBook, paperwork: { spellings = {}, ...paperwork } = {}, ...rest } = input;
  look({ paperwork, ...rest, rateBook }, "");
  for (const [text, latin] of Object.entries(spellings)) {
    const still = missing.filter((each) => each.text.includes(latin));
    const characters = [...new Set(still.flatMap((each) => each.characters))].filter((character) => latin.includes(character));
    if (characters.length > 0) found.set(text, { pointer: "/paperwork/spellings", text, characters });
    else found.delete(text);
  }
  return [...found.values()];
}

/** As names and addresses are joined on one line. */
const lineOf = (text: string): string => text.trim();
