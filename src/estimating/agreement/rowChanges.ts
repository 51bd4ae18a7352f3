/**
 * What changed row by row, as printed: lines, allowances and charges, options, and work that may be found. The amounts of lines,
 * allowances and charges sum to the difference of what stands above the tax.
 */
import type { EstimateInput, Minor, WorkItem } from "../input.js";
import type { Adjustment, GroupPrice, Line, Sheet } from "../sheet.js";
import { type Cause, causesOf } from "./causes.js";
import { type FieldChange, itemFields, pair } from "./difference.js";

/** `rounding`: its share of what is rounded over several lines fell the other way; nothing of the row itself changed. */
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
  return [
    ...paired(before.sheet.lines, after.sheet.lines).flatMap(([was, is]) => lineChange(was, is, items)),
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

function lineChange(before: Line | undefined, after: Line | undefined, items: ItemChanges): RowChange[] {
  const line = after ?? before!;
  const item = line.from.find((source) => source.is === "item");
  const own = item && line.id === `labour:${item.id}` ? items(item.id) : undefined;
  const amount = (after?.amount ?? 0) - (before?.amount ?? 0);
  const row = { is: "line", id: line.id, ...pair(before, after), amount } as const;
  if (!before || !after) return [{ ...row, mark: after ? "added" : "dropped", ...own, fields: [] }];
  if (own) return [{ ...row, mark: "corrected", ...own }];
  const fields: FieldChange[] = [
    ...(before.count === after.count ? [] : [{ field: "count", ...pair(before.count, after.count) } as const]),
    ...(before.unitPriceE4 === after.unitPriceE4
      ? []
      : [{ field: "unit price", ...pair(before.unitPriceE4, after.unitPriceE4) } as const]),
    ...(before.minutes === after.minutes ? [] : [{ field: "minutes", ...pair(before.minutes, after.minutes) } as const]),
    ...(amount === 0 ? [] : [{ field: "amount", before: before.amount, after: after.amount } as const]),
  ];
  if (fields.length === 0) return [];
  const amountAlone = fields.length === 1 && fields[0]!.field === "amount";
  const mark = before.count !== after.count ? "corrected" : amountAlone && Math.abs(amount) === 1 ? "rounding" : "price changed";
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
