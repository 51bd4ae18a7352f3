import { describe, expect, it } from "vitest";
import type { EstimateInput, Offer, PartKind } from "../../../src/estimating/input.js";
import { item, job } from "../cast/organ.js";
import { allowances, asked, fixed, KEYBOARD } from "./asked.js";

const offer = (id: string, given: Partial<Offer> = {}): Offer => ({
  id,
  kind: "rare",
  source: `source of ${id}`,
  on: "2026-11-20",
  currency: "EUR",
  price: 1000,
  packSize: 1,
  leadDays: 7,
  state: "used",
  shareGood: 0.7,
  ...given,
});
const RARE: PartKind = { id: "rare", type: "dip-40", name: "Rare divider" };

const rare = (count: number, offers: readonly Offer[], given: Partial<EstimateInput> = {}) =>
  job({ items: [item("w", { operation: "replace", part: { kind: "rare" }, count })], kinds: [RARE], offers, ...given });

describe("a part that may turn out bad", () => {
  it("is bought so that enough are good: the demo's divider, to be had from donor units only", () => {
    const { risk } = asked(KEYBOARD);
    const plan = risk.buyPlans.find(({ part, group }) => part.kind === "divider-7" && group === undefined)!;
    expect(plan).toMatchObject({ needed: 1, reached: true, serviceLevel: 0.9 });
    expect(plan.probability).toBeGreaterThanOrEqual(0.9 - 1e-12);
    const chosen = new Set(plan.buys.map((buy) => buy.offer));
    const shares = KEYBOARD.offers!.filter(({ id }) => chosen.has(id)).map(
      ({ shareGood, state }) => shareGood ?? KEYBOARD.rateBook.scarcity.shareGood[state],
    );
    const pieces = plan.buys.map((buy) => buy.pieces);
    const allBad = shares.reduce((chance, share, at) => chance * (1 - share) ** pieces[at]!, 1);
    expect(plan.probability).toBeCloseTo(1 - allBad, 12);
  });

  it("is planned in pieces: two of share 0.7 hold one good with 0.91, which one alone does not", () => {
    const [plan] = asked(rare(1, [offer("a")])).risk.buyPlans;
    expect(plan).toMatchObject({ needed: 1, spend: 2000, reached: true, buys: [{ offer: "a", pieces: 2, spend: 2000 }] });
    expect(plan!.probability).toBeCloseTo(0.91, 12);
  });

  it("buys more where few were seen: 0.8 by word and 3 of 5 by test leave a belief that takes three pieces for 0.9", () => {
    const [plan] = asked(rare(1, [offer("a", { shareGood: 0.8, seenGood: { good: 3, bad: 2 } })])).risk.buyPlans;
    expect(plan).toMatchObject({ needed: 1, spend: 3000, reached: true, buys: [{ offer: "a", pieces: 3 }] });
    // Beta(4 + 3, 1 + 2): 1 - 3/10 4/11 5/12.
    expect(plan!.probability).toBeCloseTo(0.954545, 6);
  });

  it("replaces its scarcity margin by the sourcing allowance, and keeps it where nobody offers the part", () => {
    const margins = (input: EstimateInput) =>
      asked(input, fixed(80))
        .lines.filter(({ sort }) => sort === "scarcity margin")
        .map(({ id }) => id);
    const offered = rare(1, [offer("a")]);
    expect(asked(offered).lines.some(({ id }) => id === "scarcity:rare")).toBe(true);
    expect(margins(offered)).toEqual([]);
    expect(allowances(asked(offered, fixed(80))).some(({ id }) => id === "allowance:sourcing")).toBe(true);

    const alone = rare(1, []);
    expect(margins(alone)).toEqual(["scarcity:rare"]);
    expect(allowances(asked(alone, fixed(80))).some(({ id }) => id === "allowance:sourcing")).toBe(false);
    expect(asked(alone).risk.buyPlans).toMatchObject([{ buys: [], reached: false, raisers: [{ is: "an offer" }] }]);
  });

  it("says what can be reached, and what would raise it, when all that is offered is not enough", () => {
    const [plan] = asked(rare(1, [offer("a", { available: 1 })])).risk.buyPlans;
    expect(plan).toMatchObject({ reached: false, probability: 0.7 });
    expect(plan!.raisers).toEqual([
      { is: "more of an offer", offer: "a", source: "source of a", state: "used", pieces: 1 },
      { is: "pieces surely good", pieces: 1 },
      { is: "a lower service level", level: 0.7 },
    ]);
  });

  it("pays freight once for two kinds from one source", () => {
    const other: PartKind = { ...RARE, id: "other", name: "Other divider" };
    const from = { source: "Pindrake", freight: 500, shareGood: 1 };
    const one = { operation: "replace", count: 1 };
    const input = job({
      items: [item("v", { ...one, part: { kind: "rare" } }), item("w", { ...one, part: { kind: "other" } })],
      kinds: [RARE, other],
      offers: [offer("a", from), offer("b", { ...from, kind: "other" })],
    });
    const { risk, adjustments } = asked(input);
    expect(adjustments.map(({ id, amount }) => [id, amount])).toEqual([["freight:Pindrake", 500]]);
    expect(risk.buyPlans.map(({ spend, freight }) => [spend, freight])).toEqual([
      [1000, 0],
      [1000, 0],
    ]);
  });

  it("costs the minutes to pull every piece, good or bad", () => {
    const [plan] = asked(rare(1, [offer("a", { state: "donor pull", shareGood: 0.6, pullMinutes: 3 })])).risk.buyPlans;
    // 1 - 0.4^2 = 0.84 falls short and 1 - 0.4^3 = 0.936 does not: three pieces of 10.00 and 3 minutes at 1.00.
    expect(plan).toMatchObject({ buys: [{ pieces: 3 }], spend: 3900 });
  });

  it("needs none where it is on the shelf, or new and to be had", () => {
    expect(asked(rare(1, [offer("a")], { kinds: [{ ...RARE, stock: 1 }] })).risk.buyPlans).toEqual([]);
    const fresh = [offer("a", { state: "new", shareGood: 1 }), offer("b", { state: "new", shareGood: 1 })];
    expect(asked(rare(1, fresh)).risk.buyPlans).toEqual([]);
  });

  it("is planned where only donor units have it, be every piece good", () => {
    const sure = { state: "donor pull", shareGood: 1 } as const;
    expect(asked(rare(1, [offer("a", sure)])).risk.buyPlans).toMatchObject([{ spend: 1000, reached: true, probability: 1 }]);
    // New from three sources it is neither scarce nor may it be bad.
    const fresh = ["a", "b", "c"].map((id) => offer(id, { state: "new", shareGood: 1 }));
    expect(asked(rare(1, fresh)).risk.buyPlans).toEqual([]);
  });

  it("that only a fault needs and the shelf has is planned for nobody", () => {
    const found = item("f", { operation: "replace", part: { kind: "rare" }, certainty: { is: "if found", probability: 0.2 } });
    expect(asked(job({ items: [found], kinds: [{ ...RARE, stock: 1 }], offers: [offer("a")] })).risk.buyPlans).toEqual([]);
  });

  it("that only a fault needs is bought from what the planned work leaves", () => {
    const found = item("f", { operation: "replace", part: { kind: "rare" }, certainty: { is: "if found", probability: 0.2 } });
    const planned = rare(1, [offer("a", { available: 3 })]);
    const plans = asked({ ...planned, items: [...planned.items, found] }).risk.buyPlans;
    expect(plans.map(({ group, buys, reached }) => [group, buys[0]?.pieces, reached])).toEqual([
      [undefined, 2, true],
      ["f", 1, false],
    ]);
  });

  it("makes the job late as often as a reorder is needed", () => {
    const sure = asked(rare(1, [offer("a", { shareGood: 1 })])).risk.completion;
    const half = asked(rare(1, [offer("a", { shareGood: 0.7, available: 1 })])).risk.completion;
    expect(half.p50.days).toBe(sure.p50.days);
    expect(half.p80.days).toBe(sure.p80.days + 7);
    expect(sure.p50.on).toBe("2026-12-03");
  });
});
