/** The rate book's pages: which rows of which list stands on each, and the figures that are changed there in place. */
import type { RateBook } from "../estimating/input.js";

export type BookList = "labourClasses" | "operations" | "partTypes" | "fasteners" | "accessStandards" | "grades" | "services";
export type BookRow = NonNullable<RateBook[BookList]>[number];
type Row = BookRow;

export interface BookPart {
  readonly list: BookList;
  readonly title: string;
  readonly one: string;
  readonly lead: string;
  /** Heading -> fields of the row. */
  readonly figures: readonly (readonly [heading: string, fields: readonly string[]])[];
  /** What else an entry's own page asks. */
  readonly others: readonly string[];
  readonly has?: (row: Row) => boolean;
  /** Its rows are of kinds that are fixed. */
  readonly kinds?: true;
}

const times = (name: string) => ["low", "likely", "high"].map((point) => `${name}.${point}`);
const isCleaning = (row: Row) => "sort" in row && row.sort === "cleaning";
const WORK = {
  list: "operations",
  figures: [
    ["Set-up", times("setup")],
    ["Each", times("unit")],
  ],
  others: ["sort", "labourClass", "hazards"],
} as const;
const WAYS = [
  ["Take off", times("remove")],
  ["Put back", times("refit")],
] as const;

export const BOOK_PARTS = {
  "labour-classes": {
    ...{ list: "labourClasses", title: "Labour classes", one: "labour class", lead: "" },
    figures: [["An hour", ["ratePerHour"]]],
    others: ["attended"],
  },
  operations: {
    ...{ ...WORK, title: "Bench work", one: "bench work", has: (row) => !isCleaning(row) },
    lead: "Set-up counts once for each place worked on, each for every piece. A replacement's leads come on top.",
  },
  cleaning: {
    ...{ ...WORK, title: "Cleaning extras", one: "cleaning extra", has: isCleaning },
    lead: "Columns of the count grid. Set-up counts once for each place, each for every piece.",
  },
  services: {
    ...{ list: "services", title: "Services", one: "service", figures: [["Price", ["price"]]], others: ["note"] },
    lead: "Sold at their price, whatever the work behind them takes; that work is planned, ordered for and learned from.",
  },
  "part-types": {
    ...{ list: "partTypes", title: "Part types", one: "part type" },
    lead: "A soldered part takes its time from its leads; one that is plugged, clipped or screwed has minutes of its own.",
    figures: [
      ["Usual cost", ["typicalCost"]],
      ["Leads", ["leads"]],
      ["Or each, not soldered", times("minutes")],
    ],
    others: ["family", "replacedBy", "polarised", "dielectric", "hazards"],
  },
  fasteners: {
    ...{ list: "fasteners", title: "Fasteners", one: "fastener", figures: WAYS, others: [], kinds: true },
    lead: "What holds an assembly of a teardown map, each.",
  },
  boards: {
    ...{ list: "accessStandards", title: "Boards without a map", one: "access standard", figures: WAYS, others: [], kinds: true },
    lead: "For boards that are counted and not drawn: the whole way there and back.",
  },
  grades: {
    ...{ list: "grades", title: "Condition", one: "condition grade", others: [] },
    lead: "All attended minutes are taken at the share of the grade; the spread is how far its jobs differ from one another.",
    figures: [
      ["Times at", ["labourPercent"]],
      ["Spread", ["spreadPercent"]],
    ],
  },
} as const satisfies Readonly<Record<string, BookPart>>;

export type PartName = keyof typeof BOOK_PARTS;
export const PART_NAMES = Object.keys(BOOK_PARTS) as readonly PartName[];
/** Those without rows. */
export const BOOK_PAGES = { leads: "Soldered leads", scarcity: "Scarcity", files: "Files and versions" } as const;

/** What a choice of the book is called where it is made and where a change of it is told: how tax is rounded as it is printed under the tax. */
export const BOOK_CHOICES: Readonly<Record<string, readonly (readonly [value: string, name: string])[]>> = {
  "tax.included": [
    ["no", "no: tax comes on top"],
    ["yes", "yes: tax is in them"],
  ],
  "tax.rounding.level": [
    ["line", "for each line"],
    ["group", "once for each tax category"],
    ["document", "once for the whole document"],
  ],
  "tax.rounding.mode": [
    ["half up", "away from zero"],
    ["half down", "towards zero"],
    ["down", "nowhere: fractions are dropped"],
  ],
  "parts.packs": [
    ["used", "the pieces used are charged"],
    ["whole", "whole packs are charged"],
  ],
  risk: [
    ["each", "is paid by each of them"],
    ["shared", "is paid once"],
  ],
  safety: [
    ["as said", "only where someone says so"],
    ["by default", "until someone says otherwise"],
  ],
  "scarcity.marginFrom": [
    ["percent", "always by the percentages"],
    ["offers", "by its offers"],
  ],
};

/** What tells a row from the others of its list, in an address too. */
export const rowId = (row: Row): string => ("id" in row ? row.id : "kind" in row ? row.kind : `${row.size}, ${row.mounting}`);
export const rowName = (row: Row): string => ("name" in row ? row.name : rowId(row));

/** Rows of a page with their place in the list of the book. */
export const rowsOf = (book: RateBook, part: BookPart): readonly { readonly row: Row; readonly at: number }[] =>
  ((book[part.list] ?? []) as readonly Row[]).map((row, at) => ({ row, at })).filter(({ row }) => part.has?.(row) ?? true);

/** Without those that were retired; what a form holds already is `kept`. */
export const offered = <R extends { readonly retiredOn?: string }>(rows: readonly R[], kept: (row: R) => boolean = () => false) =>
  rows.filter((row) => row.retiredOn === undefined || kept(row));

/** A row that has every word, in any order. */
export const fits = (row: Row, find: string): boolean => {
  const text =
    `${rowName(row)} ${rowId(row)} ${"sort" in row ? row.sort : ""} ${"family" in row ? row.family : ""}`.toLowerCase();
  return find
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
};
