/** What is out of bounds for a pricing by risk: a named problem, or the limit that it plainly comes to. Each problem has its fixture in fixtures/problems. */
import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer, PartKind } from "../../../src/estimating/input.js";
import { item, job, problemsOf } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { allowances, asked, fixed, netOf, priced, sum } from "./asked.js";

const RARE: PartKind = { id: "rare", type: "dip-40", name: "Rare divider" };
const OFFER: Offer = {
  id: "o",
  kind: "rare",
  source: "Pindrake",
  on: "2026-11-20",
  currency: "EUR",
  price: 1000,
  packSize: 1,
  leadDays: 7,
  state: "used",
  shareGood: 0.7,
};
const rare = (offers: readonly Offer[], given: Partial<EstimateInput> = {}): EstimateInput =>
  job({ items: [item("w", { operation: "replace", part: { kind: "rare" } })], kinds: [RARE], offers, ...given });
const rated = (given: Partial<typeof PLAIN>) => rare([OFFER], { rateBook: { ...PLAIN, ...given } });
const wide = { low: 5, likely: 4, high: 20 };

describe("a pricing by risk refuses", () => {
  it.each<[string, EstimateInput, string, string]>([
    [
      "a low time above the likely one",
      rated({ operations: PLAIN.operations.map((each, at) => (at === 0 ? { ...each, unit: wide } : each)) }),
      "times out of order",
      "/rateBook/operations/0/unit",
    ],
    [
      "a probability above 1",
      rare([OFFER], { items: [item("w", { certainty: { is: "if found", probability: 1.2 } })] }),
      "probability out of range",
      "/items/0/certainty/probability",
    ],
    [
      "a probability below 0",
      rare([OFFER], { items: [item("w", { certainty: { is: "if found", probability: -0.1 } })] }),
      "probability out of range",
      "/items/0/certainty/probability",
    ],
    ["an offer of which none is good", rare([{ ...OFFER, shareGood: 0 }]), "share good out of range", "/offers/0/shareGood"],
    [
      "half a piece seen good",
      rare([{ ...OFFER, seenGood: { good: 0.5, bad: 0 } }]),
      "count fractional",
      "/offers/0/seenGood/good",
    ],
    [
      "certainty of having enough",
      rated({ scarcity: { ...PLAIN.scarcity, serviceLevel: 1 } }),
      "service level out of range",
      "/rateBook/scarcity/serviceLevel",
    ],
    ["an offer in another currency", rare([{ ...OFFER, currency: "USD" }]), "currency differs", "/offers/0/currency"],
    ["a confidence of 100 %", priced(rare([OFFER]), fixed(100)), "percent out of range", "/policy/pricing/confidencePercent"],
    ["a confidence of 0 %", priced(rare([OFFER]), fixed(0)), "percent out of range", "/policy/pricing/confidencePercent"],
  ])("%s", (_, input, name, pointer) => expect(problemsOf(input)).toMatchObject([{ name, pointer }]));
});

describe("at its limits a pricing by risk", () => {
  const even = (cvPercent: number) => ({ ...PLAIN, grades: PLAIN.grades.map((each) => ({ ...each, spreadPercent: cvPercent })) });
  const six = { low: 6, likely: 6, high: 6 };
  const certain = { operations: PLAIN.operations.map((each) => ({ ...each, setup: six, unit: six })) };

  it("of units all alike and certain times has one cost, asks for it, and allows for nothing", () => {
    const items = [item("w", { operation: "clean" })];
    const sheet = asked(job({ items, rateBook: { ...even(0), ...certain } }), fixed(95));
    const { p10, p95, expected, sd, pricing, tried, contributions, completion } = sheet.risk;
    expect([p10, p95, expected, sd, contributions]).toEqual([netOf(sheet), netOf(sheet), netOf(sheet), 0, []]);
    expect([pricing.price, tried.chanceOfLoss, tried.expectedLoss]).toEqual([pricing.deterministic, 0, 0]);
    expect(completion.p80).toEqual(completion.p50);
    expect(allowances(sheet)).toEqual([]);
  });

  it("comes near that as units differ less and less", () => {
    const spread = [10, 1, 0.1, 0].map((cv) => asked(job({ items: [item("w")], rateBook: { ...even(cv), ...certain } })).risk);
    const widths = spread.map(({ p10, p95 }) => p95 - p10);
    expect(widths).toEqual([...widths].sort((a, b) => b - a));
    expect(widths.at(-1)).toBe(0);
    expect(widths.at(-2)).toBeLessThan(5);
  });

  it("of a part nobody offers keeps the rate book's margin, and says that an offer is missing", () => {
    const sheet = asked(rare([]), fixed(80));
    expect(sheet.lines.map(({ id }) => id)).toContain("scarcity:rare");
    expect(sheet.risk.buyPlans).toMatchObject([{ buys: [], reached: false, probability: 0, raisers: [{ is: "an offer" }] }]);
    expect(sum(allowances(sheet).map(({ amount }) => amount))).toBe(sheet.risk.pricing.price - sheet.risk.pricing.deterministic);
  });

  it("of a fault of probability 0 is the price without it, and of probability 1 no less than the price with it", () => {
    const found = (probability: number) =>
      asked(rare([OFFER], { items: [item("w"), item("f", { certainty: { is: "if found", probability } })] }), fixed(80));
    const [never, always] = [found(0), found(1)];
    const [without, within] = [
      asked(job({ items: [item("w")] }), fixed(80)),
      asked(job({ items: [item("w"), item("f")] }), fixed(80)),
    ];
    expect(netOf(never)).toBe(netOf(without));
    expect(Math.abs(netOf(always) - netOf(within))).toBeLessThanOrEqual(1);
  });
});
