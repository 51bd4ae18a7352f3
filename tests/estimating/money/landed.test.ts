/** Worked by hand: an invented shop in euro that buys abroad (demo). */
import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, ExchangeRate, Offer, PartsRules } from "../../../src/estimating/input.js";
import { type LandedOffer, landed, ratesTaken } from "../../../src/estimating/money/landed.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { german } from "../../../src/wording/german/index.js";
import { sourceText, warningText } from "../../../src/wording/reasons.js";
import { item, job } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";

const offer = (more: Partial<Offer> = {}): Offer => ({
  ...{ id: "o", kind: "film", source: "Hoshimi Parts", on: "2026-11-20", currency: "JPY", price: 1000, packSize: 10 },
  ...{ leadDays: 9, state: "new" },
  ...more,
});
const YEN: ExchangeRate = { currency: "JPY", rate: "0.006", on: "2026-11-20", source: "the shop's bank" };
const priced = (offers: readonly Offer[], exchange: readonly ExchangeRate[], more: Partial<PartsRules> = {}): EstimateInput =>
  job({
    items: [item("w", { operation: "replace", count: 2, part: { kind: "film" } })],
    kinds: [{ id: "film", type: "capacitor", name: "Film 100n" }],
    offers,
    exchange,
    rateBook: { ...PLAIN, parts: { ...PLAIN.parts, ...more } },
  });
const sheetOf = (...given: Parameters<typeof priced>): Sheet => {
  const outcome = estimate(priced(...given));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
};
const part = ({ lines }: Sheet) => lines.find(({ sort }) => sort === "part")!;
const EN = { locale: "en-GB", currency: "EUR" };
const DE = { locale: "de-DE", currency: "EUR", words: german };

describe("an offer from abroad", () => {
  const abroad = offer({ dutyPercent: 4, importTaxPercent: 19, freight: 1500, parcelFee: 650 });

  it("tells each step of its price: the rate, duty on it, import tax on both, and what a pack comes to", () => {
    const { from } = part(sheetOf([abroad], [YEN]));
    expect(from.map((source) => sourceText(source, EN)).slice(2, 6)).toEqual([
      "A pack at JP¥1,000, 1 JPY = 0.006 EUR of 20 November 2026 (the shop's bank): €6.00.",
      "Duty, 4% of €6.00: €0.24.",
      "Import tax, 19% of €6.24: €1.19.",
      "In all €7.43 for a pack of 10.",
    ]);
    expect(from.map((source) => sourceText(source, DE))[4]).toBe("Einfuhrsteuer, 19\u00a0% von 6,24\u00a0€: 1,19\u00a0€.");
  });

  it("pays its freight at the rate and the fee for the parcel once per source", () => {
    const two = [abroad, offer({ id: "p", kind: "film", price: 5000, freight: 900, parcelFee: 650 })];
    const { adjustments } = sheetOf(two, [YEN]);
    expect(adjustments).toMatchObject([{ id: "freight:Hoshimi Parts", amount: 900 + 650 }]);
    expect(adjustments[0]!.from.map((source) => sourceText(source, EN)).slice(1, 3)).toEqual([
      "Freight at JP¥1,500, 1 JPY = 0.006 EUR of 20 November 2026 (the shop's bank): €9.00.",
      "With the fee for the parcel, €6.50.",
    ]);
  });

  it("is chosen by what it comes to here", () => {
    const near = offer({ id: "near", source: "Quillmere", currency: "EUR", price: 700 });
    expect(part(sheetOf([offer(), near], [YEN])).from).toContainEqual(expect.objectContaining({ is: "offer", id: "o" }));
    expect(part(sheetOf([offer({ dutyPercent: 20 }), near], [YEN])).from).toContainEqual(
      expect.objectContaining({ is: "offer", id: "near" }),
    );
  });

  it("of the shop's own currency carries duty, import tax and fee without a rate", () => {
    const near = offer({ currency: "EUR", price: 600, dutyPercent: 4, importTaxPercent: 19, parcelFee: 650 });
    expect(landed(near, { currency: "EUR" })).toMatchObject({ price: 743, freight: 650 });
  });

  it("pays the fee for the parcel where no freight is told, and says no step of one", () => {
    const { freight, steps } = landed(offer({ parcelFee: 650 }), { currency: "EUR", exchange: [YEN] }) as LandedOffer;
    expect(freight).toBe(650);
    expect(steps!.freight.filter((step) => step.is === "exchange")).toEqual([]);
    expect(steps!.freight.every((step) => typeof step === "object")).toBe(true);
  });

  it("stays the very same where nothing is added to it", () => {
    const near = offer({ currency: "EUR" });
    expect(landed(near, { currency: "EUR", exchange: [YEN] })).toBe(near);
  });

  it("is too dear when it passes what a number can hold", () => {
    const outcome = estimate(priced([offer({ price: 900_000_000_000 })], [{ ...YEN, rate: "999999999999" }]));
    expect(outcome.ok ? [] : outcome.problems).toMatchObject([{ name: "amount out of range", pointer: "/offers/0/price" }]);
  });

  it("is left out with its rate where the rate is refused, and the rest is priced", () => {
    const outcome = estimate(priced([offer()], [{ ...YEN, rate: "0" }]));
    expect(outcome).toMatchObject({ ok: false, problems: [{ name: "exchange rate unreadable" }] });
    expect(outcome.ok ? undefined : outcome.partial?.totals.total).toBeGreaterThan(0);
  });
});

describe("the rates that offers need", () => {
  const known = [
    { ...YEN, on: "2026-11-24", rate: "0.0061" },
    { ...YEN, on: "2026-11-26", rate: "0.0062" },
    YEN,
    { ...YEN, currency: "USD", rate: "0.9" },
  ];
  const asked = { asOf: "2026-11-25", currency: "EUR", offers: [offer(), offer({ currency: "EUR" })] };

  it("are the newest that are not ahead of the day, and of no currency that nobody offers in", () => {
    expect(ratesTaken(asked, known)).toEqual([known[0]]);
    expect(ratesTaken({ ...asked, offers: [] }, known)).toBeUndefined();
    expect(ratesTaken({ ...asked, asOf: "2026-11-01" }, known)).toBeUndefined();
  });

  it("stay those that the estimate stands on", () => {
    expect(ratesTaken(asked, known, [YEN])).toEqual([YEN]);
  });
});

describe("a rate", () => {
  const old = { ...YEN, on: "2026-11-10" };
  const told = (sheet: Sheet) => sheet.warnings.filter(({ is }) => is === "old exchange rate");

  it("is told of when it is older than it is good for, a fortnight or what the rate book says", () => {
    expect(told(sheetOf([offer()], [old]))).toEqual([
      { is: "old exchange rate", currency: "JPY", rate: "0.006", on: "2026-11-10", days: 15, goodForDays: 14 },
    ]);
    expect(told(sheetOf([offer()], [{ ...YEN, on: "2026-11-11" }]))).toEqual([]);
    expect(told(sheetOf([offer()], [old], { exchangeGoodForDays: 15 }))).toEqual([]);
    expect(warningText(told(sheetOf([offer()], [old]))[0]!, EN)).toBe(
      "Prices in JPY are worked out at 0.006 of 10 November 2026, 15 days old, and a rate is good for 14; enter today's rate and take it in.",
    );
  });

  it("that no price rests on is not", () => {
    expect(told(sheetOf([offer({ currency: "EUR" })], [old]))).toEqual([]);
  });
});

describe("a minimum order", () => {
  const five = offer({ currency: "EUR", price: 40, packSize: 1, minimumPacks: 5 });
  const told = (sheet: Sheet) => sheet.warnings.filter(({ is }) => is === "minimum order");

  it("that is charged is told of in the line and as a warning", () => {
    const sheet = sheetOf([five], [], { packs: "whole" });
    expect(part(sheet)).toMatchObject({ count: 5, amount: 200 });
    expect(
      part(sheet)
        .from.map((source) => sourceText(source, EN))
        .at(-1),
    ).toBe("The source sells no fewer than 5 packs: 2 of 5 pieces are used, all are charged.");
    expect(told(sheet).map((warning) => warningText(warning, EN))).toEqual([
      "2 of Film 100n are used, and 5 packs charged, because Hoshimi Parts sells no fewer: €2.00, of which €1.20 for pieces left over; look for a source without a minimum, or tell the owner.",
    ]);
    expect(warningText(told(sheet)[0]!, DE)).toContain("davon 1,20\u00a0€ für übrige Stücke");
  });

  it("is not told of where the pieces used are charged, or fill the packs", () => {
    expect(told(sheetOf([five], []))).toEqual([]);
    expect(told(sheetOf([{ ...five, minimumPacks: 2 }], [], { packs: "whole" }))).toEqual([]);
    expect(told(sheetOf([{ ...five, packSize: 10, minimumPacks: 1 }], [], { packs: "whole" }))).toEqual([]);
  });
});
