/** Everything that can be wrong with an input of the right shape. An input without problems can be priced; the engine then never throws. */
import { indexed, readBook } from "../book.js";
import type { EstimateInput } from "../input.js";
import { decimalsOf } from "../money/currency.js";
import { landed } from "../money/landed.js";
import { LIMITS, type Problem } from "../problems.js";
import type { Sheet } from "../sheet.js";
import { checkCatalogue } from "./catalogue.js";
import { amount, checkDay, ifGiven, NONE } from "./figures.js";
import { checkBoards, checkItems } from "./items.js";
import { checkLimits } from "./limits.js";
import { checkMap, checkRings } from "./map.js";
import { checkReserved } from "./own.js";
import { checkPolicy } from "./policy.js";
import { checkRateBook } from "./rateBook.js";
import { spot, tokensOf } from "./spot.js";

/** Beyond the limits nothing else is looked at. */
export function check(input: EstimateInput): Problem[] {
  const tooMuch = checkLimits(input);
  if (tooMuch.length > 0) return tooMuch;
  const book = readBook(input);
  const assemblies = indexed(input.map?.assemblies ?? [], ({ id }) => id);
  return [
    ...checkHead(input),
    ...(input.unit.grade === undefined || book.grades.has(input.unit.grade)
      ? []
      : [{ name: "grade unknown", id: input.unit.grade, known: [...book.grades.keys()], pointer: "/unit/grade" } as const]),
    ...checkMap(input, book, assemblies),
    ...checkRings(input.map),
    ...checkBoards(input, book),
    ...checkItems(input, book, assemblies),
    ...checkReserved(input),
    ...checkCatalogue(input, book),
    ...checkPolicy(input, book),
    ...checkRateBook(input, book),
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

const LISTS = ["items", "boards", "offers", "exchange", "alreadyOpen", "openAtNoCharge", "toOpen"] as const;

/** The input without the entries that problems point into, so that the rest can still be priced. Undefined when a problem lies in what everything rests on: the rate book, the map, the unit, the currency, the day. */
export function withoutOffenders(input: EstimateInput, problems: readonly Problem[]): EstimateInput | undefined {
  const dropped = new Map<string, Set<string>>();
  for (const { pointer } of problems) {
    const [root = "", entry] = tokensOf(pointer);
    const droppable = root === "policy" || LISTS.some((list) => list === root);
    if (!droppable || entry === undefined) return undefined;
    dropped.set(root, (dropped.get(root) ?? new Set()).add(entry));
  }
  const keep = <T>(list: readonly T[], name: string): T[] => list.filter((_, at) => !dropped.get(name)?.has(String(at)));
  const kept = LISTS.flatMap((name) => (input[name] ? [[name, keep<unknown>(input[name], name)] as const] : []));
  const policy = Object.entries(input.policy ?? {}).filter(([key]) => !dropped.get("policy")?.has(key));
  const rest = { ...input, ...Object.fromEntries(kept), ...(input.policy && { policy: Object.fromEntries(policy) }) };
  // What is offered at a rate that is to blame goes with it.
  return dropped.has("exchange") ? { ...rest, offers: (rest.offers ?? []).filter((offer) => landed(offer, rest)) } : rest;
}
