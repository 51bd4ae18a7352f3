/**
 * The 28 official examples of EN 16931 and Peppol BIS Billing 3.0 (sources in fixtures/published/en16931-examples.json) as estimates of
 * work in the shop's own words, by the API. An estimate says some things otherwise than an invoice; the table says which, by example.
 */
import { Decimal } from "decimal.js";
import { afterAll, beforeAll, expect, it } from "vitest";
import published from "../../../fixtures/published/en16931-examples.json";
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { decimalsOf } from "../../../src/estimating/money/currency.js";
import { PLAIN } from "../../estimating/cast/plainBook.js";
import { openShop } from "../support/shop.js";

const HOW = {
  amount:
    "a line whose price is finer than the currency, is of several pieces, has an allowance of its own, or is not its net: by its amount",
  charge: "a charge on the whole document: a line of its own",
} as const;

/** What each says otherwise than it stands; the rest stand as they are. */
const OTHERWISE: Readonly<Record<string, readonly (keyof typeof HOW)[]>> = {
  "rules/examples/Allowance-example.xml": ["amount", "charge"],
  "rules/examples/Vat-category-S.xml": ["charge"],
  "rules/examples/base-creditnote-correction.xml": ["charge"],
  "rules/examples/base-example.xml": ["charge"],
  "rules/examples/base-negative-inv-correction.xml": ["charge"],
  "rules/examples/sales-order-example.xml": ["charge"],
  "ubl/examples/guide-example1.xml": ["amount"],
  "ubl/examples/guide-example2.xml": ["amount", "charge"],
  "ubl/examples/guide-example3.xml": ["amount", "charge"],
  "ubl/examples/issue116.xml": ["charge"],
  "ubl/examples/sample-discount-price.xml": ["amount"],
  "ubl/examples/ubl-tc434-example1.xml": ["amount"],
  "ubl/examples/ubl-tc434-example10.xml": ["amount"],
  "ubl/examples/ubl-tc434-example2.xml": ["amount", "charge"],
  "ubl/examples/ubl-tc434-example3.xml": ["amount", "charge"],
  "ubl/examples/ubl-tc434-example5.xml": ["amount", "charge"],
  "ubl/examples/ubl-tc434-example8.xml": ["amount"],
};

let opened: Awaited<ReturnType<typeof openShop>>;
beforeAll(async () => {
  opened = await openShop();
});
afterAll(() => opened.close());

type Example = (typeof published.examples)[number];
type Line = Example["lines"][number] & {
  readonly per?: string;
  readonly netDiffers?: boolean;
  readonly adjustments?: readonly unknown[];
};
const group = (of: { category: string; percent: string }) => `${of.category} ${Number(of.percent)}`;

function said(example: Example) {
  const used = new Set<keyof typeof HOW>();
  const units = (amount: string) => new Decimal(amount).times(new Decimal(10).pow(decimalsOf(example.currency)!));
  const item = (id: string, price: number, count: number, taxCategory: string): WorkItem => ({
    ...{ id, own: { name: `Line ${id}`, price, taxCategory }, count, certainty: { is: "planned" } },
  });
  const lines = (example.lines as readonly Line[]).map((line, at) => {
    const [quantity, price, net] = [new Decimal(line.quantity), units(line.price), units(line.net).toNumber()];
    const stands =
      price.isInteger() &&
      quantity.isInteger() &&
      line.per === undefined &&
      line.adjustments === undefined &&
      quantity.times(price).eq(net);
    if (stands)
      return item(`l${at}`, price.times(quantity.isNegative() ? -1 : 1).toNumber(), quantity.abs().toNumber(), group(line));
    used.add("amount");
    return item(`l${at}`, net, 1, group(line));
  });
  const [allowance, ...more] = example.adjustments.filter(({ charge, amount }) => !charge && Number(amount) !== 0);
  expect(more).toEqual([]);
  const charges = example.adjustments.filter(({ charge, amount }) => charge && Number(amount) !== 0);
  if (charges.length > 0) used.add("charge");
  const input: EstimateInput = {
    ...{
      schema: 1,
      asOf: "2026-11-28",
      currency: example.currency,
      unit: { maker: "Threnwick", model: "Cadence 3", grade: "sound" },
    },
    items: [...lines, ...charges.map((charge, at) => item(`c${at}`, units(charge.amount).toNumber(), 1, group(charge)))],
    rateBook: {
      ...{ ...PLAIN, currency: example.currency },
      tax: {
        ...PLAIN.tax,
        categories: [
          ...example.taxGroups.map((one) => ({ id: group(one), name: group(one), percent: Number(one.percent) })),
          ...PLAIN.tax.categories,
        ],
      },
    },
    policy: {
      ...(allowance && {
        discount: { amount: units(allowance.amount).toNumber(), reason: "as printed", taxCategory: group(allowance) },
      }),
      prepaid: units(example.totals.prepaid).toNumber(),
    },
  };
  return { input, used: [...used].sort() };
}

it("are all 28", () => {
  expect(published.examples).toHaveLength(28);
});

it.each(published.examples)("$file comes to its printed totals and taxes", async (example) => {
  const { input, used } = said(example);
  const response = await opened.send("POST", "/api/estimate", input);
  const answer = (await response.json()) as { sheet: { totals: Record<string, unknown> }; errors?: unknown };
  expect(response.status, JSON.stringify(answer.errors)).toBe(200);
  const minor = (amount: string) => new Decimal(amount).times(new Decimal(10).pow(decimalsOf(example.currency)!)).toNumber();
  const { withoutTax, tax, total, due } = example.totals;
  expect(answer.sheet.totals).toMatchObject({
    ...{ withoutTax: minor(withoutTax), tax: minor(tax), total: minor(total), due: minor(due) },
    taxGroups: example.taxGroups.map((one) => ({ category: group(one), base: minor(one.base), tax: minor(one.tax) })),
  });
  expect(
    used.map((way) => HOW[way]),
    example.file,
  ).toEqual((OTHERWISE[example.file] ?? []).map((way) => HOW[way]));
});

it("refuses a tax category that the rate book does not have, on a line and on a discount", async () => {
  const { input } = said(published.examples[0]!);
  const { own, ...rest } = input.items[0]!;
  const wrong: EstimateInput = {
    ...input,
    items: [{ ...rest, own: { ...own!, taxCategory: "X 7" } }, ...input.items.slice(1)],
    policy: { discount: { amount: 100, reason: "loyal", taxCategory: "X 8" } },
  };
  const response = await opened.send("POST", "/api/estimate", wrong);
  expect([response.status, await response.json()]).toMatchObject([
    422,
    {
      errors: [
        { name: "tax category unknown", pointer: "/items/0/own/taxCategory" },
        { name: "tax category unknown", pointer: "/policy/discount/taxCategory" },
      ],
    },
  ]);
});
