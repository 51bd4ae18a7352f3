/** Options side by side: a set is priced as a whole. The demo amplifier is invented. */
import { describe, expect, it } from "vitest";
import amplifier from "../../../fixtures/demo/valve-amplifier.json";
import { pricedSet } from "../../../src/estimating/agreement/choices.js";
import { packagePrices } from "../../../src/estimating/agreement/packages.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput, Package, Policy } from "../../../src/estimating/input.js";

const AMPLIFIER = amplifier as unknown as EstimateInput;
const sheetOf = (input: EstimateInput) => {
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
};
const withPackages = (packages: readonly Package[], pricing?: Policy["pricing"]): EstimateInput => ({
  ...AMPLIFIER,
  policy: { ...AMPLIFIER.policy, ...(pricing && { pricing }) },
  paperwork: { ...AMPLIFIER.paperwork, packages },
});
const OPTIONS = sheetOf(AMPLIFIER).options.map(({ id }) => id);
/** Every set of the four options. */
const SETS = Array.from({ length: 2 ** OPTIONS.length }, (_, bits) => OPTIONS.filter((_, at) => bits & (1 << at)));

describe("sets of options", () => {
  it.each([
    ["as counted", undefined],
    ["a fixed price", { is: "fixed price", confidencePercent: 80 } as const],
  ])("come to what is charged when exactly these options are agreed to, never to a sum: %s", (_, pricing) => {
    expect(OPTIONS).toHaveLength(4);
    for (const options of SETS) {
      const input = withPackages([{ name: "one", options }], pricing);
      const sheet = sheetOf(input);
      const priced = pricedSet(input, { chosen: options, struck: [] }, sheet);
      if ("is" in priced) throw new Error(priced.id);
      expect(packagePrices(input, sheet)).toEqual([
        { name: "one", options, total: priced.sheet.totals.total, ceiling: priced.sheet.ceiling.amount },
      ]);
    }
  });

  it("leave out an option that the estimate has no more, and change no figure of the estimate", () => {
    const input = withPackages([{ name: "minimal", options: ["gone"] }]);
    expect(packagePrices(input, sheetOf(input))).toMatchObject([{ name: "minimal", options: [] }]);
    expect(sheetOf(input)).toEqual(sheetOf(AMPLIFIER));
  });
});
