/** An input's price without the sheet around it: for comparing many versions of one job. */
import { check, tooLarge } from "../check/check.js";
import type { EstimateInput, Minor } from "../input.js";
import { isCharged } from "../labour/groups.js";
import { price, timeTaken, visitNow } from "./price.js";
import { quote } from "./quote.js";
import { type Priced, type Workings, workingsOf } from "./workings.js";

export interface PricedInput {
  readonly workings: Workings;
  readonly priced: Priced;
}

/** Planned work and chosen options. The input must have passed the check. */
export function pricedInput(given: EstimateInput): PricedInput {
  const workings = workingsOf(given);
  const { input } = workings;
  const counted = price(workings, workings.items.filter(isCharged), visitNow(input, workings.map));
  return { workings, priced: quote(counted, workings).priced };
}

/** The total of the input's sheet, tax included; undefined when the input has problems. */
export function totalOf(input: EstimateInput): Minor | undefined {
  if (check(input).length > 0) return undefined;
  const { priced } = pricedInput(input);
  return tooLarge({ ...priced, time: timeTaken(priced, input.rateBook) }).length > 0 ? undefined : priced.totals.total;
}
