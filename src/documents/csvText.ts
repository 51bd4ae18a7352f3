/**
 * Rows as CSV: RFC 4180 (comma, CRLF, quotes doubled), in UTF-8. A text that a spreadsheet would take for a formula gets an
 * apostrophe in front (OWASP, CSV injection); so does one that would otherwise read as guarded, so that every text comes back whole.
 */
import Papa from "papaparse";

/** A number that is written with its own digits, such as an amount of money: '-12.50'. */
export interface Digits {
  readonly digits: string;
}

export type CsvCell = string | number | boolean | Digits | undefined;

/** Signs in front of it that a program may pass over, and the full-width ones that some take for the same. */
const RUN = "[\\s\\u200b-\\u200d\\u2060\\ufeff]*[=+\\-@\\t\\r\\uff1d\\uff0b\\uff0d\\uff20]";
const FORMULA = new RegExp(`^'*${RUN}`, "u");
const GUARDED = new RegExp(`^'+${RUN}`, "u");

export const guarded = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);
/** As it was before `guarded`. */
export const unguarded = (text: string): string => (GUARDED.test(text) ? text.slice(1) : text);

export const csvText = (rows: readonly (readonly CsvCell[])[]): string =>
  rows.length === 0
    ? ""
    : `${Papa.unparse(
        rows.map((row) => row.map(written)),
        { newline: "\r\n", skipEmptyLines: false },
      )}\r\n`;

function written(cell: CsvCell): string {
  if (cell === undefined) return "";
  if (typeof cell === "string") return guarded(cell);
  if (typeof cell === "boolean") return cell ? "yes" : "no";
  return typeof cell === "number" ? String(cell) : cell.digits;
}
