/** Reads one field at a time, noting what is wrong and which part of the input each field became. */

import { decimalMark, readFigure, shift, withoutCurrency } from "../../wording/decimal.js";
import { EMAIL } from "../../wording/email.js";
import { decimalsIn, type FormContext } from "./context.js";
import { key } from "./fields.js";
import type { FormProblem } from "./problemText.js";

/** Longest accepted text of one line, and of a note. */
export const LENGTHS = { id: 100, line: 500, note: 20_000 } as const;

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u2028\u2029]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const CONTROL_BUT_BREAKS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/;

export interface Reading {
  readonly context: FormContext;
  readonly mark: string;
  readonly problems: FormProblem[];
  /** JSON pointer into the input -> field. */
  readonly where: Map<string, string>;
}

export const reading = (context: FormContext): Reading => ({
  context,
  mark: decimalMark(context.locale),
  problems: [],
  where: new Map(),
});

/** `places` moves the decimal point: -2 makes a share of a percentage. */
export const number = (at: Reading, field: string, text = "", decimals = 0, places = 0): number | undefined =>
  figure(
    at,
    field,
    readFigure(text.replace(/\s*%\s*$/, ""), { mark: at.mark, decimals, ...(decimals === 0 && { fraction: "left" }) }),
    places,
  );

/** A count. Negative and fractional ones are read as they are: the engine names what is wrong with them. */
export const count = (at: Reading, field: string, text?: string): number | undefined => number(at, field, text);

/** Minor units of the shop's currency; a currency sign or code before or after the figure is allowed. */
export function money(at: Reading, field: string, text = ""): number | undefined {
  const [{ currency }, decimals] = [at.context, decimalsIn(at.context)];
  return figure(at, field, readFigure(withoutCurrency(text, at.context), { mark: at.mark, decimals, currency }), decimals);
}

/** What is wrong with it is noted. */
function figure(at: Reading, field: string, read: ReturnType<typeof readFigure>, places: number): number | undefined {
  if (read && "wrong" in read) at.problems.push({ name: "figure wrong", field, why: read.wrong });
  return !read || "wrong" in read ? undefined : Number(shift(read.plain, places));
}

/** One line of text; empty: undefined. */
export function line(at: Reading, field: string, text = "", most: number = LENGTHS.line): string | undefined {
  const trimmed = text.trim();
  if (CONTROL.test(trimmed)) at.problems.push({ name: "line break", field });
  limit(at, field, trimmed, most);
  return trimmed || undefined;
}

/** One address. */
export function email(at: Reading, field: string, text?: string): string | undefined {
  const read = line(at, field, text);
  if (read && !EMAIL.test(read)) at.problems.push({ name: "e-mail unreadable", field, text: read });
  return read;
}

/** A note of several lines. */
export function note(at: Reading, field: string, text = ""): string | undefined {
  const trimmed = text.replace(/\r\n?/g, "\n").trim();
  if (CONTROL_BUT_BREAKS.test(trimmed)) at.problems.push({ name: "control character", field });
  limit(at, field, trimmed, LENGTHS.note);
  return trimmed || undefined;
}

/** One entry a line. */
export const lines = (at: Reading, field: string, text?: string): readonly string[] | undefined => {
  const found = note(at, field, text)
    ?.split("\n")
    .map((entry) => entry.trim())
    .filter((entry) => entry !== "");
  return found?.length ? found : undefined;
};

function limit(at: Reading, field: string, text: string, most: number): void {
  if (text.length > most) at.problems.push({ name: "too long", field, length: text.length, limit: most });
}

/** One of a fixed set; empty: undefined. */
export function choice<T extends string>(
  at: Reading,
  field: string,
  text: string | undefined,
  among: readonly T[],
): T | undefined {
  if (text === undefined || text === "") return undefined;
  const found = among.find((one) => one === text);
  if (!found) at.problems.push({ name: "choice unknown", field, text });
  return found;
}

/** Ticked check boxes of a known set. */
export const marked = <T extends string>(
  marks: Readonly<Record<string, string>> | undefined,
  among: readonly T[],
): readonly T[] => among.filter((one) => marks?.[key(one)]);
