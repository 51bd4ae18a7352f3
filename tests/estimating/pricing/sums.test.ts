/** What a set of work comes to from its sums alone, against the price of its lines and against figures worked by hand. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { check } from "../../../src/estimating/check/check.js";
import type { Policy, RateBook } from "../../../src/estimating/input.js";
import { netOf } from "../../../src/estimating/pricing/bare.js";
import { price, visitNow } from "../../../src/estimating/pricing/price.js";
import { netOfSums, sumsOf } from "../../../src/estimating/pricing/sums.js";
import { workingsOf } from "../../../src/estimating/pricing/workings.js";
import { runs } from "../../setup/runs.js";
import { anyInput } from "../cast/anyInput.js";
import { PLAIN } from "../cast/plainBook.js";

it("the sums of any work come to what its lines come to, to the minor unit", () => {
  fc.assert(
    fc.property(anyInput, (input) => {
      if (check(input).length > 0) return;
      const workings = workingsOf(input);
      const visit = visitNow(workings.input, workings.map);
      const priced = price(workings, workings.items, visit);
      expect(netOfSums(sumsOf(priced, workings), visit.policy, workings.rateBook)).toBe(netOf(priced.totals));
    }),
    runs(150),
  );
});

/** Labour 10.00, of it 2.00 at a fixed price, one line by time; parts 5.00, others 1.00, freight 0.70; 7 minutes at the bench, 10 of alignment. */
const SUMS = Float64Array.from([1000, 200, 1, 500, 100, 70, 7000, 10_000, 0]);
const less = (amount: number): Policy => ({ discount: { amount, reason: "regular" } });

it.each<[string, number, Partial<RateBook>, Policy, boolean?]>([
  ["all of them once: 10.00 + 5.00 + 1.00 + 0.70", 1670, {}, {}],
  ["10 % of 16.00 off, none of freight", 1510, {}, { discount: { percent: 10, reason: "regular" } }],
  ["an amount off", 1170, {}, less(500)],
  ["no more off than the lines come to: freight stays", 70, {}, less(9000)],
  ["a quarter of labour more in a rush: 2.50", 1920, {}, { rush: true }],
  ["no rush where none is asked", 1670, {}, { rush: false }],
  [
    "sundries on parts and on labour by time: 10 % of 5.00 and of 8.00",
    1800,
    { parts: { ...PLAIN.parts, sundries: { percentOfParts: 10, percentOfLabour: 10 } } },
    {},
  ],
  // 7 minutes to 15 at 60.00 an hour, 10 to 15 at 120.00: 8.00 and 10.00.
  ["steps of a quarter hour in each class", 3470, { billing: { incrementMinutes: 15, minimumCharge: 0 } }, {}],
  ["no step more where the minutes fill it", 1970, { billing: { incrementMinutes: 5, minimumCharge: 0 } }, {}],
  ["15.00 of labour at least", 2170, { billing: { incrementMinutes: 0, minimumCharge: 1500 } }, {}],
  ["no less where labour is above the least", 1670, { billing: { incrementMinutes: 0, minimumCharge: 900 } }, {}],
  ["no steps and no least, looked at smoothly", 1670, { billing: { incrementMinutes: 15, minimumCharge: 5000 } }, {}, true],
])("sums come to %s", (_, net, rules, policy, smooth) => {
  expect(netOfSums(SUMS, policy, { ...PLAIN, ...rules }, smooth)).toBe(net);
});

it("work at fixed prices alone has no least charge", () => {
  const flat = Float64Array.from([1000, 1000, 0, 0, 0, 0, 0, 0, 0]);
  expect(netOfSums(flat, {}, { ...PLAIN, billing: { incrementMinutes: 0, minimumCharge: 1500 } })).toBe(1000);
});
