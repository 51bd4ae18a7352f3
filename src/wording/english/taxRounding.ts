import type { TaxRounding } from "../../estimating/input.js";

const level: Readonly<Record<TaxRounding["level"], string>> = {
  line: "Tax is worked out and rounded for each line",
  group: "Tax is worked out and rounded once for each tax category",
  document: "Tax is worked out exactly and rounded once for the whole document",
};
const mode: Readonly<Record<TaxRounding["mode"], string>> = {
  "half up": "halves are rounded away from zero",
  "half down": "halves are rounded towards zero",
  down: "fractions are dropped",
};

export const taxRounding = {
  ...{ level, mode },
  moreDigits: (count: number) => ` to ${count} more ${count === 1 ? "digit" : "digits"} than the currency has`,
};
