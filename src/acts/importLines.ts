/** The lines of an open draft from CSV: a row with the id of a line says it anew, another adds one; the others stay. */
import { z } from "zod";
import { check } from "../estimating/check/check.js";
import type { EstimateInput, WorkItem } from "../estimating/input.js";
import { estimates, priced } from "../records/estimates.js";
import type { Mapping } from "../records/mappings.js";
import { type ShopRows, shopRows } from "../records/shopRows.js";
import { problemText } from "../wording/problem.js";
import { act, refused } from "./act.js";
import { itemSaid, rowOf, withKind } from "./asItem.js";
import { fileFields, type ReadFile, readIn, report } from "./importTable.js";
import { faultOf, type LineRow, lineTable, namesIn, rowWrong } from "./line.js";
import { fieldErrors } from "./readForm.js";
import { heldBack } from "./record.js";
import { type CellFault, type Columns, type RowReport, readRows, type Table, under } from "./tableRows.js";
import { today } from "./today.js";

const { id: _, ...lineShape } = lineTable.shape;
/** A line without its id. */
const line = { fields: z.strictObject(lineShape) };

export const LINES = {
  fields: lineTable,
  headings: {
    work: ["operation", "service"],
    own: ["own work"],
    where: ["assembly", "place", "board"],
    count: ["quantity", "pieces"],
    part: ["part kind", "part type"],
    partState: ["state"],
    partSource: ["source"],
    partDays: ["days", "lead days"],
    partMinimum: ["minimum packs", "minimum"],
    partPack: ["pack size", "pack"],
    partGood: ["share good"],
    certainty: ["certain"],
    chance: ["probability"],
  },
  usual: { count: 1, certainty: "planned" },
} as const satisfies Columns;

export const lineRows = (input: EstimateInput): readonly LineRow[] => {
  const names = namesIn(input, []);
  return input.items.map((item) => rowOf(item, names, input));
};

type Shop = Pick<ShopRows, "kinds" | "offers" | "exchange">;

/** What the rows would make of an estimate's lines; `changes` is 0 where a row is wrong. */
export function linesRead(
  table: Table,
  mapping: Mapping,
  input: EstimateInput,
  shop: Shop,
): { readonly rows: readonly RowReport[]; readonly changes: number; readonly input: EstimateInput } {
  const names = namesIn(input, shop.kinds);
  const kept = new Map(lineRows(input).map((row) => [row.id!, { ...row, id: row.id! }]));
  const taken = new Set(kept.keys());
  const newId = (): string => {
    let next = taken.size + 1;
    while (taken.has(`line${next}`)) next += 1;
    taken.add(`line${next}`);
    return `line${next}`;
  };
  const itemOf = (row: LineRow, id: string) => itemSaid(row, id, names, input, shop.kinds);
  const facts = (row: object) =>
    JSON.stringify(
      Object.entries(row)
        .filter(([key]) => key !== "id" && key !== "currency")
        .sort(),
    );
  const standing = new Map([...kept.values()].map((row) => [facts(row), row]));
  const said = readRows(table, mapping, {
    ...{ ...LINES, noun: line, currency: input.currency, kept, withdrawn: new Set<string>(), newId, whole: true },
    idOf: () => undefined,
    like: (row) => {
      // What a row leaves unsaid, such as best and worst minutes, an item says.
      const item = rowWrong(row as LineRow, names, input.currency).length > 0 ? undefined : itemOf(row as LineRow, "new");
      return item && "id" in item ? standing.get(facts(rowOf(item, names, input))) : undefined;
    },
    settled: (row) => ({ currency: input.currency, ...row }),
    check: (row) => {
      const wrong = rowWrong(row as LineRow, names, input.currency);
      const item = itemOf(row as LineRow, "new");
      return "id" in item ? wrong : [...wrong, item];
    },
    nameOf: ({ work, own, ownPart, part }) => String(work ?? own ?? ownPart ?? part ?? ""),
  });
  if (said.changes.length === 0) return { rows: said.rows, changes: 0, input };
  const items = new Map(input.items.map((item) => [item.id, item]));
  for (const { id, value } of said.changes) items.set(id, itemOf(value as LineRow, id) as WorkItem);
  const whole = [...items.values()].reduce<EstimateInput>((so, item) => withKind(so, shop, item), {
    ...input,
    items: [...items.values()],
  });
  const rows = judged(said, mapping, whole);
  return rows.some(({ is }) => is === "wrong")
    ? { rows, changes: 0, input }
    : { rows, changes: said.changes.length, input: whole };
}

/** With the engine's word on the lines that change, at their columns; what else the estimate lacks is no matter of the file. */
function judged({ rows, changes }: ReturnType<typeof readRows>, mapping: Mapping, input: EstimateInput): readonly RowReport[] {
  const problems = check(input);
  // Changes stand in the order of their rows.
  const written = rows.flatMap(({ is }, at) => (is === "new" || is === "changed" ? [at] : []));
  const faults = new Map<number, readonly CellFault[]>(
    changes.flatMap(({ id }, at) => {
      const place = input.items.findIndex((item) => item.id === id);
      // A table has a chance as a program has it.
      const own = problems
        .map((problem) =>
          faultOf(
            problem,
            place,
            problem.name === "probability out of range" ? undefined : { locale: "en", currency: input.currency },
          ),
        )
        .filter(({ pointer }) => pointer !== "");
      const told = [...fieldErrors(own, lineTable)].map(([name, why]) => under(mapping, name, why));
      return told.length > 0 ? [[written[at]!, told] as const] : [];
    }),
  );
  // Of all lines together, such as too many of them.
  const [crowd] = problems.filter(({ pointer }) => pointer === "/items");
  if (crowd) faults.set(written.at(-1)!, [{ why: problemText(crowd) }]);
  return rows.map((row, at) => (faults.has(at) ? { ...row, is: "wrong", faults: faults.get(at)! } : row));
}

export const importLines = act({
  name: "importLines",
  title: "Read the lines of a draft from CSV; write them all or nothing",
  fields: z
    .strictObject(fileFields)
    .meta({ id: "LinesToImport", description: "A file of lines of work, one a row, and which column is which field" }),
  answer: report,
  decide: async (desk, value, { estimate, read }: { readonly estimate: string; readonly read: ReadFile }) => {
    const [job, shop] = await Promise.all([desk.job({ estimate }), shopRows(desk.db, (timeZone) => today(desk.now, timeZone))]);
    const stands = job?.revision(estimate);
    const held = heldBack("estimate", stands, "any");
    if (held || !job || !stands) return { refused: held! };
    if (stands.issuedAt) return refused("estimate issued", { current: stands });
    const before = { ...stands.input, rateBook: job.inputOf(stands).rateBook };
    return readIn(desk, value, { what: "lines", columns: LINES, read }, async (table, mapping) => {
      const { rows, changes, input } = linesRead(table, mapping, before, shop);
      if (changes === 0) return { rows, writes: [] };
      const { rateBook: _, ...kept } = input;
      const { problems: __, ...made } = await priced(input);
      return { rows, changes, writes: [estimates.changed(desk.db, stands, { input: kept, ...made }, desk.at).write] };
    });
  },
});
