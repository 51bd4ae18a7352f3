/**
 * The 28 official example documents of EN 16931 (ConnectingEurope/eInvoicing-EN16931 @ b6c9e06) and Peppol BIS Billing 3.0
 * (OpenPEPPOL/peppol-bis-invoice-3 @ 78d7f7d); business rules BR-CO-* from EN16931-model.sch of the first.
 */
import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/en16931-examples.json";
import { decimalsOf } from "../../../src/estimating/money/currency.js";
import { divide } from "../../../src/estimating/money/rounding.js";
import { addUp } from "../../../src/estimating/totals/addUp.js";
import { taxRules } from "./taxRules.js";

interface Line {
  readonly quantity: string;
  readonly price: string;
  /** Base quantity of the price; 1 if absent. */
  readonly per?: string;
  readonly net: string;
  readonly category: string;
  readonly percent: string;
  readonly adjustments?: readonly { readonly charge: boolean; readonly amount: string }[];
  readonly netDiffers?: boolean;
}
type Example = Omit<(typeof published.examples)[number], "lines"> & { readonly lines: readonly Line[] };
const examples: readonly Example[] = published.examples;

const minor = (amount: string, currency: string): number => {
  const units = new Decimal(amount).times(new Decimal(10).pow(decimalsOf(currency) ?? Number.NaN));
  expect(units.isInteger(), `${amount} ${currency} is a whole number of minor units`).toBe(true);
  return units.toNumber();
};
const group = (of: { category: string; percent: string }) => `${of.category} ${Number(of.percent)}`;

function totalsOf(example: Example) {
  const money = (amount: string) => minor(amount, example.currency);
  return addUp(
    example.lines.map((line) => ({ amount: money(line.net), taxCategory: group(line) })),
    example.adjustments.map((one) => ({ charge: one.charge, amount: money(one.amount), taxCategory: group(one) })),
    taxRules(example.taxGroups.map((one) => ({ id: group(one), percent: Number(one.percent) }))),
    money(example.totals.prepaid),
  );
}

describe("the official examples of EN 16931 and Peppol BIS Billing 3.0", () => {
  it("are all 28 there", () => {
    expect(examples).toHaveLength(28);
  });

  it.each(examples)("$file: totals and tax groups to the cent", (example) => {
    const money = (amount: string) => minor(amount, example.currency);
    const totals = totalsOf(example);
    expect(totals).toMatchObject(
      Object.fromEntries(Object.entries(example.totals).map(([name, amount]) => [name, money(amount)])),
    );
    expect(totals.taxGroups.map(({ category, base, tax }) => ({ category, base, tax }))).toEqual(
      example.taxGroups.map((one) => ({ category: group(one), base: money(one.base), tax: money(one.tax) })),
    );
  });

  it.each(examples)("$file: identities BR-CO-10 to BR-CO-17", (example) => {
    const totals = totalsOf(example);
    const money = (amount: string) => minor(amount, example.currency);
    const sum = (amounts: number[]) => amounts.reduce((total, amount) => total + amount, 0);
    const adjusted = (charge: boolean) =>
      sum(example.adjustments.filter((one) => one.charge === charge).map((one) => money(one.amount)));
    expect(totals.linesNet, "BR-CO-10").toBe(sum(example.lines.map((line) => money(line.net))));
    expect(totals.allowances, "BR-CO-11").toBe(adjusted(false));
    expect(totals.charges, "BR-CO-12").toBe(adjusted(true));
    expect(totals.withoutTax, "BR-CO-13").toBe(totals.linesNet - totals.allowances + totals.charges);
    expect(totals.tax, "BR-CO-14").toBe(sum(totals.taxGroups.map((one) => one.tax)));
    expect(totals.total, "BR-CO-15").toBe(totals.withoutTax + totals.tax);
    expect(totals.due, "BR-CO-16").toBe(totals.total - totals.prepaid);
    for (const one of totals.taxGroups) {
      const exact = new Decimal(one.base).times(one.percent).div(100);
      expect(one.tax, "BR-CO-17").toBe(exact.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber() + 0);
    }
    expect(sum(totals.taxGroups.map((one) => one.base)), "the group bases make the total without tax").toBe(totals.withoutTax);
  });

  it.each(examples)("$file: line net = price / base quantity x quantity, rounded once (Peppol line-calc)", (example) => {
    for (const line of example.lines) {
      const price = scaled(line.price);
      const per = scaled(line.per ?? "1");
      const hundredfold = price * scaled(line.quantity) * 10n ** BigInt(decimalsOf(example.currency)!);
      const net = (line.adjustments ?? []).reduce(
        (amount, one) => amount + (one.charge ? 1 : -1) * minor(one.amount, example.currency),
        divide(hundredfold, per * SCALE),
      );
      if (line.netDiffers) expect(net).not.toBe(minor(line.net, example.currency));
      else expect(net).toBe(minor(line.net, example.currency));
    }
  });

  it("leave out of the line check only the nine lines the official files print otherwise", () => {
    expect(examples.flatMap((example) => example.lines.filter((line) => line.netDiffers))).toHaveLength(9);
  });
});

describe("a rounding that is easy to get wrong", () => {
  const find = (file: string) => examples.find((example) => example.file.endsWith(file))!;

  it("tax per line instead of per group would make example 8 a cent dearer: 190.88, not 190.87", () => {
    const lines = find("ubl-tc434-example8.xml").lines.map((line) => ({ amount: minor(line.net, "EUR"), taxCategory: "S" }));
    const tax = (level: "line" | "group") =>
      addUp(lines, [], taxRules([{ id: "S", percent: 21 }], { level, mode: "half up" }), 0).tax;
    expect([tax("line"), tax("group")]).toEqual([19088, 19087]);
  });

  it("half to even would make the BIS3 invoice a cent cheaper: 625743.54 at 25 % is 156435.885", () => {
    const exact = new Decimal("625743.54").times("0.25");
    expect(exact.toFixed()).toBe("156435.885");
    expect(exact.toDecimalPlaces(2, Decimal.ROUND_HALF_EVEN).toFixed()).toBe("156435.88");
    expect(totalsOf(find("BIS3_Invoice_positive.XML")).tax).toBe(15643589);
    expect(totalsOf(find("BIS3_Invoice_negativ.XML")).tax).toBe(-15643589);
  });
});

const SCALE = 1_000_000n;
const scaled = (figure: string): bigint => {
  const units = new Decimal(figure).times(SCALE.toString());
  expect(units.isInteger()).toBe(true);
  return BigInt(units.toFixed());
};
