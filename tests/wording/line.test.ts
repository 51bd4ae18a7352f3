import { describe, expect, it } from "vitest";
import type { TaxRules } from "../../src/estimating/input.js";
import { declinedWithTax } from "../../src/estimating/sheet/terms.js";
import type { Line, Sheet } from "../../src/estimating/sheet.js";
import { belowCostText, belowDecliningText, declinedTexts, lineTitle } from "../../src/wording/line.js";
import { item, sheet } from "../estimating/cast/organ.js";
import { TAXED } from "../estimating/cast/plainBook.js";

const line = (rest: Partial<Line> & Pick<Line, "sort">): Line => ({
  id: "x",
  taxClass: "labour",
  taxCategory: "standard",
  amount: 100,
  from: [],
  ...rest,
});

it("names the assembly that is opened", () =>
  expect(lineTitle(line({ sort: "access", assembly: { id: "shelf", name: "Shelf" } }))).toBe("Open and refit Shelf"));

it("names boards that are only counted", () => {
  const boards = (count: number) =>
    line({ sort: "access", from: [{ is: "boards", size: "medium", mounting: "behind another", count }] });
  expect(lineTitle(boards(3))).toBe("Open and refit 3 medium boards behind another");
  expect(lineTitle(boards(1))).toBe("Open and refit 1 medium board behind another");
});

it("names the operation and what it consumes", () => {
  const operation = { id: "replace", name: "Replace" };
  expect(lineTitle(line({ sort: "replacement", operation, part: { type: "ic-40", name: "IC, 40 pins" } }))).toBe(
    "Replace: IC, 40 pins",
  );
  expect(lineTitle(line({ sort: "cleaning", operation: { id: "clean-pots", name: "Clean potentiometers" } }))).toBe(
    "Clean potentiometers",
  );
});

it("names parts, margins, pulls and roundings", () => {
  const part = { type: "ic-14", kind: "divider", name: "Divider" };
  expect(lineTitle(line({ sort: "part", part }))).toBe("Divider");
  expect(lineTitle(line({ sort: "scarcity margin", part }))).toBe("Scarcity margin: Divider");
  expect(lineTitle(line({ sort: "donor pull", part }))).toBe("Pull from a donor unit: Divider");
  expect(lineTitle(line({ sort: "labour rounding", labourClass: { id: "bench", name: "Bench work" } }))).toBe(
    "Rounding to billed time, Bench work",
  );
  expect(lineTitle(line({ sort: "minimum charge" }))).toBe("Up to the minimum charge");
});

it("tells a fee from its credit and from storage", () => {
  expect(lineTitle(line({ sort: "fee", id: "fee:diagnosis" }))).toBe("Diagnosis fee");
  expect(lineTitle(line({ sort: "fee", id: "fee:diagnosis credited", amount: -100, why: { rule: "credited" } }))).toBe(
    "Diagnosis fee credited",
  );
  expect(lineTitle(line({ sort: "fee", id: "fee:storage", why: { rule: "storage days", days: 2 } }))).toBe("Storage");
});

it.each([
  [false, { diagnosis: 4500, access: 6050, tax: 2110 }, "£54.00 (£45.00 before tax)", "£72.60 (£60.50 before tax)", 12660],
  [true, { diagnosis: 5400, access: 7260, tax: 2110 }, "£54.00", "£72.60", 12660],
] as const)(
  "tells the diagnosis fee as it is paid, and before tax where it is said so: included %s",
  (included, owed, fee, access, sum) => {
    const rules: TaxRules = {
      ...{ included, labour: "vat", parts: "vat", freight: "vat", fees: "vat" },
      categories: [{ id: "vat", name: "VAT", percent: 20 }],
      rounding: { level: "group", mode: "half up" },
    };
    const declined = { ...owed, amount: sum, limited: false };
    expect(declinedTexts(declined, rules, { locale: "en-GB", currency: "GBP" })).toEqual({ diagnosis: fee, access });
    const paid = declinedWithTax(declined, rules);
    expect(paid.diagnosis + paid.access).toBe(sum);
  },
);

it("warns where agreeing costs less than declining, and not before any work is counted", () => {
  const sheet = (total: number, work: "counts" | "none") =>
    ({ totals: { total }, ifDeclined: { amount: 5400 }, detail: { work, access: "none" } }) as unknown as Sheet;
  const said = (total: number, work: "counts" | "none" = "counts") =>
    belowDecliningText(sheet(total, work), { locale: "en-GB", currency: "GBP" });
  expect(said(4061)).toBe(
    "Agreeing costs the owner £40.61, less than the £54.00 owed if declined. Check the diagnosis fee and what is taken off the price.",
  );
  expect([said(5400), said(0, "none")]).toEqual([undefined, undefined]);
});

describe("a part where prices include tax", () => {
  const said = (percent: number, included = true) => {
    const book = {
      ...TAXED,
      ...{ tax: { ...TAXED.tax, included }, parts: { ...TAXED.parts, markUp: [{ percent }] } },
      partTypes: TAXED.partTypes.map((each) => ({ ...each, typicalCost: 15_000 })),
    };
    const work = item("new", { operation: "replace", count: 2, part: { type: "valve" } });
    return belowCostText(sheet({ rateBook: book, items: [work] }), { locale: "en-GB", currency: "EUR" });
  };

  it("is told of where its mark-up does not cover the tax, with what is left of its price", () =>
    expect(said(15)).toBe(
      "Sold for less than it costs: valve costs the shop €300.00, and of €345.00 that the owner pays for it €287.50 is left without tax. Give what a part costs without tax that you get back, and a mark-up that covers the tax in your prices.",
    ));

  it("is told of with its freight and what it may cost more, which are charged at cost", () => {
    const offer = {
      ...{ id: "o", kind: "k", source: "Farwell Surplus", on: "2026-11-25", currency: "EUR" as const, price: 900, packSize: 1 },
      ...{ leadDays: 0, state: "used" as const, freight: 1200, yield: 0.5 },
    };
    const book = {
      ...TAXED,
      tax: { ...TAXED.tax, included: true },
      scarcity: { ...TAXED.scarcity, marginFrom: "offers" as const },
    };
    const work = item("new", { operation: "replace", count: 2, part: { kind: "k" } });
    const made = (included: boolean, percent: number) =>
      sheet({
        rateBook: { ...book, tax: { ...book.tax, included }, parts: { ...book.parts, markUp: [{ percent }] } },
        items: [work],
        kinds: [{ id: "k", type: "valve", name: "Power valve" }],
        offers: [offer],
      });
    const told = (included: boolean, percent: number) =>
      belowCostText(made(included, percent), { locale: "en-GB", currency: "EUR" }) ?? "";
    expect(told(true, 100)).not.toContain("Power valve");
    // A mark-up that covers the tax of the part leaves nothing for that of its margin.
    expect(told(true, 20)).toContain("Power valve costs the shop");
    expect(told(true, 20)).toContain(
      "freight from Farwell Surplus costs the shop €12.00, and of €12.00 that the owner pays for it €10.00 is left without tax",
    );
    expect(told(false, 20)).toBe("");
  });

  it("is not held to the rate book's margin for a scarce part as if that were spent, and says what one costs where it is", () => {
    const scarce = (margin: number) => {
      const book = {
        ...TAXED,
        ...{ tax: { ...TAXED.tax, included: true }, parts: { ...TAXED.parts, markUp: [{ percent: 0 }] } },
        scarcity: { ...TAXED.scarcity, marginPercent: { ...TAXED.scarcity.marginPercent, scarce: margin } },
      };
      const work = item("new", { operation: "replace", part: { type: "valve" }, partPrice: { cost: 9550, reason: "rare" } });
      const made = sheet({ rateBook: book, items: [work], policy: { scarcityByType: { valve: "scarce" } } });
      return belowCostText(made, { locale: "en-GB", currency: "EUR" });
    };
    expect(scarce(200)).toBeUndefined();
    expect(scarce(10)).toContain("valve costs the shop €95.50, and of €105.05 that the owner pays for it €87.54 is left");
  });

  it("is not where it covers it, nor where tax is added", () =>
    expect([said(20), said(0, false)]).toEqual([undefined, undefined]));
});
