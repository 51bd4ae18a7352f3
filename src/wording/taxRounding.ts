import type { TaxRounding } from "../estimating/input.js";

const LEVEL: Readonly<Record<TaxRounding["level"], string>> = {
  line: "Tax is worked out and rounded for each line",
  group: "Tax is worked out and rounded once for each tax category",
  document: "Tax is worked out exactly and rounded once for the whole document",
};
const MODE: Readonly<Record<TaxRounding["mode"], string>> = {
  "half up": "halves are rounded away from zero",
  "half down": "halves are rounded towards zero",
  down: "fractions are dropped",
};

/** The rounding rule as printed under a tax table. */
export function taxRoundingText({ level, mode, extraDigits = 0 }: TaxRounding): string {
  const digits =
    level === "line" && extraDigits > 0
      ? ` to ${extraDigits} more ${extraDigits === 1 ? "digit" : "digits"} than the currency has`
      : "";
  return `${LEVEL[level]}${digits}; ${MODE[mode]}.`;
}
