import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ticks } from "../../src/wording/ticks.js";

describe("the marks of a scale", () => {
  it.each([
    [63_000, 111_000, 6, [70_000, 80_000, 90_000, 100_000, 110_000]],
    [0, 100, 5, [0, 20, 40, 60, 80, 100]],
    [699, 701, 6, [699, 700, 701]],
    [-250, 250, 4, [-200, 0, 200]],
  ])("from %i to %i, about %i", (from, to, most, expected) => expect(ticks(from, to, most)).toEqual(expected));

  it("are whole, within the scale, evenly apart by 1, 2 or 5 times a power of ten, and few but not too few", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.integer({ min: 2, max: 1e9 }),
        fc.integer({ min: 2, max: 9 }),
        (from, width, most) => {
          const marks = ticks(from, from + width, most);
          expect(marks.length).toBeLessThanOrEqual(most + 1);
          expect(marks.length).toBeGreaterThanOrEqual(Math.min(most, width) >= 5 ? 2 : 0);
          for (const mark of marks) {
            expect(Number.isInteger(mark)).toBe(true);
            expect(mark).toBeGreaterThanOrEqual(from);
            expect(mark).toBeLessThanOrEqual(from + width);
          }
          const steps = new Set(marks.slice(1).map((mark, index) => mark - marks[index]!));
          expect(steps.size).toBeLessThanOrEqual(1);
          for (const step of steps) expect(String(step)).toMatch(/^[125]0*$/);
        },
      ),
    );
  });
});
