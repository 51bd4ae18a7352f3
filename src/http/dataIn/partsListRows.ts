/**
 * A parts list (bill of materials) becomes the counts of one assembly: each line counts towards a part type of the rate book. The
 * counts of types the list names are replaced, others stay. Kinds the catalogue lacks are added when wanted.
 */

import { faultsIn } from "../../acts/checked.js";
import type { PartKind, PartType, RateBook } from "../../estimating/input.js";
import { groupOf, proposedType, readDesignators } from "../../estimating/parts/designators.js";
import { readMarking } from "../../estimating/parts/marking.js";
import type { Kept } from "../../records/columns.js";
import type { Mapping } from "../../records/mappings.js";
import type { Model } from "../../records/models.js";
import { asNumber, asText, asWhole, asWord, type Field } from "./fields.js";
import { type Catalogue, READABLE, slug, typeNamed, withoutKept } from "./kindRows.js";
import { readRow, under } from "./readRow.js";
import type { CellFault, Group, Report, RowReport } from "./report.js";
import type { Table, TableRow } from "./table.js";

export const PARTS_LIST_FIELDS: readonly Field[] = [
  {
    name: "designators",
    label: "Designators",
    headings: ["reference", "references", "ref", "refs", "reference designator", "reference designators", "refdes", "designator"],
    read: asText,
  },
  { name: "count", label: "Quantity", headings: ["quantity", "qty", "number", "pieces"], read: asWhole },
  { name: "value", label: "Value", headings: ["marking", "val"], read: asWord },
  { name: "type", label: "Part type", headings: ["part type", "kind of part", "category"], read: asWord },
  { name: "ratedVolts", label: "Rated volts", headings: ["rated volts", "voltage", "volts"], read: asNumber(/\s*V(?:DC)?$/i) },
  { name: "form", label: "Form", headings: ["package", "case", "footprint"], read: asText },
];

export interface PartsListKnown extends Catalogue {
  readonly model: Model & Kept;
  readonly modelId: string;
  readonly assembly: string;
  readonly addKinds: boolean;
}

/** Not fitted: common practice, no source. */
const NOT_FITTED = /^(dnp|dnf|dni|nf|n\/?a|not fitted|do not fit|do not populate)$/i;

interface Line {
  readonly value?: string;
  readonly type?: string;
  readonly ratedVolts?: number;
  readonly form?: string;
  readonly designators?: string;
  readonly count?: number;
}

export function readPartsList({ rows }: Table, mapping: Mapping, known: PartsListKnown): Report {
  const { rateBook, kinds, model } = known;
  const seen = new Set<string>();
  const reports: RowReport[] = [];
  const groups = new Map<string, { pieces: number; type?: string }>();
  const counts = new Map<string, number>();
  const added = new Map<string, Omit<PartKind, "id">>();
  for (const row of rows) {
    const line = readLine(row, mapping, rateBook, seen);
    const { group, pieces, cells, faults } = line;
    const { type } = line;
    if (group !== undefined && line.grouped) {
      const before = groups.get(group);
      groups.set(group, { pieces: (before?.pieces ?? 0) + pieces, ...(type && { type: type.id }) });
    }
    const is = faults.length > 0 ? "wrong" : line.leftOut ? "left out" : "counted";
    const kind = is === "counted" && type && cells.value !== undefined ? sameKind(kinds, type, cells) : undefined;
    const what = [cells.designators ?? "", cells.value ?? ""].filter(Boolean).join(", ");
    const towards = is === "counted" && type ? ` → ${pieces} × ${type.name}${kind ? ` (${kind.name})` : ""}` : "";
    reports.push({ row: row.number, is, name: `${what}${towards}`, faults });
    if (is !== "counted" || !type) continue;
    counts.set(type.id, (counts.get(type.id) ?? 0) + pieces);
    if (known.addKinds && cells.value !== undefined && !kind) {
      const made = newKind(type, cells);
      added.set(slug(made.name), made);
    }
  }
  const sound = reports.every(({ is }) => is !== "wrong");
  const changed = withCounts(model, known.assembly, counts);
  const faults = sound ? faultsIn({ map: changed.map }, rateBook, "/map") : [];
  if (faults.length > 0)
    reports.push({ row: 1, is: "wrong", name: "the counts together", faults: faults.map(({ detail }) => ({ why: detail })) });
  const whole = sound && faults.length === 0;
  return {
    rows: reports,
    changes: whole
      ? [
          { in: "models", id: known.modelId, value: withoutKept({ ...model, map: changed.map }), version: model.version },
          ...[...added].filter(([id]) => !kinds.has(id)).map(([id, value]) => ({ in: "partKinds" as const, id, value })),
        ]
      : [],
    groups: [...groups].map(([name, group]): Group => ({ name, ...group })),
    counts: [...counts].map(([type, after]) => ({
      ...{ type, after, before: changed.before[type] ?? 0 },
      name: rateBook.partTypes.find(({ id }) => id === type)?.name ?? type,
    })),
  };
}

interface LineRead {
  readonly cells: Line;
  readonly faults: readonly CellFault[];
  readonly pieces: number;
  readonly leftOut: boolean;
  readonly group?: string;
  /** Its type is that of its group, not one the row states. */
  readonly grouped: boolean;
  readonly type?: PartType | undefined;
}

function readLine(row: TableRow, mapping: Mapping, rateBook: RateBook, seen: Set<string>): LineRead {
  const read = readRow(row, PARTS_LIST_FIELDS, mapping);
  const cells = read.value as Line;
  const faults: CellFault[] = [...read.faults];
  const leftOut = NOT_FITTED.test(cells.value ?? "");
  const named = readDesignators(cells.designators ?? "", seen);
  if ("is" in named) faults.push(under(mapping, "designators", DESIGNATOR_FAULTS[named.is](named.text)));
  const counted = "is" in named ? 0 : named.count;
  if (cells.count !== undefined && counted > 0 && cells.count !== counted)
    faults.push(under(mapping, "count", `The quantity is ${cells.count}, and the designators name ${counted}`));
  const pieces = cells.count ?? counted;
  if (faults.length === 0 && !leftOut && pieces < 1)
    faults.push(under(mapping, "count", "Neither a quantity nor a designator says how many"));
  const prefix = "is" in named ? undefined : named.prefix;
  const group = prefix === undefined ? "without designator" : groupOf(prefix, cells.value ?? "");
  const stated = typeNamed(rateBook, cells.type);
  if (cells.type !== undefined && !stated)
    faults.push(under(mapping, "type", `'${cells.type}' is no part type of the rate book`));
  const chosen = rateBook.partTypes.find(({ id }) => id === mapping.types[group]);
  const type = stated ?? chosen ?? proposedType(group, rateBook.partTypes);
  const grouped = cells.type === undefined && !leftOut;
  if (!type && grouped && faults.length === 0) faults.push(under(mapping, "type", `Say which part type '${group}' is`));
  if (type && !leftOut && cells.value !== undefined && READABLE.has(type.family) && !readMarking(cells.value, type.family))
    faults.push(under(mapping, "value", `'${cells.value}' cannot be read as a value; write it as 4u7, 100n or 4k7`));
  return { cells, faults, pieces, leftOut, group, grouped, type };
}

const DESIGNATOR_FAULTS = {
  unreadable: (text: string) => `'${text.slice(0, 40)}' is no designator; write C1 or C1-C4`,
  "range backwards": (text: string) => `'${text}' runs backwards`,
  twice: (text: string) => `${text} stands in the list twice`,
  "letters differ": (text: string) => `'${text}' has other letters than what stands before it; give it a row of its own`,
} as const;

/** The kind of that type and value, rated at least as high. */
function sameKind(kinds: Catalogue["kinds"], type: PartType, { value = "", ratedVolts = 0 }: Line) {
  const wanted = readMarking(value, type.family)?.value;
  return [...kinds.values()].find(
    (kind) =>
      kind.type === type.id &&
      (kind.ratedVolts ?? Number.POSITIVE_INFINITY) >= ratedVolts &&
      (wanted === undefined ? kind.value === value : readMarking(kind.value ?? "", type.family)?.value === wanted),
  );
}

function newKind(type: PartType, { value, ratedVolts, form }: Line): Omit<PartKind, "id"> {
  const name = [type.name, value, ratedVolts === undefined ? undefined : `${ratedVolts} V`, form].filter(Boolean).join(" ");
  return {
    type: type.id,
    name,
    ...(value !== undefined && { value }),
    ...(ratedVolts !== undefined && { ratedVolts }),
    ...(form !== undefined && { form }),
  };
}

function withCounts(model: Model, assembly: string, counts: ReadonlyMap<string, number>) {
  const before = model.map.assemblies.find(({ id }) => id === assembly)?.counts ?? {};
  const assemblies = model.map.assemblies.map((each) =>
    each.id === assembly ? { ...each, counts: { ...each.counts, ...Object.fromEntries(counts) } } : each,
  );
  return { before, map: { ...model.map, assemblies } };
}
