/** Parts at the price of their offers with mark-up, scarcity margin and freight. `sheet` says only where each part is got. */
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import type { Cell, Table } from "./flatOds.js";
import { column, lookUp, sumWhere } from "./formulas.js";
import { decimals } from "./rateTables.js";
import { neededOf } from "./workTables.js";

export function partTables(input: EstimateInput, sheet: Sheet): Table[] {
  const digits = decimals(input);
  const keys = [...new Set(sheet.parts.map(({ kind, type }) => kind ?? type))];
  const sources = [...new Set((input.offers ?? []).map(({ source }) => source))];
  return [
    {
      name: "Parts",
      heads: ["line", "kind or type", "pieces", "offer", "class", "each", "charged", "mark-up", "price each", "cost", "amount"],
      rows: parts(input, sheet, digits),
    },
    {
      name: "Needs",
      heads: ["kind or type", "lacking"],
      rows: keys.map((key, index) => [
        key,
        { formula: `${neededOf(`[.A${index + 2}]`)}-${sumWhere("Parts", "B", `[.A${index + 2}]`, "C")}` },
      ]),
    },
    {
      name: "Margins",
      heads: ["line", "kind or type", "class", "amount"],
      rows: keys.map((key, index) => [
        `scarcity:${key}`,
        key,
        sheet.parts.find(({ kind, type }) => (kind ?? type) === key)!.scarcity,
        {
          formula: `ROUND(${sumWhere("Parts", "B", `[.B${index + 2}]`, "J")}*${lookUp(`[.C${index + 2}]`, "Scarcity", 2)}/100;${digits})`,
        },
      ]),
    },
    {
      name: "Freight",
      heads: ["charge", "source", "amount"],
      rows: sources.map((source, index) => [
        `freight:${source}`,
        source,
        {
          formula: `COM.MICROSOFT.MAXIFS(${column("Offers", "G")};${column("Offers", "C")};[.B${index + 2}];${column("Offers", "J")};">0")`,
        },
      ]),
    },
  ];
}

function parts(input: EstimateInput, sheet: Sheet, digits: number): Cell[][] {
  const seen = new Map<string, number>();
  const lastBand = input.rateBook.parts.markUp.length + 1;
  const typicalCost = new Map(input.rateBook.partTypes.map(({ id, typicalCost: cost }) => [id, cost / 10 ** digits]));
  return sheet.parts.map(({ kind, type, needed, offer, scarcity }, index) => {
    const key = kind ?? type;
    const nth = (seen.get(key) ?? 0) + 1;
    seen.set(key, nth);
    const at = (letter: string) => `[.${letter}${index + 2}]`;
    const ofOffer = (place: number) => lookUp(at("D"), "Offers", place);
    const cheapest = `COM.MICROSOFT.MINIFS(${column("Offers", "I")};${column("Offers", "B")};${at("B")})`;
    const each = kind && input.offers?.some((one) => one.kind === kind) ? cheapest : `${typicalCost.get(type)}`;
    const packs = `MAX(ROUNDUP(${at("C")}/${ofOffer(5)};0);${ofOffer(6)})*${ofOffer(5)}`;
    const band = `SUMPRODUCT(([$MarkUp.$A$2:.$A$${lastBand}]<ROUND(${at("F")};9))*1)+1`;
    return [
      nth === 1 ? `part:${key}` : `part:${key}/${nth}`,
      key,
      needed,
      offer ?? "",
      scarcity,
      { formula: offer ? ofOffer(9) : each },
      { formula: offer ? `IF(${lookUp(at("E"), "Scarcity", 3)}=1;${packs};${at("C")})` : at("C") },
      { formula: `INDEX([$MarkUp.$B$2:.$B$${lastBand}];${band})` },
      { formula: `ROUND(${at("F")}*(1+${at("H")}/100);${digits + 4})` },
      { formula: `ROUND(${at("G")}*${at("F")};${digits})` },
      { formula: `ROUND(${at("G")}*${at("I")};${digits})` },
    ];
  });
}
