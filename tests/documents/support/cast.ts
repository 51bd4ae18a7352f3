/** The demo jobs, priced. Invented shop, owners and units (demo). */
import plainCounts from "../../../fixtures/demo/plain-counts.json";
import keyboard from "../../../fixtures/demo/string-organ-keyboard.json";
import tapeEcho from "../../../fixtures/demo/tape-echo.json";
import amplifier from "../../../fixtures/demo/valve-amplifier.json";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";

export const KEYBOARD = keyboard as unknown as EstimateInput;
export const TAPE_ECHO = tapeEcho as unknown as EstimateInput;
export const AMPLIFIER = amplifier as unknown as EstimateInput;
export const PLAIN_COUNTS = plainCounts as unknown as EstimateInput;

export const CAST: readonly (readonly [name: string, input: EstimateInput])[] = [
  ["string organ keyboard", KEYBOARD],
  ["tape echo", TAPE_ECHO],
  ["valve amplifier", AMPLIFIER],
  ["plain counts", PLAIN_COUNTS],
];

export function priced(input: EstimateInput): Sheet {
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  return outcome.sheet;
}

/** As many work items as asked, all planned, from those of the tape echo. */
export const withItems = (count: number): EstimateInput => ({
  ...TAPE_ECHO,
  items: Array.from({ length: count }, (_, index) => ({
    ...TAPE_ECHO.items[index % TAPE_ECHO.items.length]!,
    id: `n${index}`,
    certainty: { is: "planned" },
  })),
});
