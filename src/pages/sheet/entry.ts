/** A rate book entry, found by its JSON pointer, as a person reads it. */
import type { Provenance, RateBook, ThreePoint } from "../../estimating/input.js";
import { money, percent } from "../../wording/figures.js";
import { BOOK_PAGES, BOOK_PARTS, type BookRow, PART_NAMES, rowId, rowsOf } from "../../wording/rateBookParts.js";
import { duration } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";

interface Entry {
  readonly text: string;
  readonly source?: Provenance;
  /** Where the rate book shows it, in the version it is of. */
  readonly href: string;
}

/** A sheet names the same few entries on line after line. */
const told = new WeakMap<RateBook, Map<string, Entry>>();

export function entryAt(book: RateBook, pointer: string, tongue: Tongue): Entry {
  const ofBook = told.get(book) ?? new Map<string, Entry>();
  told.set(book, ofBook);
  const key = `${tongue.locale} ${tongue.currency} ${pointer}`;
  const entry = ofBook.get(key) ?? { ...said(book, pointer, tongue), href: addressOf(book, pointer) };
  ofBook.set(key, entry);
  return entry;
}

function said(book: RateBook, pointer: string, tongue: Tongue): Omit<Entry, "href"> {
  const value = valueAt(book, pointer);
  const head = pointer.split("/")[1] ?? "";
  const [, list, at, field] = pointer.split("/");
  if (list === "partTypes" && field === "typicalCost") {
    const { name, typicalCost, source } = book.partTypes[Number(at)]!;
    return { text: `Part type '${name}', usual cost: ${money(typicalCost, tongue)}`, source };
  }
  const text = isRecord(value) ? describe(head, value, tongue) : plain(pointer, value, tongue);
  const source = isRecord(value) && isRecord(value.source) ? (value.source as unknown as Provenance) : undefined;
  return { text: text || "an entry that is there no more", ...(source && { source }) };
}

function addressOf(book: RateBook, pointer: string): string {
  const [, head, at] = pointer.split("/");
  const row = (book as unknown as Readonly<Record<string, readonly BookRow[]>>)[head!]?.[Number(at)];
  const part = row && PART_NAMES.find((name) => rowsOf(book, BOOK_PARTS[name]).some((each) => each.row === row));
  const own = head !== undefined && Object.hasOwn(BOOK_PAGES, head) ? `/${head}` : "";
  const place = part ? `/${part}/${encodeURIComponent(rowId(row!))}` : own;
  return `/rate-book${place}?version=${book.version}${part ? "" : `#${pointer.slice(1).replaceAll("/", ".")}`}`;
}

function describe(head: string, value: Record<string, unknown>, tongue: Tongue): string {
  const name = String(value.name ?? value.kind ?? "");
  const time = (label: string, at: unknown) => (isTime(at) ? `${label} ${duration(at.likely, tongue.locale)}` : "");
  switch (head) {
    case "labourClasses":
      return `${name}, ${money(Number(value.ratePerHour), tongue)} an hour`;
    case "grades":
      return `Condition ${name}: times at ${percent(Number(value.labourPercent), tongue.locale)}`;
    case "fasteners":
      return `${name}: ${time("off", value.remove)}, ${time("on", value.refit)}`;
    case "accessStandards":
      return `Standard for a ${value.size} board ${value.mounting}: ${time("off", value.remove)}, ${time("on", value.refit)}`;
    case "operations":
      return `${name}: ${time("set-up", value.setup)}, ${time("each", value.unit)}`;
    case "partTypes":
      return `${name}: usual cost ${money(Number(value.typicalCost), tongue)}${value.leads ? `, ${value.leads} leads` : ""}`;
    case "leads":
      return "Time for each soldered lead";
    case "categories":
    case "tax":
      return name ? `Tax category ${name}` : "Tax rules";
    case "parts":
      return "percent" in value
        ? `Mark-up ${percent(Number(value.percent), tongue.locale)}${value.upTo === undefined ? "" : ` up to ${money(Number(value.upTo), tongue)}`}`
        : "percentOfParts" in value
          ? `Sundries ${percent(Number(value.percentOfParts), tongue.locale)} of parts and ${percent(Number(value.percentOfLabour), tongue.locale)} of labour`
          : "Parts rules";
    default:
      return name || head;
  }
}

const PLAIN: Readonly<Record<string, string>> = {
  "/billing/incrementMinutes": "Billing step",
  "/billing/minimumCharge": "Minimum charge",
  "/fees/diagnosis/amount": "Diagnosis fee",
  "/fees/diagnosis/creditedOnAgreement": "Diagnosis fee is credited on agreement",
  "/fees/rushPercent": "Rush charge",
  "/fees/storagePerDay": "Storage by the day",
  "/ceiling/abovePercent": "Ceiling above the total",
  "/deposit/scarcePartsPercent": "Deposit on scarce parts",
  "/deposit/labourPercent": "Deposit on labour",
  "/scarcity/serviceLevel": "Share of cases that the pieces bought are to cover",
  "/parts/sundries/cap": "Cap on sundries",
};

function plain(pointer: string, value: unknown, tongue: Tongue): string {
  const name = PLAIN[pointer] ?? "a rule";
  if (pointer.startsWith("/scarcity/marginPercent/")) {
    return `Scarcity margin, ${pointer.slice("/scarcity/marginPercent/".length)}: ${percent(Number(value), tongue.locale)}`;
  }
  if (typeof value !== "number") return name;
  if (/percent/i.test(pointer)) return `${name}: ${percent(value, tongue.locale)}`;
  if (/minutes/i.test(pointer)) return `${name}: ${duration(value, tongue.locale)}`;
  if (/charge|amount|perday|cap/i.test(pointer)) return `${name}: ${money(value, tongue)}`;
  return `${name}: ${value}`;
}

function valueAt(book: RateBook, pointer: string): unknown {
  let at: unknown = book;
  for (const part of pointer.split("/").slice(1)) {
    if (typeof at !== "object" || at === null) return undefined;
    at = (at as Record<string, unknown>)[part.replaceAll("~1", "/").replaceAll("~0", "~")];
  }
  return at;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const isTime = (value: unknown): value is ThreePoint => isRecord(value) && typeof value.likely === "number";
