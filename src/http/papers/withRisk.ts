/** The sheet on record with what the shop reads about its risk, worked out anew: it is never kept with what the owner gets. */
import { estimate } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";

/** An issued revision that today's engine refuses stays without. */
export function withRisk(sheet: Sheet, input: EstimateInput): Sheet {
  const outcome = estimate(input, { risk: true });
  return outcome.ok && outcome.sheet.risk ? { ...sheet, risk: outcome.sheet.risk } : sheet;
}
