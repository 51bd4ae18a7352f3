/** What changed since an earlier revision, ready to be printed: rows with their marks, money by cause and by category, and the figures beside the total. */
import type { IsoDate, Minor } from "../input.js";
import { neverMore } from "../sheet/terms.js";
import type { Sheet } from "../sheet.js";
import { type CauseAmount, moneyByCause } from "./causes.js";
import { type CategoryMoney, type ChangeSums, changeSums, moneyByCategory } from "./changeSums.js";
import { type ContextKey, difference } from "./difference.js";
import { type FaultsFound, faultsFound } from "./faultsFound.js";
import { type Revision, type RowChange, rowChanges } from "./rowChanges.js";

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
  readonly since: { readonly number?: string; readonly revision?: number; readonly date?: IsoDate; readonly agreed?: true };
  readonly rows: readonly RowChange[];
  /** What the rows of lines, allowances and charges add up to, with what did not change. */
  readonly sums: ChangeSums;
  /** Sums to the difference of the totals, tax included. Empty where the revisions, priced anew, no longer come to the sheets given. */
  readonly causes: readonly CauseAmount[];
  /** Differences sum to that of the totals. */
  readonly categories: readonly CategoryMoney[];
  /** Only those that differ; what declining costs is none of them where an agreement stands by then. */
  readonly figures: readonly FigureChange[];
  /** Absent where none were found since. */
  readonly faults?: FaultsFound;
  /** Parts of the input other than the work that differ. */
  readonly context: readonly ContextKey[];
}

/** By the sheets as they were issued. Undefined where they are in different currencies. */
export function changesBetween(before: Revision, after: Revision): ChangeList | undefined {
  if (before.sheet.currency !== after.sheet.currency) return undefined;
  const { number, revision, date } = before.input.paperwork ?? {};
  const rows = rowChanges(before, after);
  const sums = changeSums(before.sheet, after.sheet, rows);
  const causes = moneyByCause(before.input, after.input) ?? [];
  const faults = faultsFound(before.input, after.input);
  const explained = causes.reduce((sum, { amount }) => sum + amount, 0) === sums.total.difference;
  return {
    since: {
      ...(number !== undefined && { number }),
      ...(revision !== undefined && { revision }),
      ...(date !== undefined && { date }),
      ...(before.agreed && { agreed: true }),
    },
    rows,
    sums,
    causes: explained ? causes : [],
    categories: moneyByCategory(before.sheet, after.sheet),
    figures: figures(before.sheet, after.sheet).filter(({ figure }) => !(before.agreed && figure === "if declined")),
    ...(faults && { faults }),
    context: Object.keys(difference(before.input, after.input).context) as ContextKey[],
  };
}

function figures(before: Sheet, after: Sheet): FigureChange[] {
  const money = (sheet: Sheet) => ({
    total: sheet.totals.total,
    ceiling: neverMore(sheet),
    "if declined": sheet.ifDeclined.amount,
    deposit: sheet.deposit.amount,
    "paid already": sheet.totals.prepaid,
    due: sheet.totals.due,
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
