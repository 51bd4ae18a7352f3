/** Text to rows under headings. Quotes as in RFC 4180; comma, semicolon or tab, whichever stands most in the first row. */
import Papa from "papaparse";
import type { FileRead } from "../../acts/importTable.js";
import type { Table, TableRow } from "../../acts/tableRows.js";
import { unguarded } from "../../documents/csvText.js";
import { fromBase64 } from "../../records/backup/format.js";
import { decode } from "./decode.js";

type TableRead =
  | ({ readonly ok: true } & Table)
  | { readonly ok: false; readonly faults: readonly { readonly row: number; readonly why: string }[] };

const MOST_ROWS = 5000;
const MOST_COLUMNS = 100;
const MOST_FAULTS = 100;

export function readTable(text: string): TableRead {
  const fault = (row: number, why: string): TableRead => ({ ok: false, faults: [{ row, why }] });
  const plain = text.replace(/^\uFEFF/, "");
  if (plain.trim() === "") return fault(1, "There is nothing to read; choose a file or paste its text.");
  const delimiter = delimiterOf(plain);
  const { data, errors } = Papa.parse<string[]>(plain, { delimiter, skipEmptyLines: false });
  const quote = errors.find(({ type }) => type === "Quotes");
  if (quote) return fault((quote.row ?? 0) + 1, "A quotation mark opens a cell and is not closed where the cell ends.");
  const headings = (data[0] ?? []).map((cell) => unguarded(cell).trim());
  while (headings.length > 0 && headings.at(-1) === "") headings.pop();
  if (headings.length === 0) return fault(1, "The first row must hold the headings.");
  if (headings.length > MOST_COLUMNS) return fault(1, `There are more than ${MOST_COLUMNS} columns.`);
  const twice = headings.find((heading, at) => heading !== "" && headings.indexOf(heading) !== at);
  if (twice !== undefined) return fault(1, `Two columns are called '${twice}'; name each once.`);

  const [rows, faults]: [TableRow[], { row: number; why: string }[]] = [[], []];
  for (const [at, cells] of data.entries()) {
    if (at === 0 || cells.every((cell) => cell.trim() === "")) continue;
    const over = cells.slice(headings.length).find((cell) => cell.trim() !== "");
    if (over !== undefined)
      faults.push({ row: at + 1, why: `It has more cells than there are headings: '${over.slice(0, 40)}'.` });
    rows.push({ number: at + 1, cell: (heading) => unguarded(cells[headings.indexOf(heading)] ?? "") });
  }
  if (rows.length > MOST_ROWS) return fault(MOST_ROWS + 2, `There are more than ${MOST_ROWS} rows; split the file.`);
  if (rows.length === 0) return fault(2, "There is no row below the headings.");
  return faults.length > 0 ? { ok: false, faults: faults.slice(0, MOST_FAULTS) } : { ok: true, delimiter, headings, rows };
}

/** Outside quotes, in the first row. */
function delimiterOf(text: string): Table["delimiter"] {
  const counts = { ",": 0, ";": 0, "\t": 0 };
  let quoted = false;
  for (const char of text) {
    if (char === '"') quoted = !quoted;
    else if (!quoted && (char === "\n" || char === "\r")) break;
    else if (!quoted && Object.hasOwn(counts, char)) counts[char as keyof typeof counts] += 1;
  }
  const [first] = (Object.entries(counts) as [Table["delimiter"], number][]).sort((a, b) => b[1] - a[1]);
  return first![1] > 0 ? first![0] : ",";
}

/** Text as it was sent, or bytes whose encoding is found out. */
export function fileRead({ text = "", base64 }: { readonly text?: string; readonly base64?: string }): FileRead {
  const decoded = base64 === undefined ? { ok: true as const, text, encoding: "text" } : decode(fromBase64(base64));
  if (!decoded.ok) return { ok: false, is: "encoding unreadable", why: [decoded.why] };
  const table = readTable(decoded.text);
  return table.ok
    ? { ok: true, encoding: decoded.encoding, table }
    : { ok: false, is: "row refused", why: table.faults.map(({ row, why }) => `Row ${row}: ${why}`) };
}
