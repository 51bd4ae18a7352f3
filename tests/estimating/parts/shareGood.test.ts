/** The beta-binomial by hand: with Beta(a, b), P(all of n bad) = b (b + 1) ... (b + n - 1) / ((a + b) (a + b + 1) ... (a + b + n - 1)). */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Offer } from "../../../src/estimating/input.js";
import { buyPlan } from "../../../src/estimating/parts/buyPlan.js";
import { bookShare, goodMasses, meanShare, shareGoodOf } from "../../../src/estimating/parts/shareGood.js";
import { runs } from "../../setup/runs.js";
import { allMixes } from "./buyPlanByForce.js";
import { bookWith, offer } from "./demoShop.js";

const RULES = bookWith().scarcity;
const used = (given: Partial<Offer> = {}) => offer("u", { state: "used", ...given });

describe("the share of an offer that is good", () => {
  it("is known where nothing was counted: the offer's own, or the rate book's for its state", () => {
    expect(shareGoodOf(used({ shareGood: 0.8 }), RULES)).toBe(0.8);
    expect(shareGoodOf(used(), RULES)).toBe(RULES.shareGood.used);
    expect(shareGoodOf(offer("n", { state: "new" }), RULES)).toBe(1);
  });

  it("is a belief once pieces were counted: 0.8 stands for five pieces, four good and one bad", () => {
    expect(shareGoodOf(used({ shareGood: 0.8, seenGood: { good: 3, bad: 2 } }), RULES)).toEqual({
      good: expect.closeTo(7, 12),
      bad: expect.closeTo(3, 12),
    });
  });

  it("starts from the rate book where the offer states none, and stays certain of new parts until one is bad", () => {
    const book = bookShare("used", RULES);
    expect(meanShare(shareGoodOf(used({ seenGood: { good: 5, bad: 0 } }), RULES))).toBeCloseTo((5 * book + 5) / 10, 12);
    const fresh = offer("n", { state: "new", seenGood: { good: 50, bad: 0 } });
    expect(meanShare(shareGoodOf(fresh, RULES))).toBe(1);
    expect(meanShare(shareGoodOf({ ...fresh, seenGood: { good: 44, bad: 1 } }, RULES))).toBeCloseTo(49 / 50, 12);
  });

  it("forgets what was believed when much was counted", () => {
    const many = shareGoodOf(used({ shareGood: 0.9, seenGood: { good: 3000, bad: 7000 } }), RULES);
    expect(meanShare(many)).toBeCloseTo(0.3, 3);
  });
});

describe("a plan by what was seen", () => {
  const planned = (given: Partial<Offer>, serviceLevel: number, needed = 1) => {
    const one = used({ packSize: 1, price: 1000, available: 9, shareGood: 0.8, ...given });
    return buyPlan({ needed, serviceLevel, offers: [{ ...one, shareGood: shareGoodOf(one, RULES) }] });
  };

  it("buys three to have one good with 0.9 from Beta(7, 3): 1 - 3/10 4/11 = 0.891 is not enough, 1 - 3/10 4/11 5/12 = 0.9545 is", () => {
    const plan = planned({ seenGood: { good: 3, bad: 2 } }, 0.9);
    expect(plan.buys).toMatchObject([{ pieces: 3 }]);
    expect(plan.probability).toBeCloseTo(1 - (3 * 4 * 5) / (10 * 11 * 12), 12);
    // The same mean share, known for sure, would do with two: 1 - 0.3^2 = 0.91.
    expect(planned({ shareGood: 0.7 }, 0.9).buys).toMatchObject([{ pieces: 2 }]);
  });

  it("comes near the plan of a known share as more is counted", () => {
    const known = planned({}, 0.95, 4);
    const counted = planned({ seenGood: { good: 80_000, bad: 20_000 } }, 0.95, 4);
    expect(counted.buys).toMatchObject(known.buys);
    expect(counted.probability).toBeCloseTo(known.probability, 4);
  });

  it("is the cheapest of all mixes that reach the level, each offer with what was seen of it", () => {
    const seen = fc.record({ good: fc.nat(6), bad: fc.nat(6) });
    const anOffer = fc.record({ price: fc.integer({ min: 100, max: 2000 }), available: fc.integer({ min: 1, max: 5 }), seen });
    const asked = fc.record({
      needed: fc.integer({ min: 1, max: 3 }),
      serviceLevel: fc.constantFrom(0.5, 0.8, 0.9, 0.95),
      offers: fc.array(anOffer, { minLength: 1, maxLength: 3 }),
    });
    fc.assert(
      fc.property(asked, ({ needed, serviceLevel, offers }) => {
        const all = offers.map(({ price, available, seen: seenGood }, at) => {
          const one = offer(`o${at}`, { source: `s${at}`, state: "used", packSize: 1, price, available, seenGood });
          return { ...one, shareGood: shareGoodOf(one, RULES) };
        });
        const plan = buyPlan({ needed, serviceLevel, offers: all });
        const enough = allMixes({ needed, serviceLevel, offers: all }).filter(({ chance }) => chance >= serviceLevel - 1e-10);
        expect(plan.reached).toBe(enough.length > 0);
        if (plan.reached) expect(plan.spend).toBe(Math.min(...enough.map(({ spend }) => spend)));
      }),
      runs(100),
    );
  });
});

it("of pieces none of which was ever seen good none is, and of pieces none of which was bad each", () => {
  for (const many of [0.5, 1, 5]) {
    expect([...goodMasses(3, { good: 0, bad: many }, 2)]).toEqual([1, 0, 0]);
    expect([...goodMasses(3, { good: many, bad: 0 }, 2)]).toEqual([0, 0, 1]);
  }
  // In lots of two: five pieces of which each is good hold two lots, and one piece over.
  expect([...goodMasses(5, 1, 3, 2)]).toEqual([0, 0, 1, 0]);
});
