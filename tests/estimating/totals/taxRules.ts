import type { TaxCategory, TaxRounding, TaxRules } from "../../../src/estimating/input.js";

/** Tax rules over the given categories; the first serves every class. */
export function taxRules(
  categories: readonly (Pick<TaxCategory, "id" | "percent"> & Partial<TaxCategory>)[],
  rounding: TaxRounding = { level: "group", mode: "half up" },
  included = false,
): TaxRules {
  const id = categories[0]?.id ?? "none";
  return {
    included,
    categories: categories.map((category) => ({ name: `Tax ${category.percent} %`, ...category })),
    labour: id,
    parts: id,
    freight: id,
    fees: id,
    rounding,
  };
}
