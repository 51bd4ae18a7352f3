/** Whether a work log entry may be made: for work that is agreed, and within the limit. What is refused may be overridden with a reason and a name. */
import type { EstimateInput, Minor, Minutes, WorkItem } from "../input.js";
import { fromMilli, priceMilli, toMilli } from "../money/scales.js";
import type { Unagreed } from "../problems.js";
import { behindOf, flatPriceOf, operationIdOf, ownPartOf, partOf, resolve } from "../resolve.js";
import type { Sheet } from "../sheet.js";
import { addUp } from "../totals/addUp.js";
import { rush, sundries } from "../totals/charges.js";
import { discountOn } from "../totals/discount.js";
import { same } from "./canonical.js";
import { type Limit, type Measured, over } from "./limit.js";
import { partLine, partsAsAgreed } from "./partsLogged.js";

export interface LoggedWork {
  /** A work item; absent: opening and refitting. */
  readonly item?: string;
  /** Really used, so neither graded nor brought up to a billing step. */
  readonly minutes?: Minutes;
  /** Labour class worked at, where it is not that of the item's operation, or of access. */
  readonly labourClass?: string;
  /** Selling price of the parts really used, as the rate book's prices are: with tax or without. */
  readonly parts?: Minor;
  /** Pieces of the part that its work was agreed with, or of one in its place. */
  readonly pieces?: number;
}

/** What was agreed, with what was found of it. */
export interface AgreedWork {
  readonly input: EstimateInput;
  readonly sheet: Pick<Sheet, "lines" | "adjustments">;
  /** It is billed as agreed, whatever it takes; absent: time and parts as they come. */
  readonly asAgreed?: boolean;
}

/**
 * What the log comes to so far: its work and parts, what was only ticked off (`done`, by item), the fees agreed, and discount, sundries,
 * rush and freight as these bring them with them. Work at a fixed price is used once it is logged or ticked off. Nothing is used by
 * agreeing: without an entry it is nothing. `current` knows every item logged.
 */
export function logged(
  current: EstimateInput,
  agreed: AgreedWork,
  entries: readonly LoggedWork[],
  done: Readonly<Record<string, number>> = {},
): Measured {
  const log = [...entries, ...tickedOnly(current, agreed, entries, done)];
  const { rateBook, policy = {} } = agreed.input;
  const { tax } = rateBook;
  const flat = flatWork(current);
  const ticked = Object.keys(done).filter((id) => done[id]! > 0);
  const sold = new Set([...log.map(({ item = "" }) => item), ...ticked].flatMap((id) => flat.get(id) ?? []));
  if (log.length === 0 && sold.size === 0) return addUp([], [], tax, 0);
  const byTime = log.filter(({ item = "" }) => !flat.has(item));
  const labour = { sort: "other", taxClass: "labour", taxCategory: tax.labour } as const;
  // What stands behind a service is within its price.
  const beside = log.filter(({ item = "" }) => flat.get(item)?.parts !== false);
  const lines = [
    ...agreed.sheet.lines.filter(({ sort }) => sort === "fee"),
    ...byTime.map((entry) => ({ ...labour, amount: priceMilli(toMilli(entry.minutes ?? 0), rateOf(current, entry)) })),
    // A fixed price is owed once its work has begun, whatever it takes.
    ...[...sold].map(({ amount }) => ({ ...labour, amount, why: { rule: "fixed price", price: amount } as const })),
    ...(agreed.asAgreed ? partsAsAgreed(beside, agreed) : beside.map(({ parts = 0 }) => partLine(parts, tax))),
  ];
  const adjustments = [
    ...discountOn(lines, policy.discount, rateBook).adjustments,
    ...sundries(lines, rateBook),
    ...(log.some(({ parts = 0 }) => parts > 0) ? agreed.sheet.adjustments.filter(({ sort }) => sort === "freight") : []),
    ...(policy.rush ? rush(lines, rateBook) : []),
  ];
  return addUp(lines, adjustments, tax, 0);
}

/** Ticked off and not timed: at the time and with the pieces agreed, as it is billed when the job is closed. */
export function tickedOnly(
  current: EstimateInput,
  { sheet }: AgreedWork,
  log: readonly LoggedWork[],
  done: Readonly<Record<string, number>>,
): LoggedWork[] {
  const timed = new Set(log.flatMap(({ item, minutes }) => (item !== undefined && minutes ? [item] : [])));
  const used = new Set(log.flatMap(({ item, parts, pieces }) => (item !== undefined && (parts || pieces) ? [item] : [])));
  const lines = new Map(sheet.lines.map((line) => [line.id, line]));
  return current.items.flatMap(({ id }) => {
    const { minutes = 0, count = 0 } = lines.get(`labour:${id}`) ?? {};
    const pieces = Math.min(done[id] ?? 0, count);
    if (pieces <= 0 || timed.has(id)) return [];
    return [{ item: id, minutes: fromMilli(Math.round((toMilli(minutes) * pieces) / count)), ...(!used.has(id) && { pieces }) }];
  });
}

/** What is sold at a fixed price, by each item that is logged for it; `parts`: its parts are charged beside it. */
function flatWork(input: EstimateInput): ReadonlyMap<string, { readonly amount: Minor; readonly parts: boolean }> {
  const { items, rateBook } = resolve(input);
  if (!items.some(({ own, service }) => own?.price !== undefined || service !== undefined)) return new Map();
  const operations = new Map(rateBook.operations.map((operation) => [operation.id, operation]));
  const flat = new Map<string, { readonly amount: Minor; readonly parts: boolean }>();
  for (const item of items) {
    const operation = operations.get(operationIdOf(item));
    const price = operation && flatPriceOf(operation);
    const before = flat.get(behindOf(item) ?? "");
    if (price !== undefined) flat.set(item.id, { amount: price * item.count, parts: item.service === undefined });
    else if (before) flat.set(item.id, before);
  }
  return flat;
}

function rateOf(input: EstimateInput, { item, labourClass }: LoggedWork): Minor {
  const { items, rateBook } = resolve(input);
  const found = items.find(({ id }) => id === item);
  const operation = found && operationIdOf(found);
  const wanted = labourClass ?? rateBook.operations.find(({ id }) => id === operation)?.labourClass ?? rateBook.accessClass;
  const labour = rateBook.labourClasses.find(({ id }) => id === wanted);
  if (!labour) throw new Error(`Labour class '${wanted}' was not checked.`);
  return labour.ratePerHour;
}

/**
 * What the intake receipt authorises before anything is agreed, tax included: the most owed if declined, or the diagnosis fee. 0: nothing
 * that costs anything.
 */
export function lookingLimit({ policy = {}, rateBook: { fees, tax } }: Pick<EstimateInput, "policy" | "rateBook">): Minor {
  if (policy.diagnosisLimit !== undefined) return policy.diagnosisLimit;
  return policy.diagnosis ? addUp([{ amount: fees.diagnosis.amount, taxCategory: tax.fees }], [], tax, 0).total : 0;
}

/** Opening and refitting (no item), finding the fault and inspecting. */
export function isLooking(current: EstimateInput, item: string | undefined): boolean {
  if (item === undefined) return true;
  const { items, rateBook } = resolve(current);
  const found = items.find(({ id }) => id === item);
  const operation = found && rateBook.operations.find(({ id }) => id === operationIdOf(found));
  return operation?.sort === "fault finding" || operation?.sort === "inspection";
}

/** What looking comes to at the rates of its time, tax included. */
export function worthOfLooking(current: EstimateInput, log: readonly LoggedWork[]): Minor {
  const { tax } = current.rateBook;
  const labour = { sort: "other", taxClass: "labour", taxCategory: tax.labour } as const;
  const lines = log.map((entry) => ({ ...labour, amount: priceMilli(toMilli(entry.minutes ?? 0), rateOf(current, entry)) }));
  return addUp(lines, [], tax, 0).total;
}

export type LogVerdict =
  | { readonly is: "within"; readonly amount: Measured }
  | { readonly is: "not agreed"; readonly item: string; readonly why: Unagreed["why"] }
  | { readonly is: "above limit"; readonly amount: Measured; readonly by: Minor };

export interface Agreed extends AgreedWork {
  readonly limit: Limit;
  /** Of the current input, by `unagreed`. */
  readonly unagreed: readonly Unagreed[];
  /** How far the bill with this entry would pass the limit, where work is billed as agreed, whatever it takes; absent: the log itself is held to it. */
  readonly over?: Minor;
}

/** The log so far, overridden entries included, and the entry to be made. */
export function mayLog(
  current: EstimateInput,
  agreed: Agreed,
  log: readonly LoggedWork[],
  entry: LoggedWork,
  done: Readonly<Record<string, number>> = {},
): LogVerdict {
  const refused = agreed.unagreed.find(({ id }) => id === entry.item);
  if (refused) return { is: "not agreed", item: refused.id, why: refused.why };
  const amount = logged(current, agreed, [...log, entry], done);
  const by = agreed.over ?? over(agreed.limit, amount);
  return by > 0 ? { is: "above limit", amount, by } : { is: "within", amount };
}

/**
 * Work that no agreement covers: marked on the bench sheet, and refused by the work log unless overridden with a reason. `agreed`: the revision agreed to, with the options chosen (`withChoices`); undefined while there is no agreement. `struck`: what the owner left out of it.
 */
export function unagreed(current: EstimateInput, agreed: EstimateInput | undefined, struck: readonly string[] = []): Unagreed[] {
  const covered = new Map(agreed?.items.map((item) => [item.id, item]));
  return current.items.flatMap((item): Unagreed[] => {
    const left = struck.includes(item.id) || struck.includes(behindOf(item) ?? "");
    const why = agreed ? whyNot(item, covered.get(item.id), left) : "nothing agreed";
    return why ? [{ id: item.id, why }] : [];
  });
}

function whyNot(item: WorkItem, agreed: WorkItem | undefined, left: boolean): Unagreed["why"] | undefined {
  if (!agreed) return left ? "left out by the owner" : "not in what was agreed";
  if (agreed.certainty.is === "optional" && !agreed.certainty.chosen) return "option not chosen";
  const what = (each: WorkItem) => {
    const { assembly, own, service, minutes, partPrice } = each;
    const part = ownPartOf(each) ?? partOf(each);
    return { assembly, operation: operationIdOf(each), own, service, part, minutes, partPrice };
  };
  if (!same(what(item), what(agreed))) return "changed since";
  return item.count > agreed.count ? "more than agreed" : undefined;
}
