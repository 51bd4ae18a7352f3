/** A file to a report, and a report to the records. The same for the page and for the API. */
import { uuidv7 } from "uuidv7";
import { shopRateBook } from "../../acts/checked.js";
import { today } from "../../acts/today.js";
import type { Database } from "../../records/database.js";
import { writeAll } from "../../records/importing.js";
import { type Mapping, mappingFor, remembered } from "../../records/mappings.js";
import { models } from "../../records/models.js";
import { offers } from "../../records/offers.js";
import { partKinds } from "../../records/partKinds.js";
import { shopSettings } from "../../records/settings.js";
import { decimalMark } from "../../wording/decimal.js";
import { every } from "../site/shop.js";
import type { Decoded } from "./decode.js";
import type { Field } from "./fields.js";
import { KIND_FIELDS, readKinds } from "./kindRows.js";
import { mapFields } from "./mapFields.js";
import { OFFER_FIELDS, readOffers } from "./offerRows.js";
import { PARTS_LIST_FIELDS, readPartsList } from "./partsListRows.js";
import type { Report } from "./report.js";
import { readTable, type Table } from "./table.js";

export const IMPORTS = ["part-kinds", "offers", "parts-list"] as const;
export type ImportName = (typeof IMPORTS)[number];

export const FIELDS: Readonly<Record<ImportName, readonly Field[]>> = {
  "part-kinds": KIND_FIELDS,
  offers: OFFER_FIELDS,
  "parts-list": PARTS_LIST_FIELDS,
};

export interface Wanted {
  readonly what: ImportName;
  readonly file: Extract<Decoded, { readonly ok: true }>;
  readonly chosen: Partial<Mapping>;
  /** Of a parts list. */
  readonly model?: string | undefined;
  readonly assembly?: string | undefined;
  readonly addKinds?: boolean;
}

export type ImportRead =
  | {
      readonly is: "read";
      readonly encoding: string;
      readonly table: Table;
      readonly mapping: Mapping;
      readonly remembered: boolean;
      readonly report: Report;
    }
  | { readonly is: "unreadable"; readonly faults: readonly { readonly row: number; readonly why: string }[] }
  /** No such model, or no such assembly in it. */
  | { readonly is: "nowhere"; readonly why: string; readonly field: "model" | "assembly" };

export async function readImport(db: Database, wanted: Wanted, now: Date): Promise<ImportRead> {
  const { what, file, chosen } = wanted;
  const table = readTable(file.text);
  if (!table.ok) return { is: "unreadable", faults: table.faults };
  const settings = await shopSettings(db);
  const known = await mappingFor(db, what, table.headings);
  const localeMark = decimalMark(settings.locale) === "," ? "," : ".";
  const mapping = mapFields(FIELDS[what], table, known, chosen, localeMark);
  const kinds = new Map((await every((page) => partKinds.list(db, page))).map((kind) => [kind.id, kind] as const));
  const catalogue = { rateBook: await shopRateBook(db), kinds };
  const answer = (report: Report): ImportRead => ({
    ...{ is: "read", encoding: file.encoding, table, mapping, report },
    remembered: known !== undefined,
  });
  if (what === "part-kinds") return answer(readKinds(table, mapping, catalogue));
  if (what === "offers") {
    const there = new Map((await every((page) => offers.list(db, page))).map((offer) => [offer.id, offer] as const));
    return answer(
      readOffers(table, mapping, { ...catalogue, offers: there, today: today(now, settings.timeZone), newId: uuidv7 }),
    );
  }
  const model = wanted.model === undefined ? undefined : await models.find(db, wanted.model);
  if (!model) return { is: "nowhere", field: "model", why: "Choose the model that the list is of." };
  const assembly = model.map.assemblies.find(({ id }) => id === wanted.assembly);
  if (!assembly) return { is: "nowhere", field: "assembly", why: `Choose an assembly of ${model.maker} ${model.model}.` };
  return answer(
    readPartsList(table, mapping, {
      ...{ ...catalogue, model, modelId: model.id, assembly: assembly.id },
      addKinds: wanted.addKinds ?? false,
    }),
  );
}

/** Also remembers which column is which field. */
export async function carryOut(
  db: Database,
  what: ImportName,
  { table, mapping, report }: Extract<ImportRead, { readonly is: "read" }>,
  now: Date,
): Promise<"written" | "moved"> {
  const at = now.toISOString();
  const remember = await remembered(db, what, table.headings, mapping, at);
  return writeAll(db, report.changes, [remember()], at);
}
