/** Tax categories from 0 to 100 %, and a known one for each sort of line. */
import type { TaxRules } from "../input.js";
import type { Problem } from "../problems.js";
import { count, ifGiven, percent } from "./figures.js";
import { repeated, unknown } from "./ids.js";
import { spot } from "./spot.js";

/** Digits kept beyond the minor unit: more than any rule asks. */
const MOST_DIGITS = 6;

export function checkTax(tax: TaxRules): Problem[] {
  const to = (words: () => string, ...tokens: (string | number)[]) => spot(words, "rateBook", "tax", ...tokens);
  const categories = new Set(tax.categories.map(({ id }) => id));
  return [
    ...tax.categories.flatMap(({ name, percent: value }, at) =>
      percent(
        value,
        to(() => `Tax category '${name}'`, "categories", at, "percent"),
      ),
    ),
    ...repeated(
      tax.categories,
      ({ id }) => id,
      "tax category",
      (at) => to(() => "", "categories", at, "id"),
    ),
    ...(["labour", "parts", "freight", "fees"] as const).flatMap((sort) =>
      unknown(
        "tax category unknown",
        tax[sort],
        categories,
        to(() => `Tax on ${sort}`, sort),
      ),
    ),
    ...ifGiven(tax.rounding.extraDigits, (value) =>
      count(
        value,
        to(() => "Tax rounding, digits kept", "rounding", "extraDigits"),
        MOST_DIGITS,
      ),
    ),
  ];
}
