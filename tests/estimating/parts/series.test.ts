/** Sources beside the cases in fixtures/published/iec-60063.json. */
import { Decimal } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import published from "../../../fixtures/published/iec-60063.json";
import { atLeast, nearest, PREFERRED, type SeriesName } from "../../../src/estimating/parts/series.js";

const micro = (ohms: number) => BigInt(new Decimal(ohms).times("1e6").toFixed());
const values = (name: SeriesName) => PREFERRED.series[name].values;

describe("the E series", () => {
  it.each(Object.entries(published.series.values))(`%s is as in ${published.series.source}`, (name, { percent, decade }) => {
    expect(PREFERRED.series[name as SeriesName]).toEqual({ tolerancePercent: percent, values: decade });
  });

  it.each([
    ["E24", 24, published.breaksFormula.E24],
    ["E48", 48, { values: [], formula: [] }],
    ["E96", 96, { values: [], formula: [] }],
    ["E192", 192, published.breaksFormula.E192],
  ] as const)("%s follows the formula but for the values that the standard sets otherwise", (name, steps, breaks) => {
    const scale = steps === 24 ? 10 : 100;
    const formula = values(name).map((_, step) => Math.round(scale * 10 ** (step / steps)));
    const differ = values(name)
      .map((value, step) => [value, formula[step]] as const)
      .filter(([value, by]) => value !== by);
    expect(values(name)).toHaveLength(steps);
    expect(differ.map(([value]) => value)).toEqual(breaks.values);
    expect(differ.map(([, by]) => by)).toEqual(breaks.formula);
  });
});

describe("the nearest preferred value", () => {
  it.each(published.nearest)("to $ohms in $series is $is ($source)", ({ ohms, series, is }) => {
    expect(nearest(micro(ohms), series as SeriesName)).toBe(micro(is));
  });
  it.each(published.atLeast)("not below $ohms in $series is $is ($source)", ({ ohms, series, is }) => {
    expect(atLeast(micro(ohms), series as SeriesName)).toBe(micro(is));
  });
  it.each(published.around)("to $ohms in $series is among $are ($source)", ({ ohms, series, are }) => {
    expect(nearest(micro(ohms), series as SeriesName)).toBe(micro(5100));
    for (const value of are) expect(nearest(micro(value), series as SeriesName)).toBe(micro(value));
    expect(atLeast(micro(are[1]! + 1), series as SeriesName)).toBe(micro(are[2]!));
  });

  it("is never further than any other of the series", () => {
    const names = fc.constantFrom<SeriesName>("E3", "E6", "E12", "E24", "E48", "E96", "E192");
    fc.assert(
      fc.property(fc.bigInt({ min: 1000n, max: 10n ** 15n }), names, (value, name) => {
        const found = nearest(value, name)!;
        const gap = (each: bigint) => (each > value ? each - value : value - each);
        for (let exponent = 0n; exponent < 16n; exponent++)
          for (const step of values(name)) expect(gap(BigInt(step) * 10n ** exponent)).toBeGreaterThanOrEqual(gap(found));
        expect(atLeast(value, name)).toBeGreaterThanOrEqual(value);
      }),
      { numRuns: 50 },
    );
  });
});
