/**
 * Minor units of ISO 4217 list one, published 2024-06-25 (SIX, maintenance agency). Codes whose minor unit is 'N.A.'
 * (XAU, XDR, XTS, XXX ...) are left out: nobody is billed in them. Not from Intl, which differs for some currencies.
 */
import type { CurrencyCode } from "../input.js";

const PUBLISHED: readonly (readonly [decimals: number, codes: string])[] = [
  [0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"],
  [
    2,
    `AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD
     CAD CDF CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD
     HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR
     MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP
     SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD YER ZAR ZMW ZWG`,
  ],
  [3, "BHD IQD JOD KWD LYD OMR TND"],
  [4, "CLF UYW"],
];

const DECIMALS: ReadonlyMap<CurrencyCode, number> = new Map(
  PUBLISHED.flatMap(([decimals, codes]) => codes.split(/\s+/).map((code) => [code, decimals] as const)),
);

/** Digits after the decimal point of a currency; undefined when the code is unknown or has no minor unit. */
export const decimalsOf = (code: CurrencyCode): number | undefined => DECIMALS.get(code);

/** Units of account of funds, in the list's own words; nobody is billed in them either, but they have minor units. */
const FUNDS = new Set("BOV CHE CHW CLF COU MXV USN UYI UYW".split(" "));

/** Every currency that someone can be billed in, in alphabetical order. */
export const currencyCodes = (): CurrencyCode[] => [...DECIMALS.keys()].filter((code) => !FUNDS.has(code)).sort();
