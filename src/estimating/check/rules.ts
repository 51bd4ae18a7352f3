/** The rate book's rules: billing, mark-up, sundries, scarcity, fees, deposit, ceiling, calendar, tax. */
import type { RateBook, TaxRules } from "../input.js";
import { MILLI } from "../money/scales.js";
import type { Problem } from "../problems.js";
import { checkShare } from "./catalogue.js";
import { amount, count, ifGiven, minutes, NONE, percent, repeated, unknown } from "./figures.js";
import { found, inside, type Spot, spot } from "./spot.js";

/** No percentage but tax and shares means anything above this. */
export const MOST_PERCENT = 10_000;

export function checkRules(rateBook: RateBook): Problem[] {
  const { billing, parts, scarcity, fees, deposit, ceiling, calendar } = rateBook;
  const to = (words: string, ...tokens: string[]) => spot(() => words, "rateBook", ...tokens);
  const { percentOfParts, percentOfLabour, cap } = parts.sundries;
  const { serviceLevel } = scarcity;
  return [
    ...minutes(billing.incrementMinutes, to("Billing step", "billing", "incrementMinutes")),
    ...amount(billing.minimumCharge, to("Least charge for labour", "billing", "minimumCharge")),
    ...checkMarkUp(parts.markUp, to("Rate book", "parts", "markUp")),
    ...count(parts.offerGoodForDays, to("Days an offer is good for", "parts", "offerGoodForDays")),
    ...ifGiven(parts.exchangeGoodForDays, (value) =>
      count(value, to("Days an exchange rate is good for", "parts", "exchangeGoodForDays")),
    ),
    ...percent(percentOfParts, to("Sundries on parts", "parts", "sundries", "percentOfParts")),
    ...percent(percentOfLabour, to("Sundries on labour", "parts", "sundries", "percentOfLabour")),
    ...ifGiven(cap, (value) => amount(value, to("Sundries, cap", "parts", "sundries", "cap"))),
    ...Object.entries(scarcity.marginPercent).flatMap(([scarce, value]) =>
      percent(value, to(`Scarcity margin, ${scarce}`, "scarcity", "marginPercent", scarce), MOST_PERCENT),
    ),
    ...(serviceLevel > 0 && serviceLevel < 1
      ? NONE
      : [
          {
            name: "service level out of range",
            value: serviceLevel,
            pointer: found(to("", "scarcity", "serviceLevel")).pointer,
          } as const,
        ]),
    ...count(scarcity.fewSources, to("Fewest sources", "scarcity", "fewSources")),
    ...count(scarcity.freshDays, to("Days an offer is fresh", "scarcity", "freshDays")),
    ...Object.entries(scarcity.shareGood).flatMap(([state, value]) =>
      checkShare(value, to(`Share good, ${state}`, "scarcity", "shareGood", state)),
    ),
    ...amount(fees.diagnosis.amount, to("Diagnosis fee", "fees", "diagnosis", "amount")),
    ...percent(fees.rushPercent, to("Rush charge", "fees", "rushPercent"), MOST_PERCENT),
    ...amount(fees.storagePerDay, to("Storage per day", "fees", "storagePerDay")),
    ...percent(deposit.scarcePartsPercent, to("Deposit on scarce parts", "deposit", "scarcePartsPercent")),
    ...percent(deposit.labourPercent, to("Deposit on labour", "deposit", "labourPercent")),
    ...percent(ceiling.abovePercent, to("Ceiling above the total", "ceiling", "abovePercent"), MOST_PERCENT),
    ...minutes(calendar.weeklyBenchMinutes, to("Bench minutes per week", "calendar", "weeklyBenchMinutes"), 1 / MILLI),
    ...percent(rateBook.valueSharePercent, to("Share of the declared value", "valueSharePercent"), MOST_PERCENT),
    ...count(rateBook.validityDays, to("Days an estimate stands", "validityDays")),
  ];
}

/** Bands rise, and only the last is open. */
function checkMarkUp(markUp: RateBook["parts"]["markUp"], here: Spot): Problem[] {
  const last = markUp.length - 1;
  const closed = markUp.slice(0, last).map(({ upTo }) => upTo ?? Number.NaN);
  const rising = closed.every((upTo, at) => upTo >= 0 && (at === 0 || upTo > closed[at - 1]!));
  const inOrder = last >= 0 && rising && markUp[last]!.upTo === undefined;
  return [
    ...(inOrder ? NONE : [{ name: "mark-up bands out of order", ...found(here) } as const]),
    ...markUp.flatMap(({ upTo, percent: value }, at) => [
      ...ifGiven(upTo, (least) =>
        amount(
          least,
          inside(here, [at, "upTo"], () => "Mark-up band"),
        ),
      ),
      ...percent(
        value,
        inside(here, [at, "percent"], () => "Mark-up"),
        MOST_PERCENT,
      ),
    ]),
  ];
}

/** Digits kept beyond the minor unit: more than any rule asks. */
const MOST_DIGITS = 6;

/** Categories from 0 to 100 %, and a known one for each sort of line. */
export function checkTax(tax: TaxRules): Problem[] {
  const to = (words: () => string, ...tokens: (string | number)[]) => spot(words, "rateBook", "tax", ...tokens);
  const categories = new Set(tax.categories.map(({ id }) => id));
  return [
    ...tax.categories.flatMap(({ name, percent: value }, at) =>
      percent(
        value,
        to(() => `Tax category '${name}'`, "categories", at, "percent"),
      ),
    ),
    ...repeated(
      tax.categories,
      ({ id }) => id,
      "tax category",
      (at) => to(() => "", "categories", at, "id"),
    ),
    ...(["labour", "parts", "freight", "fees"] as const).flatMap((sort) =>
      unknown(
        "tax category unknown",
        tax[sort],
        categories,
        to(() => `Tax on ${sort}`, sort),
      ),
    ),
    ...ifGiven(tax.rounding.extraDigits, (value) =>
      count(
        value,
        to(() => "Tax rounding, digits kept", "rounding", "extraDigits"),
        MOST_DIGITS,
      ),
    ),
  ];
}
