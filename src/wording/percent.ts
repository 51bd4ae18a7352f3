import type { Percent } from "../estimating/input.js";
import { decimal, decimalString } from "./number.js";

const SCALE = 4;

/** Percent to four decimals, without trailing noughts. */
export const percent = (value: Percent, locale: string): string =>
  decimal(decimalString(Math.round(value * 10 ** SCALE), SCALE + 2), locale, {
    style: "percent",
    maximumFractionDigits: SCALE,
  });

/** A probability or share, 0 to 1, to a tenth of a percent. */
export const chance = (share: number, locale: string): string =>
  decimal(decimalString(Math.round(share * 1000), 3), locale, { style: "percent", maximumFractionDigits: 1 });
