/** The rate book: every figure in range, every id it uses its own. */
import type { Book } from "../book.js";
import { isDay } from "../day.js";
import type { EstimateInput, Operation, PartType, RateBook } from "../input.js";
import { MILLI } from "../money/scales.js";
import type { Problem } from "../problems.js";
import { MOST_LEADS } from "./catalogue.js";
import { amount, count, minutes, percent, threePoint } from "./figures.js";
import { repeated, unknown } from "./ids.js";
import { pointer } from "./pointer.js";
import { checkTax } from "./tax.js";

/** No percentage of a rate book but tax and shares means anything above this. */
const MOST_PERCENT = 10_000;

export function checkRateBook({ rateBook, currency }: EstimateInput, book: Book): Problem[] {
  const to = (...tokens: (string | number)[]) => pointer("rateBook", ...tokens);
  const { labourClasses, grades, fasteners, accessStandards, partTypes, operations, leads } = rateBook;
  return [
    ...(rateBook.currency === currency
      ? []
      : [
          {
            name: "currency differs",
            where: "Rate book",
            code: rateBook.currency,
            expected: currency,
            pointer: to("currency"),
          } as const,
        ]),
    ...(isDay(rateBook.inForceFrom)
      ? []
      : [{ name: "date unreadable", where: "Rate book", value: rateBook.inForceFrom, pointer: to("inForceFrom") } as const]),
    ...labourClasses.flatMap(({ name, ratePerHour }, at) =>
      amount(ratePerHour, `Labour class '${name}'`, to("labourClasses", at, "ratePerHour")),
    ),
    ...grades.flatMap(({ name, labourPercent, spreadPercent }, at) => [
      ...percent(labourPercent, `Condition grade '${name}'`, to("grades", at, "labourPercent"), MOST_PERCENT),
      ...percent(spreadPercent, `Condition grade '${name}', spread`, to("grades", at, "spreadPercent"), MOST_PERCENT),
    ]),
    ...fasteners.flatMap(({ kind, remove, refit }, at) => [
      ...threePoint(remove, `Fastener '${kind}', removal`, to("fasteners", at, "remove")),
      ...threePoint(refit, `Fastener '${kind}', refit`, to("fasteners", at, "refit")),
    ]),
    ...accessStandards.flatMap(({ size, mounting, remove, refit }, at) => [
      ...threePoint(remove, `Access standard, ${size}, ${mounting}, removal`, to("accessStandards", at, "remove")),
      ...threePoint(refit, `Access standard, ${size}, ${mounting}, refit`, to("accessStandards", at, "refit")),
    ]),
    ...unknown("labour class unknown", rateBook.accessClass, book.classes, "Access", to("accessClass")),
    ...(["desolder", "clear", "fit", "solder", "inspect"] as const).flatMap((step) =>
      threePoint(leads[step], `Leads, ${step}`, to("leads", step)),
    ),
    ...partTypes.flatMap((type, at) => checkPartType(type, to("partTypes", at))),
    ...operations.flatMap((operation, at) => checkOperation(operation, to("operations", at), book)),
    ...checkRules(rateBook, to),
    ...checkTax(rateBook.tax),
    ...checkIds(rateBook, to),
  ];
}

function checkPartType({ name, leads, minutes: own, typicalCost }: PartType, at: string): Problem[] {
  const where = `Part type '${name}'`;
  return [
    ...((leads === undefined) === (own === undefined) ? [{ name: "leads or minutes", where, pointer: at } as const] : []),
    ...(leads === undefined ? [] : count(leads, `${where}, leads`, `${at}/leads`, MOST_LEADS)),
    ...(own === undefined ? [] : threePoint(own, where, `${at}/minutes`)),
    ...amount(typicalCost, `${where}, usual cost`, `${at}/typicalCost`),
  ];
}

function checkOperation({ name, labourClass, setup, unit }: Operation, at: string, { classes }: Book): Problem[] {
  const where = `Operation '${name}'`;
  return [
    ...unknown("labour class unknown", labourClass, classes, where, `${at}/labourClass`),
    ...threePoint(setup, `${where}, set-up`, `${at}/setup`),
    ...threePoint(unit, where, `${at}/unit`),
  ];
}

type To = (...tokens: (string | number)[]) => string;

function checkRules({ billing, parts, scarcity, fees, deposit, ceiling, calendar, ...rateBook }: RateBook, to: To): Problem[] {
  const { sundries } = parts;
  return [
    ...minutes(billing.incrementMinutes, "Billing step", to("billing", "incrementMinutes")),
    ...amount(billing.minimumCharge, "Least charge for labour", to("billing", "minimumCharge")),
    ...checkMarkUp(parts.markUp, to),
    ...count(parts.offerGoodForDays, "Days an offer is good for", to("parts", "offerGoodForDays")),
    ...percent(sundries.percentOfParts, "Sundries on parts", to("parts", "sundries", "percentOfParts")),
    ...percent(sundries.percentOfLabour, "Sundries on labour", to("parts", "sundries", "percentOfLabour")),
    ...(sundries.cap === undefined ? [] : amount(sundries.cap, "Sundries, cap", to("parts", "sundries", "cap"))),
    ...Object.entries(scarcity.marginPercent).flatMap(([scarce, value]) =>
      percent(value, `Scarcity margin, ${scarce}`, to("scarcity", "marginPercent", scarce), MOST_PERCENT),
    ),
    ...(scarcity.serviceLevel > 0 && scarcity.serviceLevel < 1
      ? []
      : [
          {
            name: "service level out of range",
            value: scarcity.serviceLevel,
            pointer: to("scarcity", "serviceLevel"),
          } as const,
        ]),
    ...count(scarcity.fewSources, "Fewest sources", to("scarcity", "fewSources")),
    ...count(scarcity.freshDays, "Days an offer is fresh", to("scarcity", "freshDays")),
    ...Object.entries(scarcity.shareGood).flatMap(([state, value]): Problem[] =>
      value > 0 && value <= 1
        ? []
        : [
            {
              name: "share good out of range",
              where: `Rate book, share good of parts that are ${state}`,
              value,
              pointer: to("scarcity", "shareGood", state),
            },
          ],
    ),
    ...amount(fees.diagnosis.amount, "Diagnosis fee", to("fees", "diagnosis", "amount")),
    ...percent(fees.rushPercent, "Rush charge", to("fees", "rushPercent"), MOST_PERCENT),
    ...amount(fees.storagePerDay, "Storage per day", to("fees", "storagePerDay")),
    ...percent(deposit.scarcePartsPercent, "Deposit on scarce parts", to("deposit", "scarcePartsPercent")),
    ...percent(deposit.labourPercent, "Deposit on labour", to("deposit", "labourPercent")),
    ...percent(ceiling.abovePercent, "Ceiling above the total", to("ceiling", "abovePercent"), MOST_PERCENT),
    ...minutes(calendar.weeklyBenchMinutes, "Bench minutes per week", to("calendar", "weeklyBenchMinutes"), 1 / MILLI),
    ...percent(rateBook.valueSharePercent, "Share of the declared value", to("valueSharePercent"), MOST_PERCENT),
    ...count(rateBook.validityDays, "Days an estimate stands", to("validityDays")),
  ];
}

/** Bands rise, and only the last is open. */
function checkMarkUp(markUp: RateBook["parts"]["markUp"], to: To): Problem[] {
  const last = markUp.length - 1;
  const inOrder = markUp.every(({ upTo }, at) =>
    at === last ? upTo === undefined : upTo !== undefined && (at === 0 || upTo > (markUp[at - 1]!.upTo ?? Infinity)),
  );
  return [
    ...(inOrder && last >= 0
      ? []
      : [{ name: "mark-up bands out of order", where: "Rate book", pointer: to("parts", "markUp") } as const]),
    ...markUp.flatMap(({ upTo, percent: value }, at) => [
      ...(upTo === undefined ? [] : amount(upTo, "Mark-up band", to("parts", "markUp", at, "upTo"))),
      ...percent(value, "Mark-up", to("parts", "markUp", at, "percent"), MOST_PERCENT),
    ]),
  ];
}

function checkIds(rateBook: RateBook, to: To): Problem[] {
  const list = <T>(key: keyof RateBook, entries: readonly T[], what: string, id: (entry: T) => string) =>
    repeated(entries, id, what, (at) => to(key, at));
  const byId = ({ id }: { readonly id: string }) => id;
  return [
    ...list("labourClasses", rateBook.labourClasses, "labour class", byId),
    ...list("grades", rateBook.grades, "condition grade", byId),
    ...list("fasteners", rateBook.fasteners, "fastener standard", ({ kind }) => kind),
    ...list("accessStandards", rateBook.accessStandards, "access standard", ({ size, mounting }) => `${size}, ${mounting}`),
    ...list("partTypes", rateBook.partTypes, "part type", byId),
    ...list("operations", rateBook.operations, "operation", byId),
  ];
}
