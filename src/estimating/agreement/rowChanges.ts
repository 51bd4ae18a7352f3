/**
 * What changed row by row, as printed: lines, allowances and charges, options, and work that may be found. The amounts of lines,
 * allowances and charges sum to the difference of what stands above the tax.
 */
import type { EstimateInput, Minor, Minutes, WorkItem } from "../input.js";
import type { Adjustment, GroupPrice, Line, Sheet } from "../sheet.js";
import { same } from "./canonical.js";
import { type Cause, causesOf } from "./causes.js";
import { type FieldChange, itemFields, pair } from "./difference.js";

/** `rounding`: its share of what is rounded over several lines, such as a billing step, is another; nothing of the row itself changed. */
export type Mark = "added" | "dropped" | "corrected" | "price changed" | "rounding";

interface Changed {
  /** The row's id on the sheet. */
  readonly id: string;
  readonly mark: Mark;
  /** What differs, where it stands in both. */
  readonly fields: readonly FieldChange[];
  readonly cause?: Cause;
  readonly reason?: string;
  /**
   * Of a line, allowance or charge: what it adds above the tax, as the sheet's prices are. Of an option or possible work: by how much
   * its own price differs, tax included; that is not in the total.
   */
  readonly amount: Minor;
}

export type RowChange = Changed &
  (
    | { readonly is: "line"; readonly before?: Line; readonly after?: Line }
    | { readonly is: "adjustment"; readonly before?: Adjustment; readonly after?: Adjustment }
    | { readonly is: "option" | "if found"; readonly before?: GroupPrice; readonly after?: GroupPrice }
  );

export interface Revision {
  readonly input: EstimateInput;
  readonly sheet: Sheet;
  /** As the owner agreed to it, and not as it was issued. */
  readonly agreed?: true;
}

/** In the later revision's print order, dropped rows of each sort after those that stand. */
export function rowChanges(before: Revision, after: Revision): RowChange[] {
  const items = itemsOf(before, after);
  const share = shareOfStep(before, after);
  return [
    ...paired(before.sheet.lines, after.sheet.lines).flatMap(([was, is]) => lineChange(was, is, items, share)),
    ...paired(before.sheet.adjustments, after.sheet.adjustments).flatMap(([was, is]) => adjustmentChange(was, is)),
    ...(["option", "if found"] as const).flatMap((sort) => {
      const groups = ({ sheet }: Revision) => (sort === "option" ? sheet.options : sheet.ifFound);
      return paired(groups(before), groups(after)).flatMap(([was, is]) => groupChange(sort, was, is, items));
    }),
  ];
}

interface ItemChange {
  readonly fields: readonly FieldChange[];
  readonly cause?: Cause;
  readonly reason?: string;
}

type ItemChanges = (id: string) => ItemChange | undefined;

/** By id; undefined for an item that is the same in both. */
function itemsOf(before: Revision, after: Revision): ItemChanges {
  const was = new Map(before.input.items.map((item) => [item.id, item]));
  const is = new Map(after.input.items.map((item) => [item.id, item]));
  const why = after.input.paperwork?.whyChanged ?? {};
  return (id) => {
    const [earlier, later] = [was.get(id), is.get(id)];
    const reason = why[id] ?? later?.reason;
    const because = reason ? { reason } : {};
    if (!earlier) return later && { fields: [], cause: "extra faults", ...because };
    if (!later) return { fields: [], cause: "dropped", ...because };
    const fields = itemFields(earlier, later, before.input, after.input);
    return fields.length === 0 ? undefined : { fields, ...causeOf(earlier, later), ...because };
  };
}

function causeOf(before: WorkItem, after: WorkItem): { readonly cause?: Cause } {
  const [cause] = causesOf(before, after);
  return cause ? { cause } : {};
}

/** How many minutes a line may differ by its share of a billing step alone, where both bill by the same steps and rates. */
function shareOfStep(before: Revision, after: Revision): (was: Line, is: Line) => Minutes {
  const rates = ({ input: { rateBook } }: Revision) => [rateBook.billing, rateBook.labourClasses];
  const step = same(rates(before), rates(after)) ? after.input.rateBook.billing.incrementMinutes : 0;
  const [was, is] = [before, after].map(({ sheet }) => steppedByClass(sheet));
  return (earlier, later) => {
    const { id = "" } = later.labourClass ?? {};
    const least = Math.min(was!.get(id) ?? 0, is!.get(id) ?? 0);
    return least === 0 ? 0 : (step * Math.max(earlier.minutes ?? 0, later.minutes ?? 0)) / least;
  };
}

/** Minutes of each labour class that a step was handed out over. */
function steppedByClass({ lines }: Sheet): ReadonlyMap<string, Minutes> {
  const all = new Map<string, Minutes>();
  for (const line of lines)
    if (isStepped(line) && line.labourClass)
      all.set(line.labourClass.id, (all.get(line.labourClass.id) ?? 0) + (line.minutes ?? 0));
  return all;
}

const isStepped = ({ from }: Line): boolean => from.some((source) => source.is === "rule" && source.rule === "billing increment");

/** Minutes as they are printed, in tenths. */
const tenths = ({ minutes = 0 }: Line): number => Math.round(minutes * 10);

function lineChange(
  before: Line | undefined,
  after: Line | undefined,
  items: ItemChanges,
  share: (was: Line, is: Line) => Minutes,
): RowChange[] {
  const line = after ?? before!;
  const item = line.from.find((source) => source.is === "item");
  const own = item && line.id === `labour:${item.id}` ? items(item.id) : undefined;
  const amount = (after?.amount ?? 0) - (before?.amount ?? 0);
  const row = { is: "line", id: line.id, ...pair(before, after), amount } as const;
  if (!before || !after) return [{ ...row, mark: after ? "added" : "dropped", ...own, fields: [] }];
  if (own) return [{ ...row, mark: "corrected", ...own }];
  const inStep =
    before.count === after.count &&
    isStepped(before) &&
    isStepped(after) &&
    Math.abs((after.minutes ?? 0) - (before.minutes ?? 0)) < share(before, after);
  const fields: FieldChange[] = [
    ...(before.count === after.count ? [] : [{ field: "count", ...pair(before.count, after.count) } as const]),
    ...(before.unitPriceE4 === after.unitPriceE4 || inStep
      ? []
      : [{ field: "unit price", ...pair(before.unitPriceE4, after.unitPriceE4) } as const]),
    ...(before.minutes === after.minutes || (inStep && tenths(before) === tenths(after))
      ? []
      : [{ field: "minutes", ...pair(before.minutes, after.minutes) } as const]),
    ...(amount === 0 ? [] : [{ field: "amount", before: before.amount, after: after.amount } as const]),
  ];
  if (fields.length === 0) return [];
  const amountAlone = fields.length === 1 && fields[0]!.field === "amount";
  const rounded = inStep || (amountAlone && Math.abs(amount) === 1);
  const mark = before.count !== after.count ? "corrected" : rounded ? "rounding" : "price changed";
  return [{ ...row, mark, fields }];
}

function adjustmentChange(before: Adjustment | undefined, after: Adjustment | undefined): RowChange[] {
  const signed = (adjustment: Adjustment | undefined) =>
    adjustment ? (adjustment.charge ? adjustment.amount : -adjustment.amount) : 0;
  const amount = signed(after) - signed(before);
  const row = { is: "adjustment", id: (after ?? before!).id, ...pair(before, after), amount } as const;
  if (!before || !after) return [{ ...row, mark: after ? "added" : "dropped", fields: [] }];
  if (amount === 0) return [];
  return [{ ...row, mark: "price changed", fields: [{ field: "amount", before: before.amount, after: after.amount }] }];
}

function groupChange(
  is: "option" | "if found",
  before: GroupPrice | undefined,
  after: GroupPrice | undefined,
  items: ItemChanges,
): RowChange[] {
  const changes = [...new Set([...(before?.items ?? []), ...(after?.items ?? [])])].flatMap((id) => items(id) ?? []);
  const [own] = changes;
  // Its lines stand in the total from now on, and are told as added.
  if (!after && changes.length > 0 && changes.every(({ cause }) => cause === "found")) return [];
  const amount = (after?.price ?? 0) - (before?.price ?? 0);
  const row = { is, id: (after ?? before!).id, ...pair(before, after), amount } as const;
  const because = { ...(own?.cause && { cause: own.cause }), ...(own?.reason && { reason: own.reason }) };
  if (!before || !after) return [{ ...row, mark: after ? "added" : "dropped", fields: [], ...because }];
  const fields = changes.flatMap((change) => change.fields);
  if (changes.length > 0) return [{ ...row, mark: "corrected", fields, ...because }];
  // The same price beside another total: its tax may round the other way.
  if (before.net === after.net && Math.abs(amount) <= 1) return [];
  return [{ ...row, mark: "price changed", fields: [{ field: "amount", before: before.price, after: after.price }] }];
}

function paired<T extends { readonly id: string }>(
  before: readonly T[],
  after: readonly T[],
): [before: T | undefined, after: T | undefined][] {
  const earlier = new Map(before.map((row) => [row.id, row]));
  const later = new Set(after.map(({ id }) => id));
  return [
    ...after.map((row): [T | undefined, T] => [earlier.get(row.id), row]),
    ...before.filter(({ id }) => !later.has(id)).map((row): [T, undefined] => [row, undefined]),
  ];
}
