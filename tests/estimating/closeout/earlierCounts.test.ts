import fc from "fast-check";
import { median } from "simple-statistics";
import { expect, it } from "vitest";
import { type CountSeen, earlierCounts, isUsual, suggested } from "../../../src/estimating/closeout/earlierCounts.js";

const seen = (job: string, count: number, more: Partial<CountSeen> = {}): CountSeen => ({
  job,
  assembly: "Voice board",
  operation: "replace",
  partType: "electrolytic",
  count,
  ...more,
});

it("agrees with simple-statistics on the median, and tells range and jobs", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 10_000 }), { minLength: 1, maxLength: 200 }), (counts) => {
      const [one] = earlierCounts(
        counts.map((count, at) => seen(`j${at}`, count)),
        counts.length,
      );
      expect(one).toMatchObject({
        median: median(counts),
        least: Math.min(...counts),
        most: Math.max(...counts),
        jobs: counts.length,
      });
    }),
  );
});

it("adds up the items of one job, whatever the case of the assembly's name", () => {
  const found = earlierCounts([seen("a", 3), seen("a", 4, { assembly: "voice BOARD " }), seen("b", 9)], 2);
  expect(found).toEqual([
    { assembly: "Voice board", operation: "replace", partType: "electrolytic", median: 8, least: 7, most: 9, jobs: 2, of: 2 },
  ]);
});

it("keeps each assembly's counts its own", () => {
  const found = earlierCounts([seen("a", 3), seen("a", 8, { assembly: "Power supply" })], 1);
  expect(found.map(({ assembly, median }) => [assembly, median])).toEqual([
    ["Voice board", 3],
    ["Power supply", 8],
  ]);
});

it("keeps the unit as a whole apart, and suggests only what every second job had", () => {
  const found = earlierCounts([seen("a", 2), seen("b", 3), { job: "c", operation: "clean", count: 1 }], 4);
  expect(found.map((one) => [one.assembly, isUsual(one), suggested(one)])).toEqual([
    ["Voice board", true, 3],
    [undefined, false, 1],
  ]);
});
