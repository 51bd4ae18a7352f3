import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import oasis from "../../fixtures/published/oasis-quotation-2.1.json";
import { quotationXml } from "../../src/documents/quotationXml.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput, Policy, RateBook } from "../../src/estimating/input.js";
import type { GroupPrice, Sheet } from "../../src/estimating/sheet.js";
import { DEMO, ECHO, ORGAN, revision, sheetOf } from "../estimating/agreement/demo.js";
import { item, job, on } from "../estimating/cast/organ.js";
import { about, PLAIN, TAXED } from "../estimating/cast/plainBook.js";
import { runs } from "../setup/runs.js";
import { type Element, read } from "./quotation.js";

const made = (input: EstimateInput, earlier?: Parameters<typeof quotationXml>[2]): Element =>
  read(quotationXml(sheetOf(input), input, earlier));
const figure = (element: Element, path: string): Decimal => new Decimal(element.text(path) || 0);
const sum = (figures: readonly Decimal[]): Decimal => figures.reduce((total, each) => total.plus(each), new Decimal(0));
const items = (quotation: Element): Element[] => quotation.all("QuotationLine").map((each) => each.one("LineItem")!);
const included = (input: EstimateInput): EstimateInput => ({
  ...input,
  rateBook: { ...input.rateBook, tax: { ...input.rateBook.tax, included: true } },
});

/** Rules of EN 16931 (EN16931-model.sch of 2026-04-14, read), exact to the last digit and not to within 1.00 as the schematron is. */
function holds(quotation: Element, sheet: Sheet, decimals: number): void {
  const total = quotation.one("QuotedMonetaryTotal")!;
  const line = figure(total, "LineExtensionAmount");
  const without = figure(total, "TaxExclusiveAmount");
  const withTax = figure(total, "TaxInclusiveAmount");
  const tax = figure(quotation, "TaxTotal/TaxAmount");
  const adjustments = quotation.all("AllowanceCharge");
  const adjusted = (charge: string) =>
    sum(adjustments.filter((each) => each.text("ChargeIndicator") === charge).map((each) => figure(each, "Amount")));
  const subtotals = quotation.all("TaxTotal/TaxSubtotal");
  const same = (a: Decimal, b: Decimal, rule: string) => expect(a.toString(), rule).toBe(b.toString());

  same(line, sum(items(quotation).map((each) => figure(each, "LineExtensionAmount"))), "BR-CO-10");
  same(figure(total, "AllowanceTotalAmount"), adjusted("false"), "BR-CO-11");
  same(figure(total, "ChargeTotalAmount"), adjusted("true"), "BR-CO-12");
  same(without, line.minus(adjusted("false")).plus(adjusted("true")), "BR-CO-13");
  same(tax, sum(subtotals.map((each) => figure(each, "TaxAmount"))), "BR-CO-14");
  same(withTax, without.plus(tax), "BR-CO-15");
  same(figure(total, "PayableAmount"), withTax.minus(figure(total, "PrepaidAmount")), "BR-CO-16");
  for (const each of adjustments) expect(each.text("AllowanceChargeReason"), "BR-CO-21, 22").not.toBe("");

  const rates = new Map<string, Decimal>();
  const rated = (percent: string, amount: Decimal) => rates.set(percent, (rates.get(percent) ?? new Decimal(0)).plus(amount));
  for (const each of items(quotation))
    rated(each.text("Item/ClassifiedTaxCategory/Percent"), figure(each, "LineExtensionAmount"));
  for (const each of adjustments)
    rated(each.text("TaxCategory/Percent"), figure(each, "Amount").times(each.text("ChargeIndicator") === "true" ? 1 : -1));
  const percents = subtotals.map((each) => each.text("TaxCategory/Percent"));
  expect(percents.sort(), "BR-CO-18, one subtotal a rate").toEqual([...rates.keys()].sort());
  for (const each of subtotals) {
    same(figure(each, "TaxableAmount"), rates.get(each.text("TaxCategory/Percent"))!, "BR-S-08");
    const exempt = each.text("TaxCategory/ID") === "E";
    expect(exempt, "BR-S-05").toBe(figure(each, "TaxCategory/Percent").isZero());
    expect(each.text("TaxCategory/TaxExemptionReason") !== "", "BR-E-10, BR-S-10").toBe(exempt);
    if (exempt) same(figure(each, "TaxAmount"), new Decimal(0), "BR-E-09");
  }

  for (const each of items(quotation)) {
    const price = figure(each, "Price/PriceAmount");
    expect(price.isNegative() && !price.isZero(), "BR-27").toBe(false);
    const of = each.has("Price/BaseQuantity") ? figure(each, "Price/BaseQuantity") : new Decimal(1);
    // Half away from zero, as the published examples are rounded.
    const amount = price.div(of).times(figure(each, "Quantity")).toDecimalPlaces(decimals, Decimal.ROUND_HALF_UP);
    same(figure(each, "LineExtensionAmount"), amount, "price x quantity");
  }
  const money = new Decimal(10).pow(decimals);
  same(withTax, new Decimal(sheet.totals.total).div(money), "the sheet's total");
  same(without, new Decimal(sheet.totals.withoutTax).div(money), "the sheet's net");
  same(figure(total, "PayableAmount"), new Decimal(sheet.totals.due).div(money), "the sheet's due");
}

const amountsOf = (xml: string): string[] => [...xml.matchAll(/currencyID="[A-Z]{3}">([^<]*)</g)].map(([, amount]) => amount!);

describe("a quotation's amounts", () => {
  it("obey BR-CO-10 to 16 for every demo job, prices with tax and without", () => {
    for (const input of DEMO) for (const each of [input, included(input)]) holds(made(each), sheetOf(each), 2);
  });

  it("obey them for any revision of a demo job, whatever its rounding", () => {
    let tried = 0;
    fc.assert(
      fc.property(revision, ({ after }) => {
        const outcome = estimate(after);
        if (!outcome.ok || outcome.sheet.lines.length === 0) return;
        tried += 1;
        holds(read(quotationXml(outcome.sheet, after)), outcome.sheet, 2);
      }),
      runs(60),
    );
    expect(tried).toBeGreaterThan(runs(12).numRuns);
  });

  it("have the decimals of the currency: none in yen, three in Kuwaiti dinars, two in pounds", () => {
    const inCurrency = (currency: string, input: EstimateInput): EstimateInput => ({
      ...input,
      currency,
      rateBook: { ...input.rateBook, currency },
      offers: (input.offers ?? []).map((offer) => ({ ...offer, currency })),
    });
    for (const [currency, decimals, form] of [
      ["JPY", 0, /^-?\d+$/],
      ["KWD", 3, /^-?\d+\.\d{3}$/],
      ["GBP", 2, /^-?\d+\.\d{2}$/],
    ] as const)
      for (const tax of [(input: EstimateInput) => input, included]) {
        const input = tax(inCurrency(currency, ECHO));
        const xml = quotationXml(sheetOf(input), input);
        const prices = [...xml.matchAll(/<cbc:PriceAmount currencyID="[A-Z]{3}">([^<]*)</g)].map(([, price]) => price!);
        for (const amount of amountsOf(xml).filter((each) => !prices.includes(each))) expect(amount).toMatch(form);
        holds(read(xml), sheetOf(input), decimals);
      }
  });

  it("write a unit price with as many digits as it has and no more", () => {
    const rateBook: RateBook = { ...PLAIN, parts: { ...PLAIN.parts, markUp: [{ percent: 12.345 }] } };
    const input = job({ items: [item("a", { operation: "replace", count: 3, part: { type: "capacitor" } })], rateBook });
    const prices = items(made(input)).map((each) => each.text("Price/PriceAmount"));
    // 0.10 + 12.345 % = 0.112345: more than cents, which BR-DEC does not limit for a price.
    expect(prices).toEqual(["17.00", "0.112345"]);
  });

  it("write a credit as a negative quantity at a price above nought (BR-27)", () => {
    const policy: Policy = { diagnosis: true };
    const rateBook: RateBook = { ...TAXED, fees: { ...TAXED.fees, diagnosis: { amount: 4000, creditedOnAgreement: true } } };
    const lines = items(made(job({ items: [on("top")], policy, rateBook })));
    const credit = lines.find((each) => each.text("LineExtensionAmount").startsWith("-"))!;
    expect(["Quantity", "LineExtensionAmount", "Price/PriceAmount"].map((path) => credit.text(path))).toEqual([
      "-1",
      "-40.00",
      "40.00",
    ]);
  });

  it("join tax categories of one rate, keep a rate of nought apart and say why it is exempt", () => {
    const tax: RateBook["tax"] = {
      ...TAXED.tax,
      categories: [
        { id: "work", name: "VAT 20 % on work", percent: 20 },
        { id: "goods", name: "VAT 20 % on goods", percent: 20 },
        { id: "none", name: "Outside VAT", percent: 0 },
      ],
      labour: "work",
      parts: "goods",
      freight: "goods",
      fees: "none",
    };
    const input = job({
      items: [on("top", "a", { operation: "replace", part: { type: "dip-40" } })],
      rateBook: { ...TAXED, tax, partTypes: TAXED.partTypes.map((each) => ({ ...each, typicalCost: 333 })) },
      policy: { diagnosis: true },
    });
    const quotation = made(input);
    holds(quotation, sheetOf(input), 2);
    const categories = quotation.all("TaxTotal/TaxSubtotal").map((each) => each.one("TaxCategory")!);
    expect(categories.map((each) => ["ID", "Percent", "TaxExemptionReason"].map((path) => each.text(path)))).toEqual([
      ["S", "20", ""],
      ["E", "0", "Outside VAT"],
    ]);
    expect(categories[0]!.text("TaxScheme/ID")).toBe("VAT");
    expect(made(ORGAN).text("TaxTotal/TaxSubtotal/TaxCategory/TaxScheme/ID")).toBe("OTH");
  });
});

describe("the OASIS example of a quotation, priced here", () => {
  /** 35 hours each at the example's prices. */
  const rateBook: RateBook = {
    ...TAXED,
    currency: oasis.currency,
    validityDays: 5,
    tax: { ...TAXED.tax, categories: [{ id: "full", name: "VAT 25 %", percent: oasis.percent }], labour: "full" },
    labourClasses: oasis.lines.map(({ price }, at) => ({
      ...TAXED.labourClasses[0]!,
      id: `class-${at}`,
      ratePerHour: Number(price.replace(".", "")),
    })),
    accessClass: "class-0",
    operations: oasis.lines.map((_, at) => ({
      ...TAXED.operations[1]!,
      id: `work-${at}`,
      labourClass: `class-${at}`,
      setup: about(0),
      unit: about(60),
    })),
  };
  const input: EstimateInput = {
    ...job({
      rateBook,
      items: oasis.lines.map(({ quantity }, at) => item(`i${at}`, { operation: `work-${at}`, count: quantity })),
    }),
    currency: oasis.currency,
    asOf: oasis.issueDate,
    paperwork: { number: "QIY7655", date: oasis.issueDate },
  };
  const quotation = made(input);
  const total = quotation.one("QuotedMonetaryTotal")!;

  it("has its lines, its tax and its total", () => {
    expect(items(quotation).map((each) => [each.text("Quantity"), each.text("LineExtensionAmount")])).toEqual(
      oasis.lines.map(({ quantity, net }) => [String(quantity), net]),
    );
    expect(total.text("LineExtensionAmount")).toBe(oasis.lineExtensionAmount);
    expect(total.text("TaxInclusiveAmount")).toBe(oasis.taxInclusiveAmount);
    expect(total.text("PayableAmount")).toBe(oasis.payableAmount);
    expect(quotation.text("TaxTotal/TaxAmount")).toBe(sum(oasis.lines.map(({ tax }) => new Decimal(tax))).toFixed(2));
    expect(quotation.text("ValidityPeriod/StartDate")).toBe(oasis.issueDate);
    expect(quotation.text("ValidityPeriod/EndDate")).toBe(oasis.validUntil);
    holds(quotation, sheetOf(input), 2);
  });

  it("has the net total in TaxExclusiveAmount, where the example has the tax", () => {
    expect(total.text("TaxExclusiveAmount")).toBe("197750.00");
    expect(total.text("TaxExclusiveAmount")).not.toBe(oasis.taxExclusiveAmount);
    // How the habit is told: there the 'exclusive' amount and the lines add up to the inclusive one.
    const example = new Decimal(oasis.taxExclusiveAmount).plus(oasis.lineExtensionAmount);
    expect(example.toFixed(2)).toBe(oasis.taxInclusiveAmount);
    const ours = figure(total, "TaxExclusiveAmount").plus(figure(total, "LineExtensionAmount"));
    expect(ours.toFixed(2)).not.toBe(total.text("TaxInclusiveAmount"));
  });
});

describe("what a quotation says beside its amounts", () => {
  it("names number and revision, the day, how long it holds, the currency and the ceiling", () => {
    const quotation = made(ORGAN);
    expect(quotation.text("ID")).toBe("J-2026-0001/1");
    expect(quotation.text("IssueDate")).toBe("2026-11-25");
    expect(quotation.text("ValidityPeriod/StartDate")).toBe("2026-11-25");
    expect(quotation.text("ValidityPeriod/EndDate")).toBe("2026-12-25");
    expect(quotation.text("PricingCurrencyCode")).toBe("GBP");
    expect(quotation.all("Note").map((note) => note.text())).toEqual([
      expect.stringContaining("Never more than, tax included: £"),
    ]);
    expect(quotation.text("LineCountNumeric")).toBe(String(sheetOf(ORGAN).lines.length));
  });

  it("names the earlier revision, and none on the first", () => {
    const [reference] = made(ORGAN, { number: "J-2026-0001", revision: 1, date: "2026-11-20" }).all(
      "AdditionalDocumentReference",
    );
    expect(["ID", "IssueDate", "DocumentType"].map((path) => reference!.text(path))).toEqual([
      "J-2026-0001/1",
      "2026-11-20",
      "Earlier revision",
    ]);
    expect(made(ORGAN).has("AdditionalDocumentReference")).toBe(false);
  });

  it("has each option not chosen, and each possible work, as an alternative beside its assembly, net of tax", () => {
    const sheet = sheetOf(ORGAN);
    const quotation = made(ORGAN);
    const byId = (a: { readonly id: string }, b: { readonly id: string }) => (a.id < b.id ? -1 : 1);
    const found = quotation
      .all("QuotationLine")
      .flatMap((line) => line.all("AlternativeLineItem"))
      .map((each) => ({ id: each.text("ID"), net: each.text("LineExtensionAmount"), tax: each.text("TotalTaxAmount") }));
    const wanted = (is: string) => (group: GroupPrice) => ({
      id: `${is}: ${group.id}`,
      net: (group.net / 100).toFixed(2),
      tax: ((group.price - group.net) / 100).toFixed(2),
    });
    const left = sheet.options.filter(({ chosen }) => !chosen).map(wanted("option"));
    expect(left.length).toBeGreaterThan(1);
    expect(found.sort(byId)).toEqual([...left, ...sheet.ifFound.map(wanted("if found"))].sort(byId));
    const beside = quotation
      .all("QuotationLine")
      .find((line) => line.all("AlternativeLineItem").some((each) => each.text("ID") === "option: all sliders new"))!;
    expect(beside.text("LineItem/Item/Name")).toContain("Slider panel");
  });

  it("has alternatives that add up to the option's printed price, with tax within and without", () => {
    for (const input of [ORGAN, included(ORGAN)]) {
      const prices = new Map(
        sheetOf(input)
          .options.filter(({ chosen }) => !chosen)
          .map(({ id, price }) => [`option: ${id}`, price]),
      );
      const found = made(input)
        .all("QuotationLine")
        .flatMap((line) => line.all("AlternativeLineItem"))
        .filter((each) => prices.has(each.text("ID")));
      expect(found).toHaveLength(prices.size);
      for (const each of found) {
        const price = figure(each, "LineExtensionAmount").plus(figure(each, "TotalTaxAmount"));
        expect(price.times(100).toNumber()).toBe(prices.get(each.text("ID")));
      }
    }
  });

  it("has one line of no amount where nothing is chosen yet, with the options beside it", () => {
    const input = job({ items: [on("top", "a", { certainty: { is: "optional", chosen: false } })], rateBook: TAXED });
    const quotation = made(input);
    expect(items(quotation).map((each) => [each.text("Item/Name"), each.text("LineExtensionAmount")])).toEqual([
      ["No work is chosen yet", "0.00"],
    ]);
    expect(quotation.all("QuotationLine/AlternativeLineItem")).toHaveLength(1);
    expect(quotation.text("QuotedMonetaryTotal/PayableAmount")).toBe("0.00");
  });

  it("goes without parties, number and date where the paperwork has none", () => {
    const { paperwork: _, ...bare } = ORGAN;
    const quotation = made(bare);
    expect(quotation.text("ID")).toBe("draft");
    expect(quotation.text("IssueDate")).toBe(ORGAN.asOf);
    expect(quotation.has("SellerSupplierParty/Party")).toBe(true);
    expect(quotation.has("SellerSupplierParty/Party/PartyName")).toBe(false);
  });
});

describe("texts that XML does not take as they are", () => {
  const named = (name: string): EstimateInput => ({
    ...ORGAN,
    paperwork: { ...ORGAN.paperwork, shop: { name, address: [name] } },
  });
  const readBack = (name: string) => made(named(name)).text("SellerSupplierParty/Party/PartyName/Name");

  it("come back as they were: signs of markup, entities as typed, quotes, CDATA ends, scripts beyond the first plane", () => {
    for (const name of ["<b>&\"'>", "&amp; &lt; &#65;", "]]>", "Ω µF 10 % – „alt“", "Žofie Ярослав Ελένη", "𝄞 𝟜", "a\tb\nc"])
      expect(readBack(name)).toBe(name);
  });

  it("carry a mark where XML 1.0 has no place for a character: controls, lone surrogates, non-characters", () => {
    expect(readBack("a\u0000b\u0007c\u001fd\ufffee\ud800f")).toBe("a\ufffdb\ufffdc\ufffdd\ufffde\ufffdf");
    expect(readBack("one\r\ntwo\rthree")).toBe("one\ntwo\nthree");
  });

  it("are always a document that a parser reads back", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", minLength: 1, maxLength: 12 }), (name) => {
        const back = readBack(name);
        expect(back.length).toBe(name.replaceAll(/\r\n?/g, "\n").length);
      }),
      runs(60),
    );
  });
});

it("is the same text every time", () => {
  expect(quotationXml(sheetOf(ORGAN), ORGAN)).toBe(quotationXml(sheetOf(ORGAN), ORGAN));
});
