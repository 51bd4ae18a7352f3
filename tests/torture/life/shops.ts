/** Small shops to live in: few things on the shelf and a short rate book, so that thousands of lives are cheap. All invented (demo). */
import { readFile } from "node:fs/promises";
import type { EstimateInput, RateBook } from "../../../src/estimating/input.js";
import { type Demo, loadRecords } from "../../../src/tools/demo.js";
import { type MadeOnce, madeOnce, migratedFile } from "../../http/support/madeOnce.js";

export const HAND = "Tamsin Oakhollow";
export const KINDS = ["el-10u-50", "delay-512", "drive-belt", "slider-100k"] as const;
const OPERATIONS = [
  ...["replace", "exchange", "clean-pots", "clean-switches", "clean-board", "inspect", "fault-finding", "reflow"],
  ...["calibrate-whole", "function-test", "safety-test", "soak-test", "save-memory", "battery-test"],
];
const PART_TYPES = ["electrolytic", "ic-8", "belt", "slider", "jack", "fuse"];

export interface ShopKind {
  readonly name: string;
  readonly currency: string;
  readonly locale: string;
  readonly timeZone: string;
  readonly profile: string;
  readonly file: MadeOnce<RateBook>;
}

type Changes = Pick<ShopKind, "name" | "currency" | "locale" | "timeZone" | "profile"> & {
  readonly settings?: Partial<Demo["settings"]>;
  readonly book: Partial<RateBook>;
};

const taxOf = (percent: number, included: boolean, level: "group" | "document" | "line"): RateBook["tax"] => ({
  included,
  categories: [{ id: "standard", name: `Tax ${percent} %`, percent }],
  ...{ labour: "standard", parts: "standard", freight: "standard", fees: "standard" },
  rounding: { level, mode: "half up" },
});

const shopKind = ({ settings, book, ...kind }: Changes): ShopKind => ({
  ...kind,
  file: madeOnce(async (db) => {
    const demo: Demo = JSON.parse(await readFile("fixtures/demo/shop.json", "utf8"));
    const { currency, locale, timeZone } = kind;
    const rateBook: RateBook = {
      ...demo.rateBook,
      currency,
      operations: demo.rateBook.operations.filter(({ id }) => OPERATIONS.includes(id)),
      partTypes: demo.rateBook.partTypes.filter(({ id }) => PART_TYPES.includes(id)),
      // From before any day that is lived through.
      inForceFrom: "2026-01-01",
      ...book,
    };
    const few = new Set<string>(KINDS);
    const shop: Demo = {
      ...{ rateBook, models: [], owners: [], units: [], jobs: [] },
      settings: { ...demo.settings, currency, locale, timeZone, detail: "every line", ...settings },
      partKinds: demo.partKinds.filter(({ id }) => few.has(id)),
      offers: demo.offers.filter(({ kind: of }) => few.has(of)).map((offer) => ({ ...offer, currency })),
    };
    await loadRecords(db, shop, "2026-01-02T08:00:00.000Z");
    return rateBook;
  }, migratedFile),
});

export const SHOPS: readonly ShopKind[] = [
  shopKind({
    ...{ name: "tax on top", currency: "GBP", locale: "en-GB", timeZone: "Europe/London", profile: "uk" },
    book: { tax: taxOf(20, false, "group") },
  }),
  shopKind({
    ...{ name: "tax included, German", currency: "EUR", locale: "de-DE", timeZone: "Europe/Berlin", profile: "de" },
    settings: { language: "de", detail: "by assembly" },
    book: { tax: taxOf(19, true, "document"), ceiling: { abovePercent: 15 } },
  }),
  shopKind({
    ...{ name: "no tax", currency: "USD", locale: "en-US", timeZone: "America/New_York", profile: "plain" },
    settings: { paper: "Letter" },
    book: { tax: taxOf(0, false, "document"), billing: { incrementMinutes: 15, minimumCharge: 6000 } },
  }),
  shopKind({
    ...{ name: "no decimals", currency: "JPY", locale: "en-GB", timeZone: "Asia/Tokyo", profile: "plain" },
    settings: { detail: "letter" },
    book: { tax: taxOf(10, true, "line"), ceiling: { abovePercent: 0 }, deposit: { scarcePartsPercent: 50, labourPercent: 0 } },
  }),
];

export type BareInput = Omit<EstimateInput, "rateBook">;
