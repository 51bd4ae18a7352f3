/** The demo jobs, priced. Invented shop, owners and units (demo). */
import plainCounts from "../../../fixtures/demo/plain-counts.json";
import keyboard from "../../../fixtures/demo/string-organ-keyboard.json";
import tapeEcho from "../../../fixtures/demo/tape-echo.json";
import amplifier from "../../../fixtures/demo/valve-amplifier.json";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";

/** Every line on paper; `asLetter` for what owners get where nothing is said. */
const inFull = (input: unknown): EstimateInput => {
  const { paperwork, ...rest } = input as EstimateInput;
  return { ...rest, paperwork: { ...paperwork, detail: "every line" } };
};
export const KEYBOARD = inFull(keyboard);
export const TAPE_ECHO = inFull(tapeEcho);
export const AMPLIFIER = inFull(amplifier);
export const PLAIN_COUNTS = inFull(plainCounts);

export const SUMMARY =
  "The supply hums because its capacitors have dried out; a drink went down the divider boards and one divider is dead. " +
  "We will renew the supply, clean and repair the boards, and set the instrument up again.";
/** With the technician's words, and a link to answer by. */
export const asLetter = ({ paperwork, ...input }: EstimateInput): EstimateInput => {
  const { detail: _, ...rest } = paperwork ?? {};
  return {
    ...input,
    paperwork: { ...rest, summary: SUMMARY, link: "https://lanternfold.example/o#Zq7-_x9A", code: "7KQX-M4TD" },
  };
};

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
