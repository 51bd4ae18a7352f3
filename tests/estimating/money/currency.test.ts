/**
 * Independent table: ISO 4217 list one, published 2024-06-25, as carried by npm currency-codes 2.2.0 (MIT): its own XML copy for the
 * minor units (its data turns 'N.A.' into 0), its data for the list of codes.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import currencies from "currency-codes";
import { describe, expect, it } from "vitest";
import { currencyCodes, decimalsOf } from "../../../src/estimating/money/currency.js";

const require = createRequire(import.meta.url);
const listOne = readFileSync(require.resolve("currency-codes/iso-4217-list-one.xml"), "utf8");
const units = new Map(
  [...listOne.matchAll(/<CcyNtry>([\s\S]*?)<\/CcyNtry>/g)].flatMap(([, entry]) => {
    const code = entry?.match(/<Ccy>(\w{3})<\/Ccy>/)?.[1];
    return code ? [[code, entry?.match(/<CcyMnrUnts>([^<]+)</)?.[1]] as const] : [];
  }),
);

describe("the decimals of a currency", () => {
  it("come from the list this test reads", () => {
    expect(listOne).toContain('Pblshd="2024-06-25"');
    expect(units.size).toBe(179);
    expect([...units.keys()].sort()).toEqual(currencies.codes().sort());
  });

  it.each([...units])("of %s are %s", (code, unit) => {
    expect(decimalsOf(code)).toBe(unit === "N.A." ? undefined : Number(unit));
  });

  it("are of currencies to choose from where the list names no fund, test or metal", () => {
    const funds = new Set(
      [...listOne.matchAll(/<CcyNm IsFund="true">[^<]*<\/CcyNm>\s*<Ccy>(\w{3})<\/Ccy>/gi)].map(([, code]) => code!),
    );
    expect(funds.size).toBeGreaterThan(5);
    // Unidad Previsional: an index of wages, which the list does not mark.
    funds.add("UYW");
    const billed = [...units].flatMap(([code, unit]) => (unit === "N.A." || funds.has(code) ? [] : [code]));
    expect(currencyCodes()).toEqual(billed.sort());
  });

  it.each(["XAU", "XDR", "XTS", "XXX", "ZZZ", "eur", "", "EURO", "constructor", "__proto__"])("are unknown for '%s'", (code) => {
    expect(decimalsOf(code)).toBeUndefined();
  });

  // Measured with Node 20: Intl shows these without the decimals that ISO 4217 gives them.
  it.each(["AFN", "ALL", "COP", "HUF", "IDR", "IQD", "LAK", "PKR", "YER"])(
    "of %s are not what Intl says in some runtimes",
    (code) => {
      expect(decimalsOf(code)).toBe(code === "IQD" ? 3 : 2);
    },
  );
});
