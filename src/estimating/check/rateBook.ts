/** The rate book: every figure in range, every id it uses its own. */
import type { Book } from "../book.js";
import type { EstimateInput, Operation, PartType, RateBook } from "../input.js";
import type { Problem } from "../problems.js";
import { MOST_LEADS } from "./catalogue.js";
import { amount, checkDay, count, ifGiven, NONE, percent, repeated, threePoint, unknown } from "./figures.js";
import { checkServices } from "./own.js";
import { checkRules, checkTax, MOST_PERCENT } from "./rules.js";
import { found, inside, part, type Spot, spot } from "./spot.js";

const MOST_VERSIONS = 1_000_000;

export function checkRateBook({ rateBook, currency }: EstimateInput, book: Book): Problem[] {
  const { labourClasses, grades, fasteners, accessStandards, partTypes, operations, leads } = rateBook;
  const to = (words: () => string, ...tokens: (string | number)[]) => spot(words, "rateBook", ...tokens);
  const whole = to(() => "Rate book");
  return [
    ...(rateBook.currency === currency
      ? NONE
      : [
          {
            name: "currency differs",
            code: rateBook.currency,
            expected: currency,
            ...found(inside(whole, ["currency"])),
          } as const,
        ]),
    ...count(rateBook.version, part(whole, "version", "version"), MOST_VERSIONS),
    ...checkDay(rateBook.inForceFrom, inside(whole, ["inForceFrom"])),
    ...labourClasses.flatMap(({ name, ratePerHour }, at) =>
      amount(
        ratePerHour,
        to(() => `Labour class '${name}'`, "labourClasses", at, "ratePerHour"),
      ),
    ),
    ...grades.flatMap(({ name, labourPercent, spreadPercent }, at) => {
      const here = to(() => `Condition grade '${name}'`, "grades", at);
      return [
        ...percent(labourPercent, inside(here, ["labourPercent"]), MOST_PERCENT),
        ...percent(spreadPercent, part(here, "spread", "spreadPercent"), MOST_PERCENT),
      ];
    }),
    ...fasteners.flatMap((standard, at) =>
      checkBothWays(
        standard,
        to(() => `Fastener '${standard.kind}'`, "fasteners", at),
      ),
    ),
    ...accessStandards.flatMap((standard, at) =>
      checkBothWays(
        standard,
        to(() => `Access standard, ${standard.size}, ${standard.mounting}`, "accessStandards", at),
      ),
    ),
    ...unknown(
      "labour class unknown",
      rateBook.accessClass,
      book.classes,
      to(() => "Access", "accessClass"),
    ),
    ...(["desolder", "clear", "fit", "solder", "inspect"] as const).flatMap((step) =>
      threePoint(
        leads[step],
        to(() => `Leads, ${step}`, "leads", step),
      ),
    ),
    ...partTypes.flatMap((type, at) =>
      checkPartType(
        type,
        to(() => `Part type '${type.name}'`, "partTypes", at),
        book,
      ),
    ),
    ...operations.flatMap((operation, at) =>
      checkOperation(
        operation,
        to(() => `Operation '${operation.name}'`, "operations", at),
        book,
      ),
    ),
    ...(rateBook.companions ?? []).flatMap(({ operation }, at) =>
      unknown(
        "operation unknown",
        operation,
        book.operations,
        to(() => `Companion ${at + 1}`, "companions", at, "operation"),
      ),
    ),
    ...checkServices(rateBook, book),
    ...checkRules(rateBook),
    ...checkTax(rateBook.tax),
    ...checkIds(rateBook, whole),
  ];
}

const checkBothWays = ({ remove, refit }: Pick<RateBook["fasteners"][number], "remove" | "refit">, here: Spot) => [
  ...threePoint(remove, part(here, "removal", "remove")),
  ...threePoint(refit, part(here, "refit", "refit")),
];

function checkPartType(
  { leads, minutes, replacedBy, typicalCost }: PartType,
  here: Spot,
  { operations }: Book,
): readonly Problem[] {
  const oneOfTwo = (leads === undefined) !== (minutes === undefined);
  return [
    ...(oneOfTwo ? NONE : [{ name: "leads or minutes", ...found(here) } as const]),
    ...ifGiven(leads, (value) => count(value, part(here, "leads", "leads"), MOST_LEADS)),
    ...ifGiven(minutes, (value) => threePoint(value, inside(here, ["minutes"]))),
    ...ifGiven(replacedBy, (id) => unknown("operation unknown", id, replacementsOf(operations), inside(here, ["replacedBy"]))),
    ...amount(typicalCost, part(here, "usual cost", "typicalCost")),
  ];
}

const replacementsOf = (operations: Book["operations"]): ReadonlySet<string> =>
  new Set([...operations].flatMap(([id, { is }]) => (is.sort === "replacement" ? [id] : [])));

const checkOperation = ({ labourClass, setup, unit }: Operation, here: Spot, { classes }: Book): readonly Problem[] => [
  ...unknown("labour class unknown", labourClass, classes, inside(here, ["labourClass"])),
  ...threePoint(setup, part(here, "set-up", "setup")),
  ...threePoint(unit, inside(here, ["unit"])),
];

function checkIds(rateBook: RateBook, whole: Spot): Problem[] {
  const list = <T>(field: keyof RateBook, entries: readonly T[], what: string, id: (entry: T) => string) =>
    repeated(entries, id, what, (at) => inside(whole, [field, at]));
  const byId = ({ id }: { readonly id: string }) => id;
  return [
    ...list("labourClasses", rateBook.labourClasses, "labour class", byId),
    ...list("grades", rateBook.grades, "condition grade", byId),
    ...list("fasteners", rateBook.fasteners, "fastener standard", ({ kind }) => kind),
    ...list("accessStandards", rateBook.accessStandards, "access standard", ({ size, mounting }) => `${size}, ${mounting}`),
    ...list("partTypes", rateBook.partTypes, "part type", byId),
    ...list("operations", rateBook.operations, "operation", byId),
    ...list("services", rateBook.services ?? [], "service", byId),
  ];
}
