/** Text and figures as XML 1.0 and UBL want them. */
import type { CurrencyCode, Minor } from "../../estimating/input.js";
import { decimalsOf } from "../../estimating/money/currency.js";

export type Node = { [name: string]: unknown };

/** XML 1.0 section 2.2 has no place for other characters, not even escaped. */
const NOT_A_CHARACTER = /[^\t\n\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu;

/** Every text of a tree with a replacement mark where a character cannot stand. */
export function cleaned(node: unknown): unknown {
  if (typeof node === "string") return node.replaceAll(/\r\n?/g, "\n").replaceAll(NOT_A_CHARACTER, "\ufffd");
  if (Array.isArray(node)) return node.map(cleaned);
  if (node === null || typeof node !== "object") return node;
  return Object.fromEntries(Object.entries(node).map(([name, inner]) => [name, cleaned(inner)]));
}

const E4_DIGITS = 4;

export class Amounts {
  readonly #currency: CurrencyCode;
  readonly #decimals: number;

  constructor(currency: CurrencyCode) {
    this.#currency = currency;
    this.#decimals = decimalsOf(currency) ?? 2;
  }

  /** Minor units, with all the decimals the currency has. */
  of(value: Minor): Node {
    return this.#node(decimal(value, this.#decimals));
  }

  /** Ten-thousandths of a minor unit, without noughts beyond the currency's decimals. */
  ofE4(value: number): Node {
    const digits = decimal(value, this.#decimals + E4_DIGITS);
    const spare = /0{1,4}$/.exec(digits)?.[0].length ?? 0;
    return this.#node(digits.slice(0, digits.length - spare).replace(/\.$/, ""));
  }

  #node(text: string): Node {
    return { "@currencyID": this.#currency, "#text": text };
  }
}

/** A whole number of the given scale as a plain decimal. */
function decimal(value: number, decimals: number): string {
  const digits = String(Math.abs(value)).padStart(decimals + 1, "0");
  const text = decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
  return value < 0 ? `-${text}` : text;
}
