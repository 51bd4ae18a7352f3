/** Tax categories from 0 to 100 %, and a known one for each sort of line. */
import type { TaxRules } from "../input.js";
import type { Problem } from "../problems.js";
import { count, percent } from "./figures.js";
import { repeated, unknown } from "./ids.js";
import { pointer } from "./pointer.js";

/** Digits kept beyond the minor unit: more than any rule asks. */
const MOST_DIGITS = 6;

export function checkTax(tax: TaxRules): Problem[] {
  const to = (...tokens: (string | number)[]) => pointer("rateBook", "tax", ...tokens);
  const categories = new Set(tax.categories.map(({ id }) => id));
  const { extraDigits } = tax.rounding;
  return [
    ...tax.categories.flatMap(({ name, percent: value }, at) =>
      percent(value, `Tax category '${name}'`, to("categories", at, "percent")),
    ),
    ...repeated(
      tax.categories,
      ({ id }) => id,
      "tax category",
      (at) => to("categories", at, "id"),
    ),
    ...(["labour", "parts", "freight", "fees"] as const).flatMap((sort) =>
      unknown("tax category unknown", tax[sort], categories, `Tax on ${sort}`, to(sort)),
    ),
    ...(extraDigits === undefined
      ? []
      : count(extraDigits, "Tax rounding, digits kept", to("rounding", "extraDigits"), MOST_DIGITS)),
  ];
}
