/** What the count grid shows: the columns in use or asked for, filled up to the usual dozen; what lines add; what earlier jobs suggest. */
import { ownPartOf } from "../../estimating/resolve.js";
import { capital } from "../../wording/list.js";
import { type Column, columnsOf } from "../form/context.js";
import { idOf, key } from "../form/fields.js";
import { assemblyName } from "../form/label.js";
import type { IntakeView } from "./view.js";

const USUAL = { parts: 9, cleaning: 3 };

export function columnsShown(view: IntakeView, inLines: ReadonlyMap<string, number>): readonly Column[] {
  const { cells, usual, show } = view.read.draft;
  const columns = columnsOf(view.context.rateBook);
  const inUse = new Set<string>([...Object.keys(show), ...[...inLines.keys()].map((cell) => cell.slice(cell.indexOf(".") + 1))]);
  for (const table of [cells, usual]) {
    for (const row of Object.values(table))
      for (const [column, text] of Object.entries(row)) if (text.trim() !== "") inUse.add(column);
  }
  // The usual ones stay where they are while they are typed into; only others asked for push some out.
  const offered = columns.filter(({ retired }) => !retired);
  const usually = [
    ...offered.filter(({ group }) => group === "cleaning").slice(0, USUAL.cleaning),
    ...offered.filter(({ group }) => group !== "cleaning").slice(0, USUAL.parts),
  ];
  const room = USUAL.parts + USUAL.cleaning - inUse.size;
  const shown = new Set(usually.filter(({ id }) => !inUse.has(key(id))).slice(0, Math.max(0, room)));
  return columns.filter((column) => shown.has(column) || inUse.has(key(column.id)));
}

/** What lines count of a cell of the grid: `row.column` -> pieces. */
export function countsInLines(view: IntakeView): ReadonlyMap<string, number> {
  const { input, draft } = view.read;
  const typeOf = new Map(input.kinds?.map(({ id, type }) => [id, type]));
  const sums = new Map<string, number>();
  for (const item of input.items) {
    const { id, assembly, operation, part, count } = item;
    if (!draft.line[key(id)]) continue;
    const own = ownPartOf(item);
    const type = own ? own.type : part && ("kind" in part ? typeOf.get(part.kind) : "type" in part ? part.type : undefined);
    const column = part ? `p:${type ?? ""}` : `o:${operation ?? ""}`;
    const cell = `${assembly === undefined ? "*" : key(assembly)}.${key(column)}`;
    sums.set(cell, (sums.get(cell) ?? 0) + count);
  }
  return sums;
}

export const GROUP_NAMES: Readonly<Record<string, string>> = {
  capacitor: "Capacitors",
  resistor: "Resistors",
  control: "Controls",
  semiconductor: "Semiconductors",
  valve: "Valves",
  cell: "Cells",
  connector: "Connectors",
  lamp: "Lamps",
  mechanical: "Mechanical",
  other: "Other parts",
  cleaning: "Cleaning",
};

/** What was taken from earlier jobs of the model, and what each count rests on. */
interface Suggestion {
  readonly about: string;
  readonly text: string;
  readonly kept: boolean;
}

/** The cell still holds what was suggested. */
export const isSuggested = (view: IntakeView, row: string, column: string): boolean => {
  const basis = view.fields.get(`earlier.${row}.${key(column)}`);
  return basis !== undefined && basis.split(" ")[0] === view.fields.get(`cells.${row}.${key(column)}`)?.trim();
};

export const EarlierPart = ({ view }: { view: IntakeView }) => {
  const found = suggestionsOf(view);
  return found.length === 0 ? null : (
    <details class="fold" id="earlier" open>
      <summary>Suggested from earlier jobs ({found.length})</summary>
      <p class="hint">
        The median of the jobs that had it. Framed with dashes in the grid until you change it; nothing here is on record before
        you save.
      </p>
      <ul>
        {found.map(({ about, text, kept }) => (
          <li>
            <a href={`#${encodeURI(about)}`}>{text}</a>
            {kept ? "" : ", changed since"}
          </li>
        ))}
      </ul>
    </details>
  );
};

function suggestionsOf({ fields, read, context }: IntakeView): readonly Suggestion[] {
  const columns = columnsOf(context.rateBook);
  return [...fields].flatMap(([field, basis]): Suggestion[] => {
    const [head, row = "", column = ""] = field.split(".");
    const [count = "", least, most, jobs, of] = basis.split(" ");
    if (head !== "earlier" || of === undefined) return [];
    const isLine = column === "line";
    const about = isLine ? `line.${row}.count` : `cells.${row}.${column}`;
    const now = fields.get(about)?.trim();
    if (now === undefined) return [];
    const line = read.draft.line[row];
    const what = isLine ? line?.operation : columns.find(({ id }) => id === idOf(column))?.name;
    const where = isLine ? line?.assembly || "whole unit" : assemblyName(row, read.draft);
    const range = jobs === "1" ? "" : least === most ? "the same in each; " : `${least} to ${most}; `;
    return [
      {
        about,
        text: `${capital(where)}, ${what}: ${count} (${range}${jobs} of ${of} ${of === "1" ? "job" : "jobs"})`,
        kept: now === count,
      },
    ];
  });
}
