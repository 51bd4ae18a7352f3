import type { TaxRounding } from "../estimating/input.js";
import { english } from "./english/index.js";
import type { Spoken } from "./tongue.js";

/** The rounding rule as printed under a tax table. */
export function taxRoundingText(rounding: TaxRounding, { words = english }: Spoken = {}): string {
  const { level, mode, moreDigits } = words.taxRounding;
  const { extraDigits = 0 } = rounding;
  const digits = rounding.level === "line" && extraDigits > 0 ? moreDigits(extraDigits) : "";
  return `${level[rounding.level]}${digits}; ${mode[rounding.mode]}.`;
}
