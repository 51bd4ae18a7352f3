import type { Minor } from "../estimating/input.js";
import { decimalsOf } from "../estimating/money/currency.js";
import { decimal, decimalString } from "./number.js";
import type { Tongue } from "./tongue.js";

/** Used only for a code the currency table does not know; the engine refuses those. */
const USUAL_DECIMALS = 2;
/** Ten-thousandths. */
const E4_DIGITS = 4;

/** Minor units as money. The scale comes from ISO 4217, not from Intl. */
export const money = (amount: Minor, { locale, currency }: Tongue): string => {
  const decimals = decimalsOf(currency) ?? USUAL_DECIMALS;
  return asMoney(decimalString(amount, decimals), locale, currency, decimals, decimals);
};

/** Ten-thousandths of a minor unit as money: as many decimals as the currency has, up to four more where they are not nought. */
export const unitPrice = (e4: number, { locale, currency }: Tongue): string => {
  const decimals = decimalsOf(currency) ?? USUAL_DECIMALS;
  return asMoney(decimalString(e4, decimals + E4_DIGITS), locale, currency, decimals, decimals + E4_DIGITS);
};

function asMoney(digits: string, locale: string, currency: string, fewest: number, most: number): string {
  if (!/^[A-Z]{3}$/.test(currency)) return `${digits} ${currency}`;
  return decimal(digits, locale, {
    style: "currency",
    currency,
    minimumFractionDigits: fewest,
    maximumFractionDigits: most,
  });
}
