/** Work and parts in the shop's own words, prices of one line, and the services of a rate book. */
import type { Book } from "../book.js";
import type { EstimateInput, OwnPart, OwnWork, RateBook, Service, ServiceWork, WorkItem } from "../input.js";
import { LIMITS, type Problem } from "../problems.js";
import { behindOf, isResolved, resolve } from "../resolve.js";
import { checkShare } from "./catalogue.js";
import { amount, count, ifGiven, NONE, signedAmount, threePoint, unknown } from "./figures.js";
import { found, inside, part, type Spot, spot } from "./spot.js";

/** What is done is said in one way, and that way is complete. What was resolved already is said by its operation. */
export function checkSaid(item: WorkItem, here: Spot, book: Book): readonly Problem[] {
  const { operation, own, service } = item;
  const to = (...tokens: string[]) => inside(here, tokens);
  if (isResolved(item)) return unknown("operation unknown", operation ?? "", book.operations, to("operation"));
  const ways = [
    ...(operation === undefined ? [] : ["an operation"]),
    ...(own === undefined ? [] : ["own words"]),
    ...(service === undefined ? [] : ["a service"]),
    ...(service !== undefined && item.part ? ["a part of its own"] : []),
    ...((service !== undefined || own !== undefined) && item.minutes ? ["minutes of its own"] : []),
  ];
  if (ways.length > 1) return [{ name: "work said twice", ways, ...found(here) }];
  if (own) return checkOwnWork(own, to("own"), book);
  if (service !== undefined) {
    const services = new Map(book.services.map(({ id }) => [id, true]));
    return unknown("service unknown", service, services, to("service"));
  }
  if (operation === undefined) return [{ name: "work missing", ...found(to("operation")) }];
  return unknown("operation unknown", operation, book.operations, to("operation"));
}

function checkOwnWork(own: OwnWork, here: Spot, { classes, taxCategories }: Book): readonly Problem[] {
  const { name, labourClass, minutes, price, taxCategory } = own;
  return [
    ...checkWords(name, "work", inside(here, ["name"])),
    ...ifGiven(labourClass, (id) => unknown("labour class unknown", id, classes, inside(here, ["labourClass"]))),
    ...(minutes === undefined && price === undefined ? [{ name: "time or price missing", ...found(here) } as const] : NONE),
    ...ifGiven(minutes, (value) => threePoint(value, inside(here, ["minutes"]))),
    ...ifGiven(price, (value) => signedAmount(value, part(here, "price", "price"))),
    ...ifGiven(taxCategory, (id) => unknown("tax category unknown", id, taxCategories, inside(here, ["taxCategory"]))),
  ];
}

export function checkOwnPart(own: OwnPart, here: Spot, { partTypes }: Book): readonly Problem[] {
  const { name, type, broughtByOwner, cost, source, leadDays, packSize, minimumPacks, shareGood } = own;
  return [
    ...checkWords(name, "part", inside(here, ["name"])),
    ...ifGiven(type, (id) => unknown("part type unknown", id, partTypes, inside(here, ["type"]))),
    ...(cost === undefined && !broughtByOwner
      ? [{ name: "own part without cost", ...found(inside(here, ["cost"])) } as const]
      : NONE),
    ...(cost !== undefined && broughtByOwner
      ? [{ name: "brought part with cost", ...found(inside(here, ["cost"])) } as const]
      : NONE),
    ...ifGiven(cost, (value) => amount(value, part(here, "cost", "cost"))),
    ...ifGiven(source, (value) => checkLength(value, part(here, "source", "source"))),
    ...ifGiven(leadDays, (value) => count(value, part(here, "days to arrive", "leadDays"))),
    ...ifGiven(packSize, (value) => count(value, part(here, "pack size", "packSize"), undefined, 1)),
    ...ifGiven(minimumPacks, (value) => count(value, part(here, "fewest packs", "minimumPacks"), undefined, 1)),
    ...ifGiven(shareGood, (value) => checkShare(value, inside(here, ["shareGood"]))),
  ];
}

/** A price of one line is of a part that has another, and says why. */
export function checkPartPrice({ part: taken, partPrice }: WorkItem, item: Spot): readonly Problem[] {
  if (!partPrice) return NONE;
  const here = inside(item, ["partPrice"]);
  const { cost, reason, source, leadDays } = partPrice;
  return [
    ...(taken && !("own" in taken) ? NONE : [{ name: "price of no known part", ...found(here) } as const]),
    ...amount(cost, part(here, "price of this line", "cost")),
    ...(reason.trim() === "" ? [{ name: "price without reason", ...found(inside(here, ["reason"])) } as const] : NONE),
    ...checkLength(reason, part(here, "reason", "reason")),
    ...ifGiven(source, (value) => checkLength(value, part(here, "source", "source"))),
    ...ifGiven(leadDays, (value) => count(value, part(here, "days to arrive", "leadDays"))),
  ];
}

const checkWords = (name: string, what: "work" | "part", at: Spot): readonly Problem[] =>
  name.trim() === "" ? [{ name: "own words missing", what, ...found(at) }] : checkLength(name, at);

const checkLength = (text: string, at: Spot): readonly Problem[] =>
  text.length <= LIMITS.ownWords
    ? NONE
    : [{ name: "own words too long", length: text.length, limit: LIMITS.ownWords, ...found(at) }];

/** Ids that `resolve` makes for the items of this input stand for nothing else. */
export function checkReserved(input: EstimateInput): Problem[] {
  const made = resolve(input);
  if (made === input) return [];
  const taken = <T extends { readonly id: string }>(
    all: readonly T[] = [],
    own: readonly T[] = [],
    ...tokens: string[]
  ): Problem[] => {
    const reserved = new Set(all.slice(own.length).map(({ id }) => id));
    return own.flatMap(({ id }, at) =>
      reserved.has(id) ? [{ name: "id reserved", id, ...found(spot(() => "Own work", ...tokens, at, "id")) } as const] : [],
    );
  };
  const behind = new Set(made.items.filter((item) => behindOf(item) !== undefined).map(({ id }) => id));
  const { rateBook } = input;
  return [
    ...input.items.flatMap(({ id }, at) =>
      behind.has(id) ? [{ name: "id reserved", id, ...found(spot(() => "Own work", "items", at, "id")) } as const] : [],
    ),
    ...taken(made.rateBook.operations, rateBook.operations, "rateBook", "operations"),
    ...taken(made.rateBook.partTypes, rateBook.partTypes, "rateBook", "partTypes"),
    ...taken(made.kinds, input.kinds, "kinds"),
    ...taken(made.offers, input.offers, "offers"),
  ];
}

export function checkServices({ services = [] }: RateBook, book: Book): Problem[] {
  return services.flatMap((service, at) =>
    checkService(
      service,
      spot(() => `Service '${service.name}'`, "rateBook", "services", at),
      book,
    ),
  );
}

function checkService({ name, price, work }: Service, here: Spot, book: Book): readonly Problem[] {
  if (work.length > LIMITS.serviceWork)
    return [{ name: "count too large", value: work.length, limit: LIMITS.serviceWork, ...found(part(here, "works", "work")) }];
  return [
    ...checkWords(name, "work", inside(here, ["name"])),
    ...amount(price, part(here, "price", "price")),
    ...(work.length === 0 ? [{ name: "service without work", ...found(inside(here, ["work"])) } as const] : NONE),
    ...work.flatMap((each, at) => checkBehind(each, part(here, `work ${at + 1}`, "work", at), book)),
  ];
}

function checkBehind(
  { operation, own, count: times, part: taken, minutes }: ServiceWork,
  here: Spot,
  book: Book,
): readonly Problem[] {
  const to = (...tokens: string[]) => inside(here, tokens);
  const sort = operation === undefined ? undefined : book.operations.get(operation)?.is.sort;
  return [
    ...(operation !== undefined && own
      ? [{ name: "work said twice", ways: ["an operation", "own words"], ...found(here) } as const]
      : NONE),
    ...(operation === undefined && !own ? [{ name: "work missing", ...found(to("operation")) } as const] : NONE),
    ...ifGiven(operation, (id) => unknown("operation unknown", id, book.operations, to("operation"))),
    ...ifGiven(own, (words) => checkOwnWork(words, to("own"), book)),
    ...count(times, part(here, "count", "count"), undefined, 1),
    ...ifGiven(taken, ({ type }) => unknown("part type unknown", type, book.partTypes, to("part", "type"))),
    ...(sort === "replacement" && !taken && !minutes ? [{ name: "part missing", ...found(to("part")) } as const] : NONE),
    ...ifGiven(minutes, (value) => threePoint(value, to("minutes"))),
  ];
}
