/** What a set of work comes to without tax, from sums alone: for sets too many to be priced line by line. Held against `price` by a test. */
import { known } from "../book.js";
import type { Minor, Policy, RateBook } from "../input.js";
import { isByTime, type LabourLine } from "../labour/times.js";
import { percentOf, priceMilli, toMilli } from "../money/scales.js";
import { sundriesOn } from "../totals/charges.js";
import { discountAsked } from "../totals/discount.js";
import type { Priced, Workings } from "./workings.js";

/** Sums of amounts that add up over disjoint work: labour and access, what of it is at fixed prices, lines charged by time, parts, other lines, freight; then minutes by class, in thousandths. */
export type Sums = Float64Array;
export const [LABOUR, FLAT, BY_TIME, PARTS, OTHERS, FREIGHT, CLASSES] = [0, 1, 2, 3, 4, 5, 6];

export const noSums = ({ rateBook }: Workings): Sums => new Float64Array(CLASSES + rateBook.labourClasses.length);

export function addTo(sums: Sums, more: Sums): void {
  for (let at = 0; at < sums.length; at++) sums[at]! += more[at]!;
}

export const added = (a: Sums, b: Sums): Sums => a.map((sum, at) => sum + b[at]!);

export function addLabour(sums: Sums, each: LabourLine, { book }: Workings, sign = 1): void {
  if (each.behind !== undefined) return;
  sums[LABOUR]! += sign * each.line.amount;
  if (each.line.why?.rule === "fixed price") sums[FLAT]! += sign * each.line.amount;
  else sums[BY_TIME]! += sign;
  if (each.attended && isByTime(each))
    sums[CLASSES + known(book.classes, each.labourClass).at]! += sign * toMilli(each.line.minutes ?? 0);
}

/** Of a price: its lines before billing steps and least charge. */
export function sumsOf(priced: Priced, workings: Workings): Sums {
  const sums = noSums(workings);
  for (const each of priced.access) addLabour(sums, each, workings);
  for (const each of priced.labour) addLabour(sums, each, workings);
  for (const { sort, taxClass, amount } of priced.lines)
    if (sort === "part") sums[PARTS]! += amount;
    else if (taxClass !== "labour") sums[OTHERS]! += amount;
  for (const { amount } of priced.parts.freight) sums[FREIGHT]! += amount;
  return sums;
}

/** As `price` adds up: steps, least charge, discount, sundries, freight, rush. `smooth`: without steps and least charge. */
export function netOfSums(sums: Sums, policy: Policy, { billing, fees, labourClasses, parts }: RateBook, smooth = false): Minor {
  const step = smooth ? 0 : toMilli(billing.incrementMinutes);
  let labour = sums[LABOUR]!;
  if (step > 0)
    labourClasses.forEach(({ ratePerHour }, at) => {
      labour += priceMilli((step - (sums[CLASSES + at]! % step)) % step, ratePerHour);
    });
  if (!smooth && sums[BY_TIME]! > 0) labour = Math.max(labour, billing.minimumCharge);
  const lines = labour + sums[PARTS]! + sums[OTHERS]!;
  const { amount: sundries } = sundriesOn(sums[PARTS]!, labour - sums[FLAT]!, parts);
  return (
    lines -
    Math.min(discountAsked(Math.max(0, lines), policy.discount), Math.max(0, lines)) +
    Math.max(0, sundries) +
    sums[FREIGHT]! +
    (policy.rush ? Math.max(0, percentOf(labour, fees.rushPercent)) : 0)
  );
}
