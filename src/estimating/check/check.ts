/** Everything that can be wrong with an input of the right shape. An input without problems can be priced; the engine then never throws. */
import { indexed, readBook } from "../book.js";
import type { EstimateInput } from "../input.js";
import { countGroups } from "../labour/groups.js";
import { decimalsOf } from "../money/currency.js";
import { LIMITS, type Problem } from "../problems.js";
import type { Sheet } from "../sheet.js";
import { checkBoards } from "./boards.js";
import { checkCatalogue } from "./catalogue.js";
import { checkDay } from "./days.js";
import { amount, ifGiven, NONE } from "./figures.js";
import { checkItems } from "./items.js";
import { checkMap } from "./map.js";
import { checkPolicy } from "./policy.js";
import { checkRateBook } from "./rateBook.js";
import { checkRings } from "./rings.js";
import { spot } from "./spot.js";

/** Beyond the limits nothing else is looked at. */
export function check(input: EstimateInput): Problem[] {
  const tooMuch = checkLimits(input);
  if (tooMuch.length > 0) return tooMuch;
  const book = readBook(input);
  const assemblies = indexed(input.map?.assemblies ?? [], ({ id }) => id);
  return [
    ...checkHead(input),
    ...(book.grades.has(input.unit.grade)
      ? []
      : [{ name: "grade unknown", id: input.unit.grade, known: [...book.grades.keys()], pointer: "/unit/grade" } as const]),
    ...checkMap(input, book, assemblies),
    ...checkRings(input.map),
    ...checkBoards(input, book),
    ...checkItems(input, book, assemblies),
    ...checkCatalogue(input, book),
    ...checkPolicy(input, book),
    ...checkRateBook(input, book),
  ];
}

/**
 * Counted boards take up the room of the assemblies they can be refined into. Each option, if-found group and work worth doing is priced
 * as a whole again, so that there may be fewer of them than of items.
 */
function checkLimits({ map, boards = [], items }: EstimateInput): Problem[] {
  const counted = boards.reduce((sum, { count }) => sum + (count <= LIMITS.boards ? Math.max(0, count) : 0), 0);
  const assemblies = (map?.assemblies.length ?? 0) + counted;
  const thought = (map?.assemblies ?? []).reduce((sum, { worthDoing = [] }) => sum + worthDoing.length, 0);
  const tooManyChoices = (what: "option or if found" | "worth doing", count: number, pointer: string): Problem[] =>
    count > LIMITS.choices ? [{ name: "too many choices", what, count, limit: LIMITS.choices, pointer }] : [];
  return [
    ...(assemblies > LIMITS.assemblies
      ? [
          {
            name: "too many assemblies",
            count: assemblies,
            limit: LIMITS.assemblies,
            pointer: map?.assemblies.length ? "/map/assemblies" : "/boards",
          } as const,
        ]
      : []),
    ...(items.length > LIMITS.items
      ? [{ name: "too many items", count: items.length, limit: LIMITS.items, pointer: "/items" } as const]
      : []),
    ...tooManyChoices("option or if found", countGroups(items), "/items"),
    ...tooManyChoices("worth doing", thought, "/map/assemblies"),
  ];
}

function checkHead({ asOf, currency, unit, paperwork }: EstimateInput): Problem[] {
  return [
    ...checkDay(
      asOf,
      spot(() => "Estimate", "asOf"),
    ),
    ...ifGiven(paperwork?.date, (date) =>
      checkDay(
        date,
        spot(() => "Paperwork", "paperwork", "date"),
      ),
    ),
    ...(decimalsOf(currency) === undefined
      ? [{ name: "currency unknown", code: currency, pointer: "/currency" } as const]
      : NONE),
    ...ifGiven(unit.declaredValue, (value) =>
      amount(
        value,
        spot(() => "Declared value", "unit", "declaredValue"),
      ),
    ),
  ];
}

/** Beyond this a number could not hold every cent. */
export function tooLarge({ totals, lines, time }: Pick<Sheet, "totals" | "lines" | "time">): Problem[] {
  const amounts = [totals.total, totals.linesNet, totals.allowances, totals.charges, ...lines.map(({ amount }) => amount)];
  const over = amounts.some((amount) => Math.abs(amount) > LIMITS.amount) || time.spread.high > LIMITS.amount;
  return over ? [{ name: "total too large", limit: LIMITS.amount, pointer: "" }] : [];
}
