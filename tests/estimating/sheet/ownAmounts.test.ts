import { expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import { placeAmounts } from "../../../src/estimating/sheet/ownAmounts.js";
import { DEMOS, demoInput } from "../../pages/cast/bench.js";

it.each(DEMOS)("what each place of %s comes to makes the sum of the lines, its opening with it", (name) => {
  const input = demoInput(name);
  const outcome = estimate(input);
  if (!outcome.ok) throw new Error("It has a price.");
  const { sheet } = outcome;
  const places = placeAmounts(sheet, input.items);
  expect([...places.values()].reduce((sum, amount) => sum + amount, 0)).toBe(sheet.totals.linesNet);
  for (const { id } of sheet.access.removal) expect(places.get(id), id).toBeGreaterThan(0);
});
