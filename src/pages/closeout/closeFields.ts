/** Names and rows of the form a job is closed with. */
import { key } from "../form/fields.js";

const FEWEST = { payments: 4, "costs.other": 2 } as const;
/** As many payments as a close-out takes. */
const MOST_ROWS = 100;

export const doneField = (id: string): string => `done.${key(id)}`;
export const untouchedField = (id: string): string => `untouched.each.${key(id)}`;

/** Rows of the form: a spare one behind the last that is filled, so that none that is on record is left out. */
export function rowsIn(fields: ReadonlyMap<string, string>, name: keyof typeof FEWEST): number {
  const filled = [...fields].flatMap(([field, value]) => {
    const [row, part] = field.startsWith(`${name}.`) ? field.slice(name.length + 1).split(".") : [];
    return /^\d+$/.test(row ?? "") && part !== "for" && value.trim() !== "" ? [Number(row)] : [];
  });
  return Math.min(MOST_ROWS, Math.max(FEWEST[name], ...filled.map((row) => row + 2)));
}

/** The payments as a form was drawn with them, in one field of it: what is changed later is seen by that. */
export const paymentsIn = (fields: ReadonlyMap<string, string>): string =>
  String(new URLSearchParams([...fields].filter(([name]) => name.startsWith("payments."))));
