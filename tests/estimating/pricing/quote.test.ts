import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { agreedLimit } from "../../../src/estimating/agreement/limit.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, Pricing, ThreePoint } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { runs } from "../../setup/runs.js";
import { anyInput } from "../cast/anyInput.js";
import { item, job, on, problemsOf } from "../cast/organ.js";
import { about, TAXED } from "../cast/plainBook.js";
import { allowances, asked, DEMO, fixed, KEYBOARD, netOf, plus, priced, sum, underCeiling } from "./asked.js";

const confidence = fc.integer({ min: 500, max: 999 }).map((tenths) => tenths / 10);

describe("a price by risk", () => {
  it("is what is counted and its allowances, to the minor unit", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...DEMO),
        fc.oneof(confidence.map(fixed), fc.integer({ min: 0, max: 200 }).map(plus)),
        (input, by) => {
          const sheet = asked(input, by);
          const { deterministic, price } = sheet.risk.pricing;
          expect(sum(allowances(sheet).map(({ amount }) => amount))).toBe(price - deterministic);
          expect(netOf(sheet)).toBe(price);
        },
      ),
      runs(25),
    );
  });

  it("leaves out the scarcity margin only where a buy plan takes its place", () => {
    for (const input of DEMO) {
      const counted = asked(input);
      const planned = new Set(counted.risk.buyPlans.filter(({ buys }) => buys.length > 0).map(({ part }) => part.kind));
      const margins = counted.lines.filter(({ sort, part }) => sort === "scarcity margin" && planned.has(part?.kind));
      expect(counted.risk.pricing.deterministic).toBe(netOf(counted) - sum(margins.map(({ amount }) => amount)));
    }
  });

  it("is never lower at a higher confidence", () => {
    for (const input of DEMO) {
      const totals = [50, 60, 75, 80, 90, 95, 99, 99.9].map((percent) => asked(input, fixed(percent)).totals.total);
      expect(totals).toEqual([...totals].sort((a, b) => a - b));
    }
  });

  it("loses money as often as the confidence says, no more", () => {
    for (const percent of [50, 80, 95]) {
      const { chanceOfLoss } = asked(KEYBOARD, fixed(percent)).risk.tried;
      expect(chanceOfLoss).toBeLessThanOrEqual(1 - percent / 100 + 1e-6);
      expect(chanceOfLoss).toBeGreaterThan(1 - percent / 100 - 0.001);
    }
  });

  it("of a certain job is what is counted, without an allowance", () => {
    for (const input of DEMO.map(certain)) {
      const counted = asked(input);
      for (const by of [fixed(95), underCeiling(95), plus(0)]) {
        const sheet = asked(input, by);
        expect(allowances(sheet)).toEqual([]);
        expect(sheet.totals).toEqual(counted.totals);
        expect([sheet.risk.p10, sheet.risk.p95]).toEqual([netOf(counted), netOf(counted)]);
      }
    }
  });

  it("of a certain job names a margin as what it is: nothing of it is set against risk", () => {
    for (const input of DEMO.map(certain)) {
      const sheet = asked(input, plus(25));
      const { price, deterministic } = sheet.risk.pricing;
      expect(price).toBe(Math.ceil(1.25 * deterministic - 1e-6));
      expect(allowances(sheet).map(({ id, amount }) => [id, amount])).toEqual([["allowance:margin", price - deterministic]]);
      const guarded = asked(input, { is: "fixed price", confidencePercent: 80, minimumMarginPercent: 20 });
      expect(allowances(guarded)).toEqual(allowances(sheet));
    }
  });

  it("keeps the margin apart from the risk: the least margin changes no allowance but its own", () => {
    for (const input of DEMO) {
      const [plain, guarded] = [fixed(50), { ...fixed(50), minimumMarginPercent: 40 }].map((by) => asked(input, by));
      const risk = (sheet: Sheet) => allowances(sheet).filter(({ id }) => id !== "allowance:margin");
      expect(risk(guarded!)).toEqual(risk(plain!));
      expect(guarded!.lines.find(({ id }) => id === "allowance:margin")!.amount).toBe(
        guarded!.risk.pricing.price - plain!.risk.pricing.price,
      );
    }
  });

  it("never reckons discount, sundries or rush on an allowance, and taxes it as what it is for", () => {
    const input: EstimateInput = {
      ...KEYBOARD,
      policy: { ...KEYBOARD.policy, rush: true, discount: { percent: 10, reason: "demo" } },
    };
    const [low, high] = [asked(input, fixed(60)), asked(input, fixed(99))];
    expect(high.adjustments).toEqual(low.adjustments);
    const { tax } = input.rateBook;
    expect(allowances(high).map(({ id, taxCategory }) => [id, taxCategory])).toEqual([
      ["allowance:labour", tax.labour],
      ["allowance:sourcing", tax.parts],
      ["allowance:if found", tax.labour],
    ]);
  });

  it("leaves the least margin asked for over the expected cost", () => {
    const sheet = asked(KEYBOARD, { is: "fixed price", confidencePercent: 50, minimumMarginPercent: 40 });
    expect(sheet.risk.pricing.raisedTo).toBe("minimum margin");
    expect(Math.abs(netOf(sheet) * 0.6 - sheet.risk.expected)).toBeLessThanOrEqual(1);
  });

  it("is held to the owner's own ceiling, without tax, or to a total above it: that loss is reckoned, not one of a ceiling that does not hold", () => {
    const owners = (ceiling?: number, by = underCeiling(90)) =>
      asked({ ...KEYBOARD, policy: { ...KEYBOARD.policy, ...(ceiling !== undefined && { ceiling }) } }, by);
    const shops = owners();
    const { total } = shops.totals;
    const [lower, under, own] = [owners(total + 3000), owners(1000), owners(shops.ceiling.amount)].map(({ risk }) => risk);
    // All of the fixture is taxed at one rate, so that what is taken out of the ceiling is exact: tax percentages of the rate book, demo.
    expect(shops.totals.taxGroups.filter(({ base }) => base !== 0)).toHaveLength(1);
    const { percent } = shops.totals.taxGroups.find(({ base }) => base !== 0)!;
    expect(lower!.tried.price).toBe(Math.round((total + 3000) / (1 + percent / 100)));
    expect(lower!.tried.chanceOfLoss).toBeGreaterThan(shops.risk.tried.chanceOfLoss);
    expect(under!.tried.price).toBe(under!.pricing.price);
    expect(Math.abs(own!.tried.price - shops.risk.tried.price)).toBeLessThanOrEqual(1);
    expect([lower!, under!, own!].map(({ pricing }) => pricing.ceiling)).toEqual(Array(3).fill(shops.risk.pricing.ceiling));
    const guarded = { ...underCeiling(50), minimumMarginPercent: 40 };
    expect(owners(undefined, guarded).risk.pricing.raisedTo).toBe("minimum margin");
    expect(owners(1000, guarded).risk.pricing).not.toHaveProperty("raisedTo");
  });

  it("holds for any estimate: sums, no ceiling under the total, whole amounts", () => {
    const by = fc.oneof(confidence.map(fixed), confidence.map(underCeiling), fc.nat(100).map(plus));
    fc.assert(
      fc.property(anyInput, by, (given, pricing) => {
        const { ceiling: _, ...policy } = given.policy ?? {};
        const outcome = estimate(priced({ ...given, policy }, pricing), { risk: true });
        if (!outcome.ok) return;
        const { lines, totals, risk, ceiling, ifFound } = outcome.sheet;
        const used = risk!.pricing;
        expect(sum(lines.map(({ amount }) => amount))).toBe(totals.linesNet);
        expect(netOf(outcome.sheet)).toBe(used.price);
        expect(sum(allowances(outcome.sheet).map(({ amount }) => amount))).toBe(used.price - used.deterministic);
        expect(used.price).toBeGreaterThanOrEqual(used.deterministic);
        expect(ceiling.amount).toBeGreaterThanOrEqual(totals.total);
        expect([risk!.p10, risk!.p50, risk!.p80, risk!.p95].every(Number.isSafeInteger)).toBe(true);
        if (pricing.is !== "time and parts with ceiling")
          expect(ifFound.every(({ price, covered }) => price === 0 && covered)).toBe(true);
        const points = risk!.curve.map(({ amount }) => amount);
        expect(points).toEqual([...new Set(points)].sort((a, b) => a - b));
        expect(JSON.parse(JSON.stringify(outcome.sheet))).toEqual(outcome.sheet);
      }),
      runs(40),
    );
  });
});

describe("as counted", () => {
  it("is what an estimate is without a pricing, and risk is there only when asked for", () => {
    for (const input of DEMO) {
      const plain = estimate(input);
      expect(estimate(priced(input, { is: "as counted" }))).toEqual(plain);
      expect(plain.ok && "risk" in plain.sheet).toBe(false);
      const { risk: _, ...rest } = asked(input);
      expect({ ok: true, sheet: rest }).toEqual(plain);
    }
  });
});

describe("time and parts under a ceiling", () => {
  it("charges what is counted and stops at the fixed price of that confidence, tax included", () => {
    for (const input of DEMO) {
      const [open, closed] = [asked(input, underCeiling(80)), asked(input, fixed(80))];
      expect(allowances(open)).toEqual([]);
      expect(netOf(open)).toBe(open.risk.pricing.deterministic);
      expect(open.ceiling).toEqual({
        amount: closed.totals.total,
        net: closed.totals.withoutTax,
        from: { is: "rule", rule: "ceiling for what may turn up" },
      });
      expect(open.risk.tried.price).toBe(closed.risk.pricing.price);
    }
  });

  it("gives way to the ceiling that the owner set, and to the agreement profile", () => {
    const with_ = (policy: EstimateInput["policy"]) =>
      asked({ ...KEYBOARD, policy: { ...KEYBOARD.policy, ...policy } }, underCeiling(95));
    expect(with_({ ceiling: 100_000 }).ceiling).toEqual({ amount: 100_000, from: { is: "rule", rule: "ceiling set by owner" } });
    const capped = with_({ profile: "us-md-pg" });
    expect(capped.ceiling.from).toEqual({ is: "rule", rule: "ceiling by agreement profile" });
    expect(capped.ceiling.amount).toBeLessThan(with_({}).ceiling.amount);
  });

  it("bounds the work by the ceiling as printed, with tax or without", () => {
    const sheet = asked(KEYBOARD, underCeiling(80));
    expect(agreedLimit(priced(KEYBOARD, underCeiling(80)))).toEqual({
      agreed: sheet.totals.total,
      upTo: sheet.ceiling.amount,
      withTax: true,
      by: "ceiling",
    });
  });
});

describe("a fixed price", () => {
  it("covers what may be found: it is not charged again, nor does it raise what may be billed", () => {
    const sheet = asked(KEYBOARD, fixed(80));
    expect(sheet.ifFound.map(({ price, net, covered }) => [price, net, covered])).toEqual(sheet.ifFound.map(() => [0, 0, true]));
    expect(asked(KEYBOARD).ifFound.every(({ price, covered }) => price > 0 && covered === undefined)).toBe(true);
    const input = priced(KEYBOARD, fixed(80));
    const limit = agreedLimit(input, [sheet.ifFound[1]!.id]);
    expect(limit).toEqual({ agreed: sheet.totals.total, upTo: sheet.totals.total, withTax: true, by: "ceiling" });
    expect(sheet.ceiling).toEqual({
      amount: sheet.totals.total,
      net: sheet.totals.withoutTax,
      from: { is: "rule", rule: "price is fixed" },
    });
  });

  it("prices an option at what choosing it adds to the fixed price", () => {
    const sheet = asked(KEYBOARD, fixed(80));
    for (const option of sheet.options) {
      const ids = new Set(option.items);
      const items = KEYBOARD.items.map((each) =>
        ids.has(each.id) && each.certainty.is === "optional"
          ? { ...each, certainty: { ...each.certainty, chosen: !option.chosen } }
          : each,
      );
      const other = asked({ ...KEYBOARD, items }, fixed(80)).totals.total - sheet.totals.total;
      expect(option.price).toBe(option.chosen ? -other : other);
    }
  });

  it("says in one plain sentence what each allowance is for", () => {
    const sheet = asked(KEYBOARD, fixed(80));
    expect(allowances(sheet).map(({ why }) => why)).toEqual([
      { rule: "labour allowance" },
      { rule: "sourcing allowance", parts: ["Seven-stage frequency divider"] },
      { rule: "if-found allowance", work: sheet.ifFound.flatMap(({ names }) => names) },
    ]);
  });
});

/** Reckoned by hand: one minute costs 1.00 and the condition is certain. */
describe("the risk of a small job", () => {
  const book = { ...TAXED, grades: TAXED.grades.map((grade) => ({ ...grade, spreadPercent: 0 })) };
  const minutes: ThreePoint = { low: 30, likely: 60, high: 120 };
  const none: ThreePoint = { low: 0, likely: 0, high: 0 };
  const bare = { ...book, operations: book.operations.map((each) => ({ ...each, setup: none })) };
  const small = job({ rateBook: bare, items: [item("w", { minutes })] });

  it("expects (low + 4 likely + high) / 6 of the work, and the chance of what may be found", () => {
    expect(asked(small).risk.expected).toBe(6500);
    const sure: ThreePoint = { low: 40, likely: 40, high: 40 };
    const found = item("f", { minutes: sure, certainty: { is: "if found", probability: 0.25 } });
    expect(asked({ ...small, items: [...small.items, found] }).risk.expected).toBe(7500);
  });

  it("gives what is found the access that it alone needs", () => {
    const rail = on("rail", "f", { minutes: none, certainty: { is: "if found", probability: 0.5 } });
    const access = [6, 1].map((screws) => screws * (pertMean(about(1)) + pertMean(about(2))));
    expect(asked({ ...small, items: [...small.items, rail] }).risk.expected).toBe(6500 + Math.round(50 * sum(access)));
    const planned = on("rail", "p", { minutes: none });
    expect(asked({ ...small, items: [...small.items, planned, rail] }).risk.expected).toBe(6500 + Math.round(100 * sum(access)));
  });

  it("takes soak, fees and freight as certain", () => {
    const soak = item("s", { operation: "soak" });
    const both = asked({ ...small, items: [...small.items, soak], policy: { diagnosis: true } });
    expect(both.risk.sd).toBe(asked(small).risk.sd);
    expect(both.risk.expected).toBe(6500 + 600 + 4000);
  });

  it("multiplies all bench time by the unit's condition: its sd is at least that of the factor", () => {
    const worn = { ...small, rateBook: { ...bare, grades: bare.grades.map((grade) => ({ ...grade, spreadPercent: 40 })) } };
    const { expected, sd } = asked(worn).risk;
    expect(expected).toBe(6500);
    const line = asked(small).risk.sd;
    // Var(C X) = (1 + cv^2) Var(X) + cv^2 E(X)^2 for independent C with mean 1.
    expect(Math.abs(sd - Math.sqrt(1.16 * line ** 2 + 0.16 * 6500 ** 2))).toBeLessThan(1.5);
  });
});

describe("a pricing that makes no sense is refused", () => {
  it.each<[Pricing, string]>([
    [fixed(49.9), "/policy/pricing/confidencePercent"],
    [fixed(99.95), "/policy/pricing/confidencePercent"],
    [underCeiling(100), "/policy/pricing/confidencePercent"],
    [fixed(Number.NaN), "/policy/pricing/confidencePercent"],
    [plus(-1), "/policy/pricing/percent"],
    [{ is: "fixed price", confidencePercent: 80, minimumMarginPercent: 100 }, "/policy/pricing/minimumMarginPercent"],
  ])("%j", (pricing, pointer) => {
    expect(problemsOf(job({ policy: { pricing } }))).toMatchObject([{ name: "percent out of range", pointer }]);
  });

  it("and the rest is priced as counted", () => {
    const outcome = estimate(priced(KEYBOARD, fixed(12)));
    const plain = estimate(KEYBOARD);
    expect(!outcome.ok && outcome.partial).toEqual(plain.ok && plain.sheet);
  });
});

const pertMean = ({ low, likely, high }: ThreePoint): number => (low + 4 * likely + high) / 6;

/** Every time at its likely figure, every unit alike, nothing to be found, every part on the shelf. */
function certain(input: EstimateInput): EstimateInput {
  const flat = <T>(value: T): T => {
    if (Array.isArray(value)) return value.map(flat) as T;
    if (value === null || typeof value !== "object") return value;
    if ("low" in value && "likely" in value) {
      const { likely } = value as unknown as ThreePoint;
      return { low: likely, likely, high: likely } as T;
    }
    return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, flat(entry)])) as T;
  };
  const { kinds = [] } = input;
  const level = flat(input);
  return {
    ...level,
    items: level.items.filter(({ certainty }) => certainty.is !== "if found"),
    kinds: kinds.map(({ scarcity: _, ...kind }) => ({ ...kind, stock: 1000 })),
    rateBook: { ...level.rateBook, grades: level.rateBook.grades.map((grade) => ({ ...grade, spreadPercent: 0 })) },
  };
}
