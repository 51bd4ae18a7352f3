/** Reference: decimal.js 10.6.0 and the rules as documented, reckoned over again. Two files, so that both cores of a small machine work. */
import { expect, it } from "vitest";
import { compareSeeds, EACH } from "./compare.js";

it("agrees with decimal.js to the cent: the first half of the random estimates", { timeout: 1_800_000 }, () => {
  expect(compareSeeds(0, EACH)).toBeGreaterThan(EACH * 3);
});
