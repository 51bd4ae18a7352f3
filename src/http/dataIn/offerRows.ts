/**
 * Offers from rows, each of a part kind on record. A row with the id of an offer on record changes what its columns say; a row without
 * one that says what an offer on record says is that offer, so that a file that comes twice adds nothing.
 */

import { faultsIn } from "../../acts/checked.js";
import { shapeFaults } from "../../acts/fault.js";
import { offerFields } from "../../acts/offer.js";
import { offerState } from "../../acts/shapes/part.js";
import type { OfferState } from "../../estimating/input.js";
import type { Kept } from "../../records/columns.js";
import type { Mapping } from "../../records/mappings.js";
import type { OfferValue } from "../../records/offers.js";
import { asPartKind } from "../../records/partKinds.js";
import { asChoice, asDay, asNumber, asText, asWhole, asWord, type Field, minorOf } from "./fields.js";
import { type Catalogue, isSame, withoutKept } from "./kindRows.js";
import { readRow, under } from "./readRow.js";
import type { CellFault, Report, RowReport } from "./report.js";
import type { Table } from "./table.js";

export const OFFER_FIELDS: readonly Field[] = [
  { name: "id", label: "Id", headings: ["offer"], read: asWord },
  { name: "kind", label: "Part kind", headings: ["part kind", "part number", "code", "sku"], needed: true, read: asText },
  { name: "source", label: "Source", headings: ["supplier", "seller", "shop"], needed: true, read: asText },
  { name: "on", label: "Day of the offer", headings: ["date", "offered on", "day"], read: asDay },
  {
    name: "price",
    label: "Price of one pack",
    headings: ["price", "pack price", "unit price", "cost"],
    needed: true,
    read: asText,
  },
  { name: "currency", label: "Currency", headings: [], read: asWord },
  { name: "packSize", label: "Pieces in a pack", headings: ["pack size", "pack"], read: asWhole },
  { name: "minimumPacks", label: "Fewest packs", headings: ["minimum packs", "minimum", "moq"], read: asWhole },
  { name: "available", label: "Pieces to be had", headings: ["quantity available", "stock"], read: asWhole },
  { name: "leadDays", label: "Lead time, days", headings: ["lead days", "lead time"], read: asWhole },
  { name: "state", label: "State", headings: ["condition"], read: asChoice(offerState.options) },
  { name: "shareGood", label: "Share good, 0 to 1", headings: ["share good"], read: asNumber() },
  { name: "freight", label: "Freight", headings: ["shipping", "postage", "carriage"], read: asText },
  { name: "pullMinutes", label: "Minutes to pull one", headings: ["pull minutes"], read: asNumber(/\s*min$/i, 3) },
];

export interface OffersKnown extends Catalogue {
  readonly offers: ReadonlyMap<string, OfferValue & Kept>;
  /** For rows that give no day. */
  readonly today: string;
  readonly newId: () => string;
}

/** All that a row can say of an offer. */
const facts = (offer: object): string =>
  JSON.stringify(
    OFFER_FIELDS.filter(({ name }) => name !== "id").map(({ name }) => (offer as Record<string, unknown>)[name] ?? null),
  );

export function readOffers({ rows }: Table, mapping: Mapping, known: OffersKnown): Report {
  const { rateBook, kinds, offers, today, newId } = known;
  const names = new Map([...kinds.values()].map((kind) => [kind.name.toLowerCase(), kind] as const));
  const standing = new Map([...offers.values()].map((offer) => [facts(offer), offer] as const));
  const seen = new Map<string, number>();
  const reports: RowReport[] = [];
  const changes: Report["changes"][number][] = [];
  for (const row of rows) {
    const read = readRow(row, OFFER_FIELDS, mapping);
    const { id: stated, kind: named = "", price, freight, ...cells } = read.value as Readonly<Record<string, string | undefined>>;
    const faults: CellFault[] = [...read.faults];
    const kind = kinds.get(named.trim()) ?? names.get(named.trim().toLowerCase());
    if (named !== "" && !kind)
      faults.push(under(mapping, "kind", `'${named.slice(0, 60)}' is no part kind on record; import that one first`));
    const stood = stated === undefined ? undefined : offers.get(stated);
    const currency = cells.currency ?? stood?.currency ?? rateBook.currency;
    const amounts: { price?: number; freight?: number } = {};
    for (const [name, text] of [
      ["price", price],
      ["freight", freight],
    ] as const) {
      if (text === undefined) continue;
      const minor = minorOf(text, mapping.mark, currency);
      if ("why" in minor) faults.push(under(mapping, name, minor.why));
      else amounts[name] = minor.value as number;
    }
    const before = stated === undefined ? undefined : seen.get(stated);
    if (before !== undefined) faults.push(under(mapping, "id", `'${stated}' stands in row ${before} too`));
    if (stated !== undefined) seen.set(stated, row.number);
    const usual = { on: today, packSize: 1, leadDays: 0, state: "new" as OfferState };
    const value = { ...(stood ? withoutKept(stood) : usual), ...cells, ...amounts, currency, ...(kind && { kind: kind.id }) };
    const old = stood ?? (stated === undefined ? standing.get(facts(value)) : undefined);
    if (faults.length === 0 && kind) {
      const shape = offerFields.safeParse(value);
      const found = shape.success
        ? faultsIn({ kinds: [asPartKind(kind)], offers: [{ ...(shape.data as OfferValue), id: "new" }] }, rateBook, "/offers/0")
        : shapeFaults(shape.error.issues, value);
      faults.push(...found.map(({ pointer, detail }) => under(mapping, pointer.split("/")[1] ?? "", detail)));
    }
    const is =
      faults.length > 0 ? "wrong" : old === undefined ? "new" : stood && !isSame(withoutKept(old), value) ? "changed" : "same";
    reports.push({ row: row.number, is, name: `${kind?.name ?? named}${cells.source ? `, ${cells.source}` : ""}`, faults });
    if (is === "new" || is === "changed")
      changes.push({ in: "offers", id: stated ?? newId(), value, ...(old && { version: old.version }) });
  }
  return { rows: reports, changes: reports.some(({ is }) => is === "wrong") ? [] : changes };
}
