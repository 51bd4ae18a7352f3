/** Whether a work log entry may be made: for work that is agreed, and within the limit. What is refused may be overridden with a reason and a name. */
import type { EstimateInput, Minor, Minutes, WorkItem } from "../input.js";
import { priceMilli, toMilli } from "../money/scales.js";
import type { Unagreed } from "../problems.js";
import { behindOf, flatPriceOf, operationIdOf, ownPartOf, partOf, resolve } from "../resolve.js";
import type { Sheet } from "../sheet.js";
import { addUp } from "../totals/addUp.js";
import { same } from "./canonical.js";
import { type Limit, type Measured, over } from "./limit.js";

export interface LoggedWork {
  /** A work item; absent: opening and refitting. */
  readonly item?: string;
  /** Really used, so neither graded nor brought up to a billing step. */
  readonly minutes?: Minutes;
  /** Labour class worked at, where it is not that of the item's operation, or of access. */
  readonly labourClass?: string;
  /** Selling price of the parts really used, as the rate book's prices are: with tax or without. */
  readonly parts?: Minor;
}

/** What the log comes to so far, with the fees, allowances and charges of the agreed sheet. `current` knows every item logged. */
export function logged(current: EstimateInput, agreed: Sheet, log: readonly LoggedWork[]): Measured {
  const { rateBook } = current;
  const { tax } = rateBook;
  const flat = flatWork(current);
  const byTime = log.filter(({ item = "" }) => !flat.has(item));
  const sold = new Set(log.flatMap(({ item = "" }) => flat.get(item) ?? []));
  const lines = [
    ...byTime.flatMap((entry) => [
      { amount: priceMilli(toMilli(entry.minutes ?? 0), rateOf(current, entry)), taxCategory: tax.labour },
      { amount: entry.parts ?? 0, taxCategory: tax.parts },
    ]),
    // A fixed price is owed once its work has begun, whatever it takes.
    ...[...sold].map(({ amount }) => ({ amount, taxCategory: tax.labour })),
    ...log.flatMap(({ item = "", parts = 0 }) => (flat.get(item)?.parts ? [{ amount: parts, taxCategory: tax.parts }] : [])),
  ];
  const fees = agreed.lines.filter(({ sort }) => sort === "fee");
  return addUp([...fees, ...lines], agreed.adjustments, tax, 0);
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

export type LogVerdict =
  | { readonly is: "within"; readonly amount: Measured }
  | { readonly is: "not agreed"; readonly item: string; readonly why: Unagreed["why"] }
  | { readonly is: "above limit"; readonly amount: Measured; readonly by: Minor };

export interface Agreed {
  readonly sheet: Sheet;
  readonly limit: Limit;
  /** Of the current input, by `unagreed`. */
  readonly unagreed: readonly Unagreed[];
}

/** The log so far, overridden entries included, and the entry to be made. */
export function mayLog(current: EstimateInput, agreed: Agreed, log: readonly LoggedWork[], entry: LoggedWork): LogVerdict {
  const refused = agreed.unagreed.find(({ id }) => id === entry.item);
  if (refused) return { is: "not agreed", item: refused.id, why: refused.why };
  const amount = logged(current, agreed.sheet, [...log, entry]);
  const by = over(agreed.limit, amount);
  return by > 0 ? { is: "above limit", amount, by } : { is: "within", amount };
}

/**
 * Work that no agreement covers: marked on the bench sheet, and refused by the work log unless overridden with a reason. `agreed`: the revision agreed to, with the options chosen (`withChoices`); undefined while there is no agreement.
 */
export function unagreed(current: EstimateInput, agreed: EstimateInput | undefined): Unagreed[] {
  const covered = new Map(agreed?.items.map((item) => [item.id, item]));
  return current.items.flatMap((item): Unagreed[] => {
    const why = agreed ? whyNot(item, covered.get(item.id)) : "nothing agreed";
    return why ? [{ id: item.id, why }] : [];
  });
}

function whyNot(item: WorkItem, agreed: WorkItem | undefined): Unagreed["why"] | undefined {
  if (!agreed) return "not in what was agreed";
  if (agreed.certainty.is === "optional" && !agreed.certainty.chosen) return "option not chosen";
  const what = (each: WorkItem) => {
    const { assembly, own, service, minutes, partPrice } = each;
    const part = ownPartOf(each) ?? partOf(each);
    return { assembly, operation: operationIdOf(each), own, service, part, minutes, partPrice };
  };
  if (!same(what(item), what(agreed))) return "changed since";
  return item.count > agreed.count ? "more than agreed" : undefined;
}
