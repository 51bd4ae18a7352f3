/** Fees, then the totals in the order of EN 16931. Knows prices without tax, rounded per tax group, in at most two tax categories. */
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Cell, Table } from "./flatOds.js";
import { lookUp, named, sumWhere, total } from "./formulas.js";
import { decimals, money } from "./rateTables.js";
import { labourTotal } from "./workTables.js";

const CLASSES = ["labour", "parts", "fees"] as const;

export function totalTables(input: EstimateInput): Table[] {
  const { rateBook, policy = {} } = input;
  const { included, rounding } = rateBook.tax;
  if (included || rounding.level !== "group" || rounding.mode !== "half up")
    throw new Error("The workbook rounds per group only.");
  const digits = decimals(input);
  const rounded = (formula: string): Cell => ({ formula: `ROUND(${formula};${digits})` });
  const fee = money(rateBook.fees.diagnosis.amount, input);
  const given = named("discount", "Totals");
  const categories = [...new Set([rateBook.tax.labour, rateBook.tax.parts, rateBook.tax.fees, rateBook.tax.freight])];
  if (categories.length > 2) throw new Error("The workbook spreads a discount over two tax categories at most.");
  return [
    {
      name: "Fees",
      heads: ["line", "amount"],
      rows: [
        ["fee:diagnosis", policy.diagnosis ? fee : 0],
        ["fee:diagnosis credited", policy.diagnosis && rateBook.fees.diagnosis.creditedOnAgreement ? -fee : 0],
        ["fee:storage", { formula: `${policy.storageDays ?? 0}*${money(rateBook.fees.storagePerDay, input)}` }],
      ],
    },
    {
      name: "Sums",
      heads: ["class", "amount", "tax category"],
      rows: CLASSES.map((name) => [
        name,
        {
          formula: { labour: labourTotal, parts: `${total("Parts", "K")}+${total("Margins", "D")}`, fees: total("Fees", "B") }[
            name
          ],
        },
        { formula: named(`${name} tax`) },
      ]),
    },
    {
      name: "Totals",
      heads: ["figure", "amount"],
      rows: [
        ["linesNet", { formula: total("Sums", "B") }],
        ["discount", rounded(`MIN(MAX(0;[.B2]);[.B2]*${named("discount percent")}/100+${named("discount amount")})`)],
        [
          "sundries",
          {
            formula: `MIN(${named("sundries cap")};ROUND((${total("Parts", "K")}*${named("sundries of parts")}+${named("labour", "Sums")}*${named("sundries of labour")})/100;${digits}))`,
          },
        ],
        ["freight", { formula: total("Freight", "C") }],
        ["rush", rounded(`${named("labour", "Sums")}*${named("rush percent")}/100`)],
        ["allowances", { formula: "[.B3]" }],
        ["charges", { formula: "[.B4]+[.B5]+[.B6]" }],
        ["withoutTax", { formula: "[.B2]-[.B7]+[.B8]" }],
        ["tax", { formula: total("Tax", "F") }],
        ["total", { formula: "[.B9]+[.B10]" }],
        ["prepaid", { formula: named("prepaid") }],
        ["due", { formula: "[.B11]-[.B12]" }],
      ],
    },
    {
      name: "Tax",
      heads: ["category", "percent", "lines", "discount", "base", "tax"],
      rows: categories.map((category, index) => {
        const at = (letter: string) => `[.${letter}${index + 2}]`;
        const falls = (tax: string, amount: string) => `IF(${named(`${tax} tax`)}=${at("A")};${named(amount, "Totals")};0)`;
        const first = `ROUND(${given}*MAX(0;[.C2])/(MAX(0;[.C2])+MAX(0;[.C3]));${digits})`;
        return [
          category,
          { formula: lookUp(at("A"), "TaxRates", 2) },
          { formula: sumWhere("Sums", "C", at("A"), "B") },
          { formula: index === 0 ? `IF(${given}=0;0;${first})` : `${given}-[.D2]` },
          {
            formula: `${at("C")}-${at("D")}+${falls("parts", "sundries")}+${falls("freight", "freight")}+${falls("labour", "rush")}`,
          },
          rounded(`${at("E")}*${at("B")}/100`),
        ];
      }),
    },
  ];
}
