import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import { subtotals } from "../../../src/estimating/sheet/subtotals.js";
import { runs } from "../../setup/runs.js";
import { anyInput } from "../cast/anyInput.js";

describe("subtotals", () => {
  it("hold every line once and sum to the sum of the lines", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const outcome = estimate(input);
        if (!outcome.ok) return;
        const groups = subtotals(outcome.sheet);
        expect(groups.flatMap(({ lines }) => lines.map(({ id }) => id)).sort()).toEqual(
          outcome.sheet.lines.map(({ id }) => id).sort(),
        );
        expect(groups.reduce((sum, { amount }) => sum + amount, 0)).toBe(outcome.sheet.totals.linesNet);
        for (const { lines, amount } of groups) expect(lines.reduce((sum, line) => sum + line.amount, 0)).toBe(amount);
      }),
      runs(200),
    );
  });
});
