/** Our sheet beside the one reckoned over again: every line, charge, tax group and total. */
import { isDeepStrictEqual } from "node:util";
import { expect } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import type { Sheet } from "../../../src/estimating/sheet.js";
import { runs } from "../../setup/runs.js";
import { dice, drawInput } from "./draw.js";
import { type Reckoned, reckon } from "./reckon.js";

/** Estimates a file compares. */
export const EACH = runs(4_000).numRuns;

/** Fails at the first seed whose estimate differs; gives the number of lines compared. */
export function compareSeeds(first: number, estimates: number): number {
  let lines = 0;
  for (let seed = first; seed < first + estimates; seed++) {
    const input = drawInput(dice(seed));
    const [ours, reference] = [priced(input), reckon(input)];
    lines += Object.keys(ours.lines).length;
    if (!isDeepStrictEqual(ours, reference)) expect(ours, `seed ${seed}: ${JSON.stringify(input)}`).toEqual(reference);
  }
  return lines;
}

function priced(input: EstimateInput): Reckoned {
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  const { sheet } = outcome;
  const { totals, time } = sheet;
  return {
    lines: Object.fromEntries(sheet.lines.map(({ id, amount }) => [id, amount])),
    adjustments: Object.fromEntries(sheet.adjustments.map(({ id, charge, amount }) => [id, charge ? amount : -amount])),
    groups: Object.fromEntries(totals.taxGroups.map(({ category, base, tax }) => [category, [base, tax] as const])),
    figures: {
      total: totals.total,
      withoutTax: totals.withoutTax,
      due: totals.due,
      attended: time.attended,
      unattended: time.unattended,
      ceiling: sheet.ceiling.amount,
      ifDeclined: sheet.ifDeclined.amount,
      deposit: sheet.deposit.amount,
      days: sheet.days.total,
      ...groupPrices(sheet),
      ...Object.fromEntries(
        sheet.suggestions.flatMap(({ assembly, now, later }) => [
          [`${assembly.id} now`, now],
          [`${assembly.id} later`, later],
        ]),
      ),
    },
  };
}

const groupPrices = ({ ifFound, options }: Sheet): Record<string, number> =>
  Object.fromEntries([
    ...ifFound.map(({ id, price }) => [`if found ${id}`, price]),
    ...options.map(({ id, price }) => [`optional ${id}`, price]),
  ]);
