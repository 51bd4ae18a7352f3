/** The least that is taken off; invented amounts. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TaxRules } from "../../../src/estimating/input.js";
import { addUp } from "../../../src/estimating/totals/addUp.js";
import { leastAllowance } from "../../../src/estimating/totals/leastAllowance.js";
import { runs } from "../../setup/runs.js";

const tax = (included: boolean, level: "line" | "group" | "document"): TaxRules => ({
  included,
  categories: [
    { id: "full", name: "Full", percent: 20 },
    { id: "low", name: "Low", percent: 5 },
  ],
  ...({ labour: "full", parts: "low", freight: "low", fees: "full" } as const),
  rounding: { level, mode: "half up" },
});
const PLAIN = tax(false, "group");
const lines = (...amounts: readonly number[]) =>
  amounts.map((amount, at) => ({ amount, taxCategory: at % 2 === 0 ? "full" : "low" }));

describe("the least allowance", () => {
  it("of nothing is nothing, though the limit is below it", () => {
    const { allowances, totals } = leastAllowance([], [], PLAIN, 0, ({ total }) => total > -500);
    expect([allowances, totals.total]).toEqual([[], 0]);
  });

  it("reaches a limit far below nothing in few steps", () => {
    let asked = 0;
    const { totals } = leastAllowance(lines(1000, 500), [], PLAIN, 0, ({ total }) => {
      asked += 1;
      return total > -2_000_000_000;
    });
    expect(totals.total).toBeOneOf([-2_000_000_000, -2_000_000_001]);
    expect(asked).toBeLessThan(100);
  });

  it("is an error of ours where none is enough", () => {
    expect(() => leastAllowance(lines(1000), [], PLAIN, 0, () => true)).toThrow("No allowance keeps the total within its limit.");
  });

  it("is enough, and a unit less would not be, whatever the amounts, the tax and the limit", () => {
    const amounts = fc.array(fc.integer({ min: -3000, max: 9000 }), { minLength: 1, maxLength: 5 });
    const level = fc.constantFrom("line", "group", "document");
    fc.assert(
      fc.property(amounts, fc.boolean(), level, fc.integer({ min: -9000, max: 20_000 }), (all, included, rounding, most) => {
        const [own, rules] = [lines(...all), tax(included, rounding)];
        const before = addUp(own, [], rules, 0).total;
        if (before <= most) return;
        const { allowances, totals } = leastAllowance(own, [], rules, 0, ({ total }) => total > most);
        expect(totals).toEqual(addUp(own, allowances, rules, 0));
        expect(totals.total).toBeLessThanOrEqual(most);
        // A unit of allowance is one of the total, and its tax.
        expect(most - totals.total).toBeLessThanOrEqual(2);
      }),
      runs(200),
    );
  });
});
