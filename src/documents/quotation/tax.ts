/** One tax subtotal per rate, as EN 16931 wants (BR-S-08), whatever categories the rate book keeps apart. */
import type { TaxGroup, Totals } from "../../estimating/sheet.js";
import type { Amounts, Node } from "./xmlText.js";

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
