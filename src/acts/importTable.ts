/** CSV into the records: part kinds, offers, exchange rates, or a parts list for the counts of an assembly; a dry run, or all of it or nothing. */
import { z } from "zod";
import type { Kept } from "../records/columns.js";
import type { Database } from "../records/database.js";
import { exchangeRates, newestRates } from "../records/exchangeRates.js";
import { type Mapping, mappingFor, remembered } from "../records/mappings.js";
import { models } from "../records/models.js";
import { every } from "../records/noun.js";
import { offers } from "../records/offers.js";
import { partKinds } from "../records/partKinds.js";
import { shopSettings } from "../records/settings.js";
import type { Write } from "../records/trail.js";
import { decimalMark } from "../wording/decimal.js";
import { act, type Decided, type Desk, type Refusal, refused, wrongField } from "./act.js";
import { shopRateBook } from "./checked.js";
import type { Fault } from "./fault.js";
import { maybe } from "./field.js";
import { byId, COLUMNS, type ImportName, kindRows, offerRows, rateRows } from "./importRows.js";
import { readPartsList } from "./partsList.js";
import { ident } from "./shapes/primitives.js";
import { type Change, type Columns, mapColumns, type RowReport, type RowsRead, type Table } from "./tableRows.js";
import { today } from "./today.js";

export const fileFields = {
  text: maybe(z.string()).meta({ description: "The file as text; or give `base64`" }),
  base64: maybe(z.base64()).meta({ description: "The bytes of the file; their encoding is found out and said" }),
  fields: maybe(z.record(z.string().max(100), z.string().max(500))).meta({
    description: "Field to heading; otherwise as remembered or by name",
  }),
  mark: maybe(z.enum([".", ","])).meta({ description: "Decimal sign" }),
  carryOut: maybe(z.boolean()).meta({ description: "Absent or false: a dry run" }),
};
type FileValue = z.output<z.ZodObject<typeof fileFields>>;

const fields = z
  .strictObject({
    ...fileFields,
    types: maybe(z.record(z.string().max(100), ident)).meta({ description: "Of a parts list: group to part type" }),
    model: maybe(ident).meta({ description: "Of a parts list" }),
    assembly: maybe(ident).meta({ description: "Of a parts list" }),
    addKinds: maybe(z.boolean()).meta({ description: "Of a parts list: kinds the catalogue lacks are added" }),
  })
  .meta({ id: "TableToImport", description: "A file of rows under headings, and which column is which field" });
type Value = z.output<typeof fields>;

export const report = z
  .strictObject({
    encoding: z.string(),
    delimiter: z.enum([",", ";", "\t"]),
    headings: z.array(z.string()),
    mapping: z
      .strictObject({
        fields: z.record(z.string(), z.string()),
        types: z.record(z.string(), z.string()),
        mark: z.enum([".", ","]),
      })
      .meta({ id: "ImportMapping" }),
    remembered: z.boolean().meta({ description: "These headings were mapped before" }),
    rows: z.array(
      z
        .strictObject({
          row: z.int(),
          is: z.enum(["new", "changed", "same", "counted", "left out", "wrong"]),
          name: z.string(),
          faults: z.array(z.strictObject({ column: maybe(z.string()), why: z.string() })),
        })
        .meta({ id: "ImportRow" }),
    ),
    groups: maybe(z.array(z.strictObject({ name: z.string(), pieces: z.int(), type: maybe(z.string()) }))).meta({
      description: "Of a parts list: lines that are one part type",
    }),
    counts: maybe(z.array(z.strictObject({ type: z.string(), name: z.string(), before: z.int(), after: z.int() }))).meta({
      description: "Of a parts list: what the counts of the assembly become",
    }),
    changes: z.int().meta({ description: "Records that carrying it out writes; 0 where a row is wrong" }),
    written: z.int().meta({ description: "Records written; 0 in a dry run" }),
  })
  .meta({ id: "ImportReport" });

export interface Report {
  readonly encoding: string;
  readonly delimiter: Table["delimiter"];
  readonly headings: readonly string[];
  readonly mapping: Mapping;
  readonly remembered: boolean;
  readonly rows: readonly RowReport[];
  readonly groups?: ReturnType<typeof readPartsList>["groups"];
  readonly counts?: ReturnType<typeof readPartsList>["counts"];
  readonly changes: number;
  readonly written: number;
}

/** A file as text, and as a table. */
export type FileRead =
  | { readonly ok: true; readonly encoding: string; readonly table: Table }
  | { readonly ok: false; readonly is: "encoding unreadable" | "row refused"; readonly why: readonly string[] };

export const isSound = ({ rows }: Pick<Report, "rows">): boolean => rows.every(({ is }) => is !== "wrong");

export const importTable = act({
  name: "importTable",
  title:
    "Read CSV of part kinds, of offers, of exchange rates, or a parts list for the counts of an assembly; write it all or nothing",
  fields,
  answer: report,
  decide: (desk, value, { what, read }: { readonly what: ImportName; readonly read: ReadFile }) =>
    readIn(desk, value, { what, columns: COLUMNS[what], read }, (table, mapping) => rowsOf(desk, what, table, mapping, value)),
});

export type ReadFile = (value: Pick<FileValue, "text" | "base64">) => FileRead;

type Rows = Pick<Report, "rows" | "groups" | "counts"> & {
  readonly writes: readonly Write[];
  /** Records that stand in one write. */
  readonly changes?: number;
};

/** A file read, its columns mapped, its rows told; written, all or nothing, where it is to be carried out. */
export async function readIn(
  desk: Desk,
  value: FileValue & { readonly types?: Mapping["types"] },
  { what, columns, read }: { readonly what: string; readonly columns: Columns; readonly read: ReadFile },
  rowsIn: (table: Table, mapping: Mapping) => Promise<Rows | { readonly refused: Refusal }>,
): Promise<Decided<Report>> {
  const at = value.base64 === undefined ? "/text" : "/base64";
  const refuse = (name: string, whys: readonly string[]) =>
    refused("input refused", { errors: whys.map((detail): Fault => ({ pointer: at, name, detail })) });
  const file = read(value);
  if (!file.ok) return refuse(file.is, file.why);
  const { table, encoding } = file;
  const known = await mappingFor(desk.db, what, table.headings);
  const shop = await shopSettings(desk.db);
  const mark = decimalMark(shop.locale) === "," ? "," : ".";
  const mapping = mapColumns(columns, table, known, value, mark);
  const done = await rowsIn(table, mapping);
  if ("refused" in done) return done;
  const { rows, writes, changes = writes.length, ...told } = done;
  const answer = {
    ...{ encoding, delimiter: table.delimiter, headings: table.headings, mapping, remembered: known !== undefined },
    ...{ rows, ...told, changes, written: 0 },
  };
  if (!value.carryOut) return { answer };
  if (!isSound(done)) return refuse("row refused", faultsTold(rows));
  const remember = await remembered(desk.db, what, table.headings, mapping, desk.at);
  return { answer: { ...answer, written: changes }, writes: [...writes, remember()] };
}

export const faultsTold = (rows: readonly RowReport[]): readonly string[] =>
  rows.flatMap(({ row, faults }) =>
    faults.map(({ column, why }) => `Row ${row}${column === undefined ? "" : `, ${column}`}: ${why}`),
  );

async function rowsOf(
  { db, at, now, newId: fresh }: Desk,
  what: ImportName,
  table: Table,
  mapping: Mapping,
  { model: modelId, assembly, addKinds = false }: Value,
): Promise<Rows | ReturnType<typeof wrongField>> {
  const rateBook = await shopRateBook(db);
  const kinds = byId(await every((page) => partKinds.list(db, page)));
  if (what === "part-kinds")
    return written(db, partKinds, kindRows(table, mapping, rateBook, kinds, await goneOf(db, partKinds), fresh), at);
  const day = today(now, (await shopSettings(db)).timeZone);
  if (what === "exchange-rates") {
    const kept = await every((page) => exchangeRates.list(db, page));
    return written(
      db,
      exchangeRates,
      rateRows(table, mapping, { rateBook, kept, withdrawn: await goneOf(db, exchangeRates), day, fresh }),
      at,
    );
  }
  if (what === "offers") {
    const kept = await every((page) => offers.list(db, page));
    const rates = await newestRates(db);
    const known = { rateBook, kinds, kept, rates, withdrawn: await goneOf(db, offers), day, fresh };
    return written(db, offers, offerRows(table, mapping, known), at);
  }
  const model = modelId === undefined ? undefined : await models.find(db, modelId);
  if (!model) return wrongField("/model", "record unknown", "Choose the model that the list is of.");
  if (!model.map.assemblies.some(({ id }) => id === assembly))
    return wrongField("/assembly", "record unknown", `Choose an assembly of ${model.maker} ${model.model}.`);
  const { changes, ...told } = readPartsList(table, mapping, { rateBook, kinds, model, assembly: assembly!, addKinds });
  const writes = changes && [
    models.changed(db, model, { map: changes.map }, at).write,
    ...changes.kinds.map(({ id, value }) => partKinds.made(db, id, value, at).write),
  ];
  return { ...told, writes: writes ?? [] };
}

type Tabled = typeof partKinds | typeof offers | typeof exchangeRates;
const goneOf = async (db: Database, noun: Tabled): Promise<ReadonlySet<string>> =>
  new Set((await every<Kept>((page) => noun.list(db, page, undefined, true))).map(({ id }) => id));

function written(db: Database, noun: Tabled, { rows, changes }: RowsRead, at: string): Rows {
  const write = ({ id, value, old }: Change): Write =>
    (old ? noun.changed(db, old as never, value, at) : noun.made(db, id, value as never, at)).write;
  return { rows, writes: changes.map(write) };
}
