/** Money of another currency at a rate written as a decimal: exact in whole numbers until the one rounding, half away from zero. */
import type { CurrencyCode, Minor } from "../input.js";
import { decimalsOf } from "./currency.js";
import { divide } from "./rounding.js";

const DECIMAL = /^(\d{1,12})(?:\.(\d{1,12}))?$/;

/** A rate as a fraction of whole numbers; undefined unless it is a plain decimal above 0, of at most twelve digits on either side of the point. */
export function readRate(rate: string): { readonly units: bigint; readonly per: bigint } | undefined {
  const [, whole, decimals = ""] = DECIMAL.exec(rate) ?? [];
  if (whole === undefined) return undefined;
  const units = BigInt(whole + decimals);
  return units > 0n ? { units, per: 10n ** BigInt(decimals.length) } : undefined;
}

/** Minor units of `to` for those of `from`; `rate`: units of `to` for one of `from`. Throws when rate or currency was not checked: our own fault. */
export function exchanged(amount: Minor, from: CurrencyCode, to: CurrencyCode, rate: string): Minor {
  const [read, scale, wanted] = [readRate(rate), decimalsOf(from), decimalsOf(to)];
  if (!read || scale === undefined || wanted === undefined) throw new Error(`'${rate}' of ${from} was not checked.`);
  return divide(BigInt(amount) * read.units * 10n ** BigInt(wanted), read.per * 10n ** BigInt(scale));
}
