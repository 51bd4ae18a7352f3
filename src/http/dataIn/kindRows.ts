/** Part kinds from rows. A row with the id of a kind on record changes what its columns say and leaves the rest. */

import { faultsIn } from "../../acts/checked.js";
import { shapeFaults } from "../../acts/fault.js";
import { saysOf } from "../../acts/field.js";
import { partKindFields } from "../../acts/partKind.js";
import type { RateBook } from "../../estimating/input.js";
import { readMarking } from "../../estimating/parts/marking.js";
import type { Kept } from "../../records/columns.js";
import type { Mapping } from "../../records/mappings.js";
import type { PartKindValue } from "../../records/partKinds.js";
import { asNumber, asWord, type Field, readerOf } from "./fields.js";
import { readRow, under } from "./readRow.js";
import type { CellFault, Report, RowReport } from "./report.js";
import type { Table } from "./table.js";

/** What columns are called besides by the field's own name; and how a cell is read where that does not follow from its declaration. */
const KNOWN: Readonly<Record<string, Partial<Field>>> = {
  type: { headings: ["part type", "kind of part", "category"], read: asWord },
  name: { headings: ["description", "part", "title"] },
  value: { headings: ["marking"], read: asWord },
  ratedVolts: { headings: ["rated volts", "voltage", "volts", "v"], read: asNumber(/\s*V(?:DC)?$/i) },
  tolerancePercent: { label: "Tolerance, percent", headings: ["tolerance", "tolerance percent"] },
  form: { headings: ["package", "case"] },
  audioGrade: { headings: ["audio grade"] },
  leads: { headings: ["pins"] },
  stock: { headings: ["in stock", "quantity in stock"] },
  notes: { headings: ["note", "remarks"] },
};

export const KIND_FIELDS: readonly Field[] = [
  { name: "id", label: "Id", headings: ["part number", "code", "sku"], read: asWord },
  ...[...saysOf(partKindFields)].map(([name, told]) => ({
    ...{ name, label: told.label, headings: [], needed: !told.optional, read: readerOf(told) },
    ...KNOWN[name],
  })),
];

export interface Catalogue {
  readonly rateBook: RateBook;
  readonly kinds: ReadonlyMap<string, PartKindValue & Kept>;
}

export function readKinds({ rows }: Table, mapping: Mapping, { rateBook, kinds }: Catalogue): Report {
  const seen = new Map<string, number>();
  const reports: RowReport[] = [];
  const changes: Report["changes"][number][] = [];
  for (const row of rows) {
    const read = readRow(row, KIND_FIELDS, mapping);
    const { id: stated, ...cells } = read.value as { id?: string } & Partial<PartKindValue>;
    const type = typeNamed(rateBook, cells.type);
    const id = stated ?? slug(cells.name ?? "");
    const faults: CellFault[] = [...read.faults];
    if (cells.type !== undefined && !type)
      faults.push(under(mapping, "type", `'${cells.type}' is no part type of the rate book; give its id or its name`));
    if (type && cells.value !== undefined && READABLE.has(type.family) && !readMarking(cells.value, type.family))
      faults.push(under(mapping, "value", `'${cells.value}' cannot be read as a value; write it as 4u7, 100n or 4k7`));
    const before = seen.get(id);
    if (before !== undefined) faults.push(under(mapping, "id", `'${id}' stands in row ${before} too`));
    seen.set(id, row.number);
    const old = kinds.get(id);
    const value = { ...withoutKept(old), ...cells, ...(type && { type: type.id }) };
    if (faults.length === 0) faults.push(...checked(value, rateBook, mapping));
    const is = faults.length > 0 ? "wrong" : old === undefined ? "new" : isSame(withoutKept(old), value) ? "same" : "changed";
    reports.push({ row: row.number, is, name: cells.name ?? stated ?? "", faults });
    if (is === "new" || is === "changed") changes.push({ in: "partKinds", id, value, ...(old && { version: old.version }) });
  }
  return { rows: reports, changes: reports.some(({ is }) => is === "wrong") ? [] : changes };
}

/** Families whose values are marked in figures. */
export const READABLE = new Set(["capacitor", "resistor", "control"]);

export const typeNamed = ({ partTypes }: RateBook, text: string | undefined) => {
  const wanted = text?.trim().toLowerCase();
  return partTypes.find(({ id, name }) => id.toLowerCase() === wanted || name.toLowerCase() === wanted);
};

function checked(value: object, rateBook: RateBook, mapping: Mapping): CellFault[] {
  const shape = partKindFields.safeParse(value);
  const faults = shape.success
    ? faultsIn({ kinds: [{ ...(value as PartKindValue), id: "new" }] }, rateBook, "/kinds/0")
    : shapeFaults(shape.error.issues, value);
  return faults.map(({ pointer, detail }) => under(mapping, pointer.split("/")[1] ?? "", detail));
}

export const withoutKept = <T extends object>(record: (T & Kept) | undefined): Partial<T> => {
  if (!record) return {};
  const { id: _, version: __, createdAt: ___, updatedAt: ____, ...value } = record;
  return value as Partial<T>;
};

export const isSame = (a: object, b: object): boolean => {
  const sorted = (value: object) => JSON.stringify(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)));
  return sorted(a) === sorted(b);
};

/** An id made of a name: 'Film 100 nF 63 V' is film-100-nf-63-v. */
export const slug = (name: string): string =>
  name
    .normalize("NFKD")
    .replaceAll("µ", "u")
    .replaceAll("μ", "u")
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 80) || "part";
