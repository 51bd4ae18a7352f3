/**
 * A demo estimate rebuilt as a spreadsheet, as a shop without this tool would do it, and worked out by LibreOffice: independent
 * arithmetic from fastener counts, leads, offers and percentages to the amount due. The sheet lends it only choices: what comes off
 * and where each part is got.
 */
import { describe, expect, it } from "vitest";
import demo from "../../fixtures/demo/string-organ-keyboard.json";
import { estimate } from "../../src/estimating/estimate.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import { partTables } from "./workbook/partTables.js";
import { decimals, rateTables } from "./workbook/rateTables.js";
import { recalculate } from "./workbook/recalculate.js";
import { totalTables } from "./workbook/totalTables.js";
import { workTables } from "./workbook/workTables.js";

const written = demo as unknown as EstimateInput;
/** A sheet of cells weighs no buy plans: margins are the book's percentages here, and by offers in tests/estimating/pricing. */
const asWritten: EstimateInput = {
  ...written,
  rateBook: { ...written.rateBook, scarcity: { ...written.rateBook.scarcity, marginFrom: "percent" } },
};

/** Everything that may be found is found, every option taken; a worse unit, two tax rates, and every kind of fee, charge and allowance. */
const inFull: EstimateInput = {
  ...asWritten,
  unit: { ...asWritten.unit, grade: "poor" },
  items: asWritten.items.map((item) => ({ ...item, certainty: { is: "planned" } })),
  rateBook: {
    ...asWritten.rateBook,
    parts: { ...asWritten.rateBook.parts, sundries: { percentOfParts: 4, percentOfLabour: 2.5 } },
    tax: {
      ...asWritten.rateBook.tax,
      categories: [...asWritten.rateBook.tax.categories, { id: "reduced", name: "Sales tax 5.5 %", percent: 5.5 }],
      parts: "reduced",
      freight: "reduced",
    },
  },
  policy: {
    ...asWritten.policy,
    discount: { percent: 7.5, reason: "third unit this year" },
    rush: true,
    storageDays: 11,
    prepaid: 12_345,
  },
};

const LINES = ["Access", "Labour", "Pulls", "Billing", "Least", "Parts", "Margins", "Fees"];

describe.each([
  ["as written", asWritten],
  ["in full, with discount, rush, storage, prepayment and two tax rates", inFull],
])("the string organ keyboard %s, as a LibreOffice workbook", (_, input) => {
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  const { sheet } = outcome;
  const tables = [...rateTables(input), ...workTables(input, sheet), ...partTables(input, sheet), ...totalTables(input)];
  const cells = recalculate(tables);

  const minor = (text: string | undefined) => Math.round(Number(text) * 10 ** decimals(input));
  /** First column and the one headed 'amount', in minor units. */
  const amounts = (name: string): [string, number][] => {
    const place = tables.find((table) => table.name === name)!.heads.indexOf("amount");
    return cells.get(name)!.map((row) => [row[0]!, minor(row[place])]);
  };
  const byId = (pairs: readonly (readonly [string, number])[]) =>
    [...pairs].filter(([, amount]) => amount !== 0).sort(([a], [b]) => (a < b ? -1 : 1));

  it("has every line, to the cent", () => {
    expect(byId(LINES.flatMap(amounts))).toEqual(byId(sheet.lines.map(({ id, amount }) => [id, amount] as const)));
  });

  it("has every allowance and charge, to the cent", () => {
    const sum = (sort: string) => sheet.adjustments.reduce((so, one) => so + (one.sort === sort ? one.amount : 0), 0);
    const totals = new Map(amounts("Totals"));
    for (const sort of ["discount", "sundries", "freight", "rush"]) expect(totals.get(sort), sort).toBe(sum(sort));
    const freight = sheet.adjustments.filter(({ sort }) => sort === "freight").map(({ id, amount }) => [id, amount] as const);
    expect(byId(amounts("Freight"))).toEqual(byId(freight));
  });

  it("has every total, to the cent", () => {
    const totals = new Map(amounts("Totals"));
    const { linesNet, allowances, charges, withoutTax, tax, total, prepaid, due } = sheet.totals;
    const printed = { linesNet, allowances, charges, withoutTax, tax, total, prepaid, due };
    expect(Object.fromEntries(Object.keys(printed).map((name) => [name, totals.get(name)]))).toEqual(printed);
  });

  it("has every tax group, to the cent", () => {
    const groups = cells.get("Tax")!.map((row) => ({ category: row[0], base: minor(row[4]), tax: minor(row[5]) }));
    expect(groups).toEqual(sheet.totals.taxGroups.map(({ category, base, tax }) => ({ category, base, tax })));
  });

  it("needs as many pieces as the sheet gets", () => {
    expect(cells.get("Needs")!.filter(([, lacking]) => Number(lacking) !== 0)).toEqual([]);
  });
});
