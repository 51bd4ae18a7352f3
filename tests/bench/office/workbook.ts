/** An estimate of 60 works as a shop would keep it in a spreadsheet: rates, times and offers on sheets of their own, the estimate on the one that prints (demo). */
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet, Totals } from "../../../src/estimating/sheet.js";
import { lineTitle } from "../../../src/wording/line.js";
import { type Cell, flatOds, type Table } from "../../paper/workbook/flatOds.js";
import { lookUp, named } from "../../paper/workbook/formulas.js";
import { partTables } from "../../paper/workbook/partTables.js";
import { decimals, rateTables } from "../../paper/workbook/rateTables.js";
import { totalTables } from "../../paper/workbook/totalTables.js";
import { workTables } from "../../paper/workbook/workTables.js";
import { ofSize } from "../demoJob.js";

/** A sheet of cells weighs no buy plans: its margins are the book's percentages, and ours are held to the same. */
export function sixtyWorks(): EstimateInput {
  const grown = ofSize(60);
  return { ...grown, rateBook: { ...grown.rateBook, scarcity: { ...grown.rateBook.scarcity, marginFrom: "percent" } } };
}

export function pricedWithRisk(input: EstimateInput): Sheet {
  const outcome = estimate(input, { risk: true });
  if (!outcome.ok) throw new Error("The estimate of the bench does not price.");
  return outcome.sheet;
}

/** In the order of the workbook's totals, in minor units. */
export const TOTALS = ["linesNet", "allowances", "charges", "withoutTax", "tax", "total", "prepaid", "due"] as const;
export type CameTo = Readonly<Record<(typeof TOTALS)[number], number>>;

export const cameTo = (totals: Totals): CameTo =>
  Object.fromEntries(TOTALS.map((name) => [name, totals[name]])) as Record<(typeof TOTALS)[number], number>;

export function workbook(input: EstimateInput, sheet: Sheet): Table[] {
  const kept = [...rateTables(input), ...workTables(input, sheet), ...partTables(input, sheet), ...totalTables(input)];
  return [...kept.map((table) => ({ ...table, printed: false })), paper(sheet, kept)];
}

export const workbookFile = (input: EstimateInput, sheet: Sheet): string => flatOds(workbook(input, sheet));

/** What the owner gets: a row for each line, its amount where it was worked out, and the totals. */
function paper({ lines }: Sheet, tables: readonly Table[]): Table {
  const amountOf = (id: string): Cell => {
    const table = tables.find(({ rows }) => rows.some(([first]) => first === id))!;
    return { formula: lookUp(`"${id}"`, table.name, table.heads.indexOf("amount") + 1) };
  };
  return {
    name: "Estimate",
    heads: ["work", "place", "count", "amount"],
    rows: [
      ...lines.map((line) => [lineTitle(line), line.assembly?.name ?? "", line.count ?? "", amountOf(line.id)]),
      ...TOTALS.map((name) => [name, "", "", { formula: named(name, "Totals") }]),
    ],
  };
}

/** What the workbook's own sheet of totals shows, as text, back to minor units. */
export function totalsOf(rows: readonly (readonly string[])[], input: EstimateInput): CameTo {
  const shown = new Map(rows.map(([name, amount]) => [name, Math.round(Number(amount) * 10 ** decimals(input))]));
  return Object.fromEntries(TOTALS.map((name) => [name, shown.get(name)])) as Record<(typeof TOTALS)[number], number>;
}
