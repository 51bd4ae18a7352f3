/** What changed since an earlier revision, ready to be printed: rows with their marks, money by cause and by category, and the figures beside the total. */
import { estimate } from "../estimate.js";
import type { EstimateInput, IsoDate, Minor } from "../input.js";
import type { Sheet } from "../sheet.js";
import { type CategoryMoney, moneyByCategory } from "./categories.js";
import { type CauseAmount, moneyByCause } from "./causes.js";
import { type ContextKey, difference } from "./difference.js";
import { type RowChange, rowChanges } from "./rowChanges.js";

export type FigureChange =
  | {
      readonly figure: "total" | "ceiling" | "if declined" | "deposit" | "paid already" | "due";
      readonly before: Minor;
      readonly after: Minor;
    }
  | { readonly figure: "days"; readonly before: number; readonly after: number }
  | { readonly figure: "valid until"; readonly before: IsoDate; readonly after: IsoDate };

export interface ChangeList {
  /** The earlier revision, as its paperwork names it. */
  readonly since: { readonly number?: string; readonly revision?: number; readonly date?: IsoDate };
  readonly rows: readonly RowChange[];
  /** Sums to the difference of the totals, tax included. */
  readonly causes: readonly CauseAmount[];
  /** Differences sum to that of the totals. */
  readonly categories: readonly CategoryMoney[];
  /** Only those that differ. */
  readonly figures: readonly FigureChange[];
  /** Parts of the input other than the work that differ. */
  readonly context: readonly ContextKey[];
}

/** Undefined when the two cannot be compared: one has problems, or they are in different currencies. */
export function changeList(before: EstimateInput, after: EstimateInput): ChangeList | undefined {
  const causes = moneyByCause(before, after);
  const [was, is] = [estimate(before), estimate(after)];
  if (!causes || !was.ok || !is.ok) return undefined;
  const { number, revision, date } = before.paperwork ?? {};
  return {
    since: {
      ...(number !== undefined && { number }),
      ...(revision !== undefined && { revision }),
      ...(date !== undefined && { date }),
    },
    rows: rowChanges({ input: before, sheet: was.sheet }, { input: after, sheet: is.sheet }),
    causes,
    categories: moneyByCategory(was.sheet, is.sheet),
    figures: figures(was.sheet, is.sheet),
    context: Object.keys(difference(before, after).context) as ContextKey[],
  };
}

function figures(before: Sheet, after: Sheet): FigureChange[] {
  const money = ({ totals, ceiling, ifDeclined, deposit }: Sheet) => ({
    total: totals.total,
    ceiling: ceiling.amount,
    "if declined": ifDeclined.amount,
    deposit: deposit.amount,
    "paid already": totals.prepaid,
    due: totals.due,
  });
  const [was, is] = [money(before), money(after)];
  const changes: FigureChange[] = [
    ...(Object.keys(was) as (keyof typeof was)[]).map((figure) => ({ figure, before: was[figure], after: is[figure] })),
    { figure: "days", before: before.days.total, after: after.days.total },
    { figure: "valid until", before: before.validUntil, after: after.validUntil },
  ];
  return changes.filter((change) => change.before !== change.after);
}

/** Each marked row's mark, by its id on the later sheet; an option's and possible work's ids are apart from the lines'. */
export function marksOf({ rows }: ChangeList): { readonly [K in RowChange["is"]]: ReadonlyMap<string, RowChange["mark"]> } {
  const of = (is: RowChange["is"]) => new Map(rows.filter((row) => row.is === is).map(({ id, mark }) => [id, mark]));
  return { line: of("line"), adjustment: of("adjustment"), option: of("option"), "if found": of("if found") };
}
