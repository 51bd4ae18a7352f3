/** The margin of a scarce part by its own offers, in a price as counted. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, Offer } from "../../../src/estimating/input.js";

const base = JSON.parse(readFileSync(new URL("../../../fixtures/cases/base.json", import.meta.url), "utf8")) as EstimateInput;
const offer = (changed: Partial<Offer> = {}): Offer => ({
  ...{ id: "o1", kind: "chip", source: "Dovemire Spares", on: "2026-11-01", currency: "GBP", price: 900, packSize: 1 },
  ...{ leadDays: 5, state: "used", shareGood: 0.15 },
  ...changed,
});
const input = (marginFrom: "percent" | "offers" | undefined, offers: readonly Offer[], certainty = "planned"): EstimateInput => ({
  ...base,
  items: [
    {
      ...{ id: "w1", operation: "replace", count: 3, part: { kind: "chip" } },
      certainty: certainty === "planned" ? { is: "planned" } : { is: "if found", probability: 0.5 },
    },
  ],
  kinds: [{ id: "chip", type: "ic-40", name: "Voice chip" }],
  offers,
  rateBook: { ...base.rateBook, scarcity: { ...base.rateBook.scarcity, ...(marginFrom && { marginFrom }), serviceLevel: 0.9 } },
});
function sheetOf(from: EstimateInput) {
  const outcome = estimate(from, { risk: true });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
}

describe("a scarce part's margin", () => {
  // P(X >= 3), X ~ Bin(34, 0.15) = 0.9025, and 33 pieces give 0.8919 (binomial, by hand): 34 x 9.00 = 306.00 at once.
  it("is what its buy plan is expected to spend beyond the catalogue cost, in the price as counted too", () => {
    const { lines, risk } = sheetOf(input("offers", [offer()]));
    const [plan] = risk!.buyPlans;
    expect(plan).toMatchObject({ needed: 3, spend: 30600, buys: [{ pieces: 34 }] });
    const line = lines.find(({ id }) => id === "scarcity:chip")!;
    expect(line.amount).toBe(plan!.expectedSpend - 3 * 900);
    expect(line.amount).toBeGreaterThanOrEqual(30600 - 2700);
    expect(line.why).toMatchObject({ rule: "buy plan", needed: 3, pieces: 34, catalogue: 2700 });
  });

  it("is within the price of possible work, which is the price charged once it is found", () => {
    const possible = sheetOf(input("offers", [offer()], "if found"));
    const planned = sheetOf(input("offers", [offer()]));
    expect(possible.totals.total + possible.ifFound[0]!.price).toBe(planned.totals.total);
  });

  it("is the rate book's percentage where nobody offers the part, and in a book made before", () => {
    const percent = (from: Parameters<typeof input>[0], offers: readonly Offer[]) =>
      sheetOf(input(from, offers)).lines.find(({ sort }) => sort === "scarcity margin")?.why;
    expect(percent(undefined, [offer()])).toMatchObject({ rule: "scarcity" });
    expect(percent("percent", [offer()])).toMatchObject({ rule: "scarcity" });
    expect(percent("offers", [])).toEqual(percent(undefined, []));
  });

  it("is nothing where every piece is good and the price is the price", () => {
    const { lines } = sheetOf(input("offers", [offer({ state: "new", shareGood: 1 })]));
    expect(lines.some(({ sort }) => sort === "scarcity margin")).toBe(false);
    const kinds = [{ id: "chip", type: "ic-40", name: "Voice chip", scarcity: "scarce" as const }];
    const hard = sheetOf({ ...input("offers", [offer({ state: "new", shareGood: 1 })]), kinds });
    expect(hard.risk!.buyPlans.map(({ spend, expectedSpend }) => [spend, expectedSpend])).toEqual([[2700, 2700]]);
    expect(hard.lines.some(({ sort }) => sort === "scarcity margin")).toBe(false);
  });
});
