/** The tables that can be taken in: what their columns are called, and how their rows become part kinds, offers and exchange rates. */
import { z } from "zod";
import type { ExchangeRate, RateBook } from "../estimating/input.js";
import type { Kept } from "../records/columns.js";
import type { ExchangeRateValue } from "../records/exchangeRates.js";
import type { Mapping } from "../records/mappings.js";
import type { OfferValue } from "../records/offers.js";
import { asPartKind, type PartKindValue } from "../records/partKinds.js";
import { exchangeRate, exchangeRateFields, rateFaults } from "./exchangeRate.js";
import { offer, offerFaults, offerFields } from "./offer.js";
import { partKind, partKindFaults, partKindFields, withType } from "./partKind.js";
import { PARTS_LIST } from "./partsList.js";
import { newId } from "./record.js";
import { type Columns, type RowsRead, readRows, slug, type Table } from "./tableRows.js";

export const IMPORTS = ["part-kinds", "offers", "exchange-rates", "parts-list"] as const;
export type ImportName = (typeof IMPORTS)[number];

const withId = (fields: z.ZodObject) => z.strictObject({ ...newId, ...fields.shape });

/** What the columns of each are called, beside their labels. */
export const COLUMNS = {
  "part-kinds": {
    fields: withId(partKindFields),
    headings: {
      id: ["part number", "code", "sku"],
      type: ["kind of part", "category"],
      name: ["description", "part", "title"],
      value: ["marking"],
      ratedVolts: ["rated volts", "voltage", "volts", "v"],
      tolerancePercent: ["tolerance", "tolerance percent"],
      form: ["package", "case"],
      leads: ["pins"],
      stock: ["quantity in stock"],
      notes: ["note", "remarks"],
    },
  },
  offers: {
    fields: withId(offerFields.omit({ seenGood: true })),
    headings: {
      id: ["offer"],
      kind: ["part number", "code", "sku"],
      source: ["supplier", "seller", "shop"],
      on: ["date", "offered on", "day"],
      price: ["price", "pack price", "unit price", "cost"],
      packSize: ["pack size", "pack"],
      minimumPacks: ["minimum packs", "minimum", "moq"],
      available: ["quantity available", "stock"],
      leadDays: ["lead days", "lead time"],
      state: ["condition"],
      shareGood: ["share good"],
      freight: ["shipping", "postage", "carriage"],
      dutyPercent: ["duty percent", "customs"],
      importTaxPercent: ["import tax percent", "import vat"],
      parcelFee: ["parcel fee", "handling fee"],
      pullMinutes: ["pull minutes"],
    },
    usual: { on: "", currency: "", packSize: 1, leadDays: 0, state: "new" },
  },
  "exchange-rates": {
    fields: withId(exchangeRateFields),
    headings: {
      currency: ["code", "currency code"],
      rate: ["exchange rate", "value"],
      on: ["date", "day"],
      source: ["from"],
    },
    usual: { on: "", source: "CSV file" },
  },
  "parts-list": PARTS_LIST,
} as const satisfies Record<ImportName, Columns>;

export const byId = <Row extends Kept>(rows: readonly Row[]): ReadonlyMap<string, Row> =>
  new Map(rows.map((row) => [row.id, row] as const));

export function kindRows(
  table: Pick<Table, "rows">,
  mapping: Mapping,
  rateBook: RateBook,
  kept: ReadonlyMap<string, PartKindValue & Kept>,
  withdrawn: ReadonlySet<string>,
  fresh: () => string,
): RowsRead {
  return readRows(table, mapping, {
    ...{ ...COLUMNS["part-kinds"], noun: partKind, currency: rateBook.currency, kept, withdrawn, newId: fresh },
    idOf: ({ name }) => slug(typeof name === "string" ? name : ""),
    settled: (value) => withType(value as PartKindValue, rateBook),
    check: (value) => partKindFaults(value as PartKindValue, rateBook),
    nameOf: ({ name }) => String(name ?? ""),
  });
}

interface Known<Row> {
  readonly rateBook: RateBook;
  readonly kept: readonly Row[];
  readonly withdrawn: ReadonlySet<string>;
  /** Of rows that give none. */
  readonly day: string;
  readonly fresh: () => string;
}

export function rateRows(
  table: Table,
  mapping: Mapping,
  { rateBook, kept, withdrawn, day, fresh }: Known<ExchangeRateValue & Kept>,
): RowsRead {
  const columns = COLUMNS["exchange-rates"];
  const facts = ({ currency, rate, on, source }: ExchangeRate) => JSON.stringify([currency, rate, on, source]);
  const standing = new Map(kept.map((each) => [facts(each), each]));
  return readRows(table, mapping, {
    ...{ ...columns, noun: exchangeRate, currency: rateBook.currency, kept: byId(kept), withdrawn, newId: fresh },
    usual: { ...columns.usual, on: day },
    idOf: () => undefined,
    like: (value) => standing.get(facts(value as ExchangeRate)),
    settled: (value) => value,
    beside: { into: rateBook.currency },
    check: (value) => rateFaults(value as ExchangeRate, rateBook, day),
    nameOf: ({ currency, on }) => [currency, on].filter(Boolean).join(", "),
  });
}

interface OffersKnown extends Known<OfferValue & Kept> {
  readonly kinds: ReadonlyMap<string, PartKindValue & Kept>;
  readonly rates: readonly ExchangeRate[];
}

export function offerRows(
  table: Table,
  mapping: Mapping,
  { rateBook, kinds, kept, rates, withdrawn, day, fresh }: OffersKnown,
): RowsRead {
  const columns = COLUMNS.offers;
  const names = new Map([...kinds.values()].map((kind) => [kind.name.toLowerCase(), kind.id]));
  const kindOf = (named: string) => kinds.get(named.trim()) ?? kinds.get(names.get(named.trim().toLowerCase()) ?? "");
  const facts = (value: object) =>
    JSON.stringify(
      Object.keys(columns.fields.shape).map((key) => (key === "id" ? null : ((value as Record<string, unknown>)[key] ?? null))),
    );
  const standing = new Map(kept.map((each) => [facts(each), each]));
  return readRows(table, mapping, {
    ...{ ...columns, noun: offer, currency: rateBook.currency, kept: byId(kept), withdrawn, newId: fresh },
    usual: { ...columns.usual, on: day, currency: rateBook.currency },
    idOf: () => undefined,
    like: (value) => standing.get(facts(value)),
    settled: (value) => {
      const { kind = "" } = value as { kind?: string };
      return { ...value, ...(kind !== "" && { kind: kindOf(kind)?.id ?? kind }) };
    },
    check: (value) => {
      const { kind } = value as OfferValue;
      const known = kinds.get(kind);
      const why = `Part kind: '${kind.slice(0, 60)}' is no part kind on record; import that one first.`;
      return known
        ? offerFaults(value as OfferValue, asPartKind(known), rateBook, rates)
        : [{ pointer: "/kind", name: "record unknown", detail: why }];
    },
    nameOf: ({ kind, source }) => `${kinds.get(String(kind))?.name ?? kind ?? ""}${source ? `, ${source}` : ""}`,
  });
}
