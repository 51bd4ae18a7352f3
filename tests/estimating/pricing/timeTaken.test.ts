/** The minutes of an estimate: at the bench and beside it, as counted and as charged. */
import { expect, it } from "vitest";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { item, job, ORGAN } from "../cast/organ.js";
import { PLAIN } from "../cast/plainBook.js";
import { asked } from "./asked.js";
import { is } from "./shares.js";

// Lid 12 minutes, cleaning there 4 + 3 x 3 = 13, mending at a fixed price 9, soaking 60.
const work = (minutes?: "expected"): EstimateInput =>
  job({
    map: { assemblies: ORGAN },
    items: [
      item("a", { assembly: "lid", count: 3 }),
      { id: "b", own: { name: "Mend", price: 700, minutes: is(9) }, count: 1, certainty: { is: "planned" } },
      item("s", { operation: "soak" }),
    ],
    rateBook: { ...PLAIN, billing: { incrementMinutes: 10, minimumCharge: 0, ...(minutes && { minutes }) } },
  });

it("counts likely minutes, and bills none of what is sold at a fixed price", () => {
  const { time } = asked(work());
  // 25 minutes by time at the bench are billed as 30, and 60 of soaking.
  expect(time).toEqual({ attended: 34, unattended: 60, billed: 90, spread: { low: 21.5, likely: 34, high: 59 } });
});

it("charges expected minutes with each line's share of the billing step, access told apart", () => {
  // (low + 4 likely + high) / 6 is 13/12 of the likely time: 13 + 14.083 minutes are billed as 30, of the 2.917 between them 1.400 on access; 65 of soaking.
  const { time } = asked(work("expected"));
  expect(time).toMatchObject({ attended: 34, unattended: 60, billed: 95 });
  expect(time.charged).toEqual({ attended: 39, unattended: 65, access: 14.4 });
});
