/** The lines of an estimate as CSV, under the columns that they are taken in by. */
import { lineRows } from "../../acts/importLines.js";
import { type LineRow, lineTable } from "../../acts/line.js";
import { csvText } from "../../documents/csvText.js";
import type { EstimateInput } from "../../estimating/input.js";
import { declared } from "./columns.js";

const COLUMNS = declared<LineRow>({ fields: lineTable });

/** With a byte order mark spreadsheets know the encoding (Unicode 15, 23.8, from memory). */
export const linesCsv = (input: EstimateInput): string =>
  `\uFEFF${csvText([Object.keys(COLUMNS), ...lineRows(input).map((row) => Object.values(COLUMNS).map((cell) => cell(row)))])}`;
