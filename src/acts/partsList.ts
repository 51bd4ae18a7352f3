/**
 * A parts list (bill of materials) becomes the counts of one assembly: each line counts towards a part type of the rate book. The
 * counts of types the list names are replaced, others stay. Kinds the catalogue lacks are added when wanted.
 */
import { z } from "zod";
import type { PartType, RateBook } from "../estimating/input.js";
import { groupOf, proposedType, readDesignators } from "../estimating/parts/designators.js";
import { readMarking } from "../estimating/parts/marking.js";
import { LIMITS } from "../estimating/problems.js";
import type { Kept } from "../records/columns.js";
import type { Mapping } from "../records/mappings.js";
import type { Model } from "../records/models.js";
import type { PartKindValue } from "../records/partKinds.js";
import { faultsIn } from "./checked.js";
import { line, maybe, whole } from "./field.js";
import { markingFault, partKindFields, typeNamed } from "./partKind.js";
import { type CellFault, type Columns, type RowReport, readRow, slug, type Table, type TableRow, under } from "./tableRows.js";

const { value, type, ratedVolts, form } = partKindFields.shape;
export const PARTS_LIST: Columns = {
  fields: z.strictObject({
    designators: maybe(line("Designators", { most: 10_000 })),
    count: maybe(whole("Quantity", { least: 0, most: LIMITS.count })),
    ...{ value, type: maybe(type), ratedVolts, form },
  }),
  headings: {
    designators: [
      ...["reference", "references", "ref", "refs", "reference designator", "reference designators", "refdes", "designator"],
    ],
    count: ["qty", "number", "pieces"],
    value: ["marking", "val"],
    type: ["kind of part", "category"],
    ratedVolts: ["voltage", "volts"],
    form: ["package", "case", "footprint"],
  },
};

export interface PartsListKnown {
  readonly rateBook: RateBook;
  readonly kinds: ReadonlyMap<string, PartKindValue & Kept>;
  readonly model: Model & Kept;
  readonly assembly: string;
  readonly addKinds: boolean;
}

export interface PartsListRead {
  readonly rows: readonly RowReport[];
  /** What becomes of the model and the catalogue; nothing where a row is wrong. */
  readonly changes?: {
    readonly map: Model["map"];
    readonly kinds: readonly { readonly id: string; readonly value: PartKindValue }[];
  };
  /** Lines that are one part type, by its id where one is chosen or proposed. */
  readonly groups: readonly { readonly name: string; readonly pieces: number; readonly type?: string }[];
  /** What the counts of the assembly become. */
  readonly counts: readonly { readonly type: string; readonly name: string; readonly before: number; readonly after: number }[];
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

export function readPartsList({ rows }: Pick<Table, "rows">, mapping: Mapping, known: PartsListKnown): PartsListRead {
  const { rateBook, kinds, model } = known;
  const seen = new Set<string>();
  const reports: RowReport[] = [];
  const groups = new Map<string, { pieces: number; type?: string }>();
  const counts = new Map<string, number>();
  const added = new Map<string, PartKindValue>();
  for (const row of rows) {
    const { cells, faults, pieces, leftOut, group, grouped, type: own } = readLine(row, mapping, rateBook, seen);
    if (grouped) groups.set(group, { pieces: (groups.get(group)?.pieces ?? 0) + pieces, ...(own && { type: own.id }) });
    const is = faults.length > 0 ? "wrong" : leftOut ? "left out" : "counted";
    const kind = is === "counted" && own && cells.value !== undefined ? sameKind(kinds, own, cells) : undefined;
    const what = [cells.designators ?? "", cells.value ?? ""].filter(Boolean).join(", ");
    const towards = is === "counted" && own ? ` → ${pieces} × ${own.name}${kind ? ` (${kind.name})` : ""}` : "";
    reports.push({ row: row.number, is, name: `${what}${towards}`, faults });
    if (is !== "counted" || !own) continue;
    counts.set(own.id, (counts.get(own.id) ?? 0) + pieces);
    if (known.addKinds && cells.value !== undefined && !kind) {
      const made = newKind(own, cells);
      added.set(slug(made.name), made);
    }
  }
  const sound = reports.every(({ is }) => is !== "wrong");
  const changed = withCounts(model, known.assembly, counts);
  const faults = sound ? faultsIn({ map: changed.map }, rateBook, "/map") : [];
  if (faults.length > 0)
    reports.push({ row: 1, is: "wrong", name: "the counts together", faults: faults.map(({ detail }) => ({ why: detail })) });
  return {
    rows: reports,
    ...(sound &&
      faults.length === 0 && {
        changes: { map: changed.map, kinds: [...added].flatMap(([id, value]) => (kinds.has(id) ? [] : [{ id, value }])) },
      }),
    groups: [...groups].map(([name, group]) => ({ name, ...group })),
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
  readonly group: string;
  /** Its type is that of its group, not one the row states. */
  readonly grouped: boolean;
  readonly type?: PartType | undefined;
}

function readLine(row: TableRow, mapping: Mapping, rateBook: RateBook, seen: Set<string>): LineRead {
  const read = readRow(row, PARTS_LIST.fields, mapping, rateBook.currency);
  const cells = trimmed(read.cells) as Line;
  const faults: CellFault[] = [...read.faults];
  const wrong = (name: string, why: string) => faults.push(under(mapping, name, why));
  const leftOut = NOT_FITTED.test(cells.value ?? "");
  const named = readDesignators(cells.designators ?? "", seen);
  if ("is" in named) wrong("designators", DESIGNATOR_FAULTS[named.is](named.text));
  const counted = "is" in named ? 0 : named.count;
  if (cells.count !== undefined && counted > 0 && cells.count !== counted)
    wrong("count", `The quantity is ${cells.count}, and the designators name ${counted}.`);
  const pieces = cells.count ?? counted;
  if (faults.length === 0 && !leftOut && pieces < 1) wrong("count", "Neither a quantity nor a designator says how many.");
  const prefix = "is" in named ? undefined : named.prefix;
  const group = prefix === undefined ? "without designator" : groupOf(prefix, cells.value ?? "");
  const stated = typeNamed(rateBook, cells.type);
  if (cells.type !== undefined && !stated) wrong("type", `'${cells.type}' is no part type of the rate book.`);
  const chosen = rateBook.partTypes.find(({ id }) => id === mapping.types[group]);
  const type = stated ?? chosen ?? proposedType(group, rateBook.partTypes);
  const grouped = cells.type === undefined && !leftOut;
  if (!type && grouped && faults.length === 0) wrong("type", `Say which part type '${group}' is.`);
  const unreadable = leftOut ? undefined : markingFault(cells.value, type?.family);
  if (unreadable) wrong("value", unreadable.detail);
  return { cells, faults, pieces, leftOut, group, grouped, type };
}

const trimmed = (cells: Readonly<Record<string, unknown>>) =>
  Object.fromEntries(Object.entries(cells).map(([name, cell]) => [name, typeof cell === "string" ? cell.trim() : cell]));

const DESIGNATOR_FAULTS = {
  unreadable: (text: string) => `'${text.slice(0, 40)}' is no designator; write C1 or C1-C4.`,
  "range backwards": (text: string) => `'${text}' runs backwards.`,
  twice: (text: string) => `${text} stands in the list twice.`,
  "letters differ": (text: string) => `'${text}' has other letters than what stands before it; give it a row of its own.`,
} as const;

/** The kind of that type and value, rated at least as high. */
function sameKind(kinds: PartsListKnown["kinds"], type: PartType, { value = "", ratedVolts = 0 }: Line) {
  const wanted = readMarking(value, type.family)?.value;
  return [...kinds.values()].find(
    (kind) =>
      kind.type === type.id &&
      (kind.ratedVolts ?? Number.POSITIVE_INFINITY) >= ratedVolts &&
      (wanted === undefined ? kind.value === value : readMarking(kind.value ?? "", type.family)?.value === wanted),
  );
}

function newKind(type: PartType, { value, ratedVolts, form }: Line): PartKindValue {
  const name = [type.name, value, ratedVolts === undefined ? undefined : `${ratedVolts} V`, form].filter(Boolean).join(" ");
  return {
    ...{ type: type.id, name },
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
