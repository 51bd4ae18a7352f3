/** The lines of a quotation, each with the options and the possible work that stand beside it. A credit is a negative quantity (BR-27). */
import type { EstimateInput, Minor } from "../../estimating/input.js";
import type { GroupPrice, Line, Sheet, TaxGroup, Totals } from "../../estimating/sheet.js";
import type { NetAmounts } from "../../estimating/totals/netAmounts.js";
import { chance } from "../../wording/figures.js";
import { lineTitle } from "../../wording/line.js";
import type { Tongue } from "../../wording/tongue.js";
import type { Amounts, Node } from "./xmlText.js";

type QuotationTongue = Tongue & Required<Pick<Tongue, "words">>;

/** UN/ECE Recommendation 20, from memory: C62 is one piece. */
const pieces = (count: number): Node => ({ "@unitCode": "C62", "#text": count });

export function lineNodes(
  sheet: Sheet,
  input: EstimateInput,
  nets: NetAmounts,
  amounts: Amounts,
  tongue: QuotationTongue,
): Node[] {
  const beside = placed(sheet, input);
  const alternatives = (at: number) => (beside.get(at) ?? []).map((group) => alternative(group, amounts, tongue));
  const lines = nets.lines.map(({ line, net }, at) =>
    lineNode(at, lineItem(line, net, sheet, amounts, tongue), alternatives(at)),
  );
  if (lines.length > 0) return lines;
  const nothing = { "cac:Item": { "cbc:Name": tongue.words.quotation.noWork } };
  return [lineNode(0, { "cbc:Quantity": pieces(0), "cbc:LineExtensionAmount": amounts.of(0), ...nothing }, alternatives(0))];
}

const lineNode = (at: number, item: Node, alternatives: readonly Node[]): Node => ({
  "cbc:ID": at + 1,
  "cac:LineItem": { "cbc:ID": at + 1, ...item },
  "cac:AlternativeLineItem": alternatives,
});

function lineItem(line: Line, net: Minor, { totals }: Sheet, amounts: Amounts, tongue: QuotationTongue): Node {
  const { count = 1, unitPriceE4, assembly, sort } = line;
  const category = totals.taxGroups.find((group) => group.category === line.taxCategory);
  // Where prices include tax the unit price does too, so the line's net stands for all its pieces.
  const byPiece = unitPriceE4 !== undefined && !totals.pricesIncludeTax;
  return {
    "cbc:Quantity": pieces(net < 0 ? -count : count),
    "cbc:LineExtensionAmount": amounts.of(net),
    "cac:Price": byPiece
      ? { "cbc:PriceAmount": amounts.ofE4(Math.abs(unitPriceE4)) }
      : { "cbc:PriceAmount": amounts.of(Math.abs(net)), ...(count !== 1 && { "cbc:BaseQuantity": pieces(count) }) },
    "cac:Item": {
      ...(assembly && sort !== "access" && { "cbc:Description": assembly.name }),
      "cbc:Name": lineTitle(line, tongue),
      ...(category && { "cac:ClassifiedTaxCategory": taxCategory(category) }),
    },
  };
}

type Alternative = { readonly is: "option" | "if found"; readonly group: GroupPrice };

/** By place of the line: the first of its assembly, or the first of all. Options that are chosen are lines already. */
function placed({ lines, options, ifFound }: Sheet, { items }: EstimateInput): Map<number, Alternative[]> {
  const assemblyOf = new Map(items.map((item) => [item.id, item.assembly]));
  const all: Alternative[] = [
    ...options.filter(({ chosen }) => !chosen).map((group) => ({ is: "option", group }) as const),
    ...ifFound.map((group) => ({ is: "if found", group }) as const),
  ];
  const places = new Map<number, Alternative[]>();
  for (const one of all) {
    const assembly = assemblyOf.get(one.group.items[0] ?? "");
    const found = assembly === undefined ? -1 : lines.findIndex((line) => line.assembly?.id === assembly);
    const at = Math.max(0, found);
    places.set(at, [...(places.get(at) ?? []), one]);
  }
  return places;
}

function alternative({ is, group }: Alternative, amounts: Amounts, { locale, words }: QuotationTongue): Node {
  const { id, names, reason, probability, price, net, covered } = group;
  const texts = words.quotation;
  const likely = probability === undefined ? "" : texts.chance(chance(probability, locale));
  const text = is === "option" ? texts.optional : `${texts.ifFound(covered === true)}${likely}`;
  const note = { "@languageID": words.tag, "#text": text };
  return {
    "cbc:ID": `${is}: ${id}`,
    "cbc:Note": reason ? [note, reason] : note,
    "cbc:Quantity": pieces(net < 0 ? -1 : 1),
    "cbc:LineExtensionAmount": amounts.of(net),
    "cbc:TotalTaxAmount": amounts.of(price - net),
    "cac:Price": { "cbc:PriceAmount": amounts.of(Math.abs(net)) },
    "cac:Item": { "cbc:Name": names.join("; ") },
  };
}

/** One tax subtotal per rate, as EN 16931 wants (BR-S-08), whatever categories the rate book keeps apart. */
/** Which tax it is, as far as its name tells. UN/ECE 5153, from memory: VAT, GST, OTH for other taxes. */
export function taxScheme(name: string): Node {
  return { "cbc:ID": /\b(VAT|GST)\b/.exec(name)?.[1] ?? "OTH" };
}

/** S: standard rate; E: exempt, since nothing says why the rate is nought (UNCL 5305). */
export function taxCategory({ name, percent }: Pick<TaxGroup, "name" | "percent">): Node {
  return { "cbc:ID": percent === 0 ? "E" : "S", "cbc:Percent": percent, "cac:TaxScheme": taxScheme(name) };
}

export function taxTotal({ tax, taxGroups }: Totals, amounts: Amounts): Node {
  const rates = new Map<string, TaxGroup>();
  for (const group of taxGroups) {
    const key = JSON.stringify(taxCategory(group));
    const so = rates.get(key);
    rates.set(
      key,
      so ? { ...so, name: `${so.name}; ${group.name}`, base: so.base + group.base, tax: so.tax + group.tax } : group,
    );
  }
  return {
    "cbc:TaxAmount": amounts.of(tax),
    "cac:TaxSubtotal": [...rates.values()].map((rate) => {
      const { "cac:TaxScheme": scheme, ...category } = taxCategory(rate);
      return {
        "cbc:TaxableAmount": amounts.of(rate.base),
        "cbc:TaxAmount": amounts.of(rate.tax),
        "cac:TaxCategory": {
          ...category,
          // BR-E-10: exempt says why; BR-S-10: standard does not.
          ...(rate.percent === 0 && { "cbc:TaxExemptionReason": rate.name }),
          "cac:TaxScheme": scheme,
        },
      };
    }),
  };
}
