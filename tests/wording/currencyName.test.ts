/**
 * Which currency is paid where, held against ISO 4217 list one (published 2024-06-25, as carried by npm currency-codes 2.2.0) by the names
 * of its entities: those that the platform calls the same.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { currencyCodes } from "../../src/estimating/money/currency.js";
import { currencyName, currencyOf } from "../../src/wording/currencyName.js";

const listOne = readFileSync(createRequire(import.meta.url).resolve("currency-codes/iso-4217-list-one.xml"), "utf8");
const plain = (name: string) => name.toLowerCase().replaceAll(/\(the\)|[^a-z]/g, "");
const paidIn = new Map<string, Set<string>>();
for (const [, entry = ""] of listOne.matchAll(/<CcyNtry>([\s\S]*?)<\/CcyNtry>/g)) {
  const [entity, code] = [/<CtryNm>([^<]+)</.exec(entry)?.[1], /<Ccy>(\w{3})</.exec(entry)?.[1]];
  if (!entity || !code) continue;
  const codes = paidIn.get(plain(entity)) ?? new Set();
  paidIn.set(plain(entity), codes.add(code));
}
const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ".split("");
const names = new Intl.DisplayNames("en", { type: "region" });
const regions = LETTERS.flatMap((first) => LETTERS.map((second) => first + second)).flatMap((region) => {
  const codes = paidIn.get(plain(names.of(region) ?? ""));
  return codes ? [[region, codes] as const] : [];
});

/** From memory: in the euro since 2026-01-01, after this list. */
const SINCE: Readonly<Record<string, string>> = { BG: "EUR" };

describe("the currency of a region", () => {
  it("is one that ISO 4217 lists for it", () => {
    expect(regions.length).toBeGreaterThan(150);
    const wrong = regions.filter(([region, codes]) => {
      const ours = currencyOf(`und-${region}`);
      return ours !== undefined && ours !== SINCE[region] && !codes.has(ours);
    });
    expect(wrong.map(([region]) => region)).toEqual([]);
    expect(regions.filter(([region]) => currencyOf(`und-${region}`) === undefined).map(([region]) => region)).toEqual([]);
  });

  it("can be chosen", () => {
    for (const [region] of regions) expect(currencyCodes(), region).toContain(currencyOf(`und-${region}`));
  });

  it.each([
    ["en-GB", "GBP"],
    ["de", "EUR"],
    ["de-CH", "CHF"],
    ["ja", "JPY"],
    ["en", "USD"],
    ["not a tag", undefined],
  ])("of %s is %s", (tag, code) => {
    expect(currencyOf(tag)).toBe(code);
  });
});

it("a currency is called by code and name", () => {
  expect([currencyName("EUR"), currencyName("CZK")]).toEqual(["EUR, Euro", "CZK, Czech Koruna"]);
});
