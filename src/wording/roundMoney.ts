import type { Minor } from "../estimating/input.js";
import { decimalsOf } from "../estimating/money/currency.js";
import { money } from "./money.js";
import { decimal } from "./number.js";
import type { Tongue } from "./tongue.js";

/** Money along an axis: no decimals where they are all nought. */
export function roundMoney(amount: Minor, tongue: Tongue): string {
  const { locale, currency } = tongue;
  const scale = 10 ** (decimalsOf(currency) ?? 0);
  if (amount % scale !== 0 || !/^[A-Z]{3}$/.test(currency)) return money(amount, tongue);
  return decimal(String(amount / scale), locale, { style: "currency", currency, maximumFractionDigits: 0 });
}
