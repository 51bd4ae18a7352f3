/** Work done while an agreement stood that the owner has taken back since: no looking, and owed as agreed unless the shop lets it go. */
import type { EstimateInput, Minor } from "../../input.js";
import { withUniqueIds } from "../../parts/partLines.js";
import type { Adjustment, Line, Totals } from "../../sheet.js";
import { addUp } from "../../totals/addUp.js";
import { discountOn } from "../../totals/discount.js";
import { labourLines } from "../actual/actualLines.js";
import type { Recorded } from "../actual/partsDone.js";
import type { WorkLog } from "../log/workLog.js";
import { type PartTold, partsFitted } from "./fitted.js";
import { type AccountTerms, type Held, holdToLimit } from "./terms.js";

/** Whether it is charged, and what it comes to, tax included. */
export interface AgreedThen {
  readonly charged: boolean;
  readonly amount: Minor;
}

/** The log without those entries, and they alone. */
export function partedLog(log: WorkLog, entries: readonly string[] = []): readonly [rest: WorkLog, then: WorkLog] {
  const named = new Set(entries);
  const only = (wanted: boolean): WorkLog => ({
    ...log,
    time: log.time.filter(({ id }) => named.has(id) === wanted),
    parts: log.parts.filter(({ id }) => named.has(id) === wanted),
  });
  return [only(false), only(true)];
}

interface Looked {
  readonly lines: readonly Line[];
  readonly adjustments: readonly Adjustment[];
  readonly held: Pick<Held, "over" | "allowances">;
  readonly totals: Totals;
  readonly fitted?: readonly PartTold[];
}

/** By the time logged and the parts used, with the discount agreed, within what was agreed. `looked`: the account of the looking alone. */
export function withAgreedThen(
  looked: Looked,
  { work, parts }: Recorded,
  { charged, upTo }: NonNullable<AccountTerms["agreedThen"]>,
  { policy = {}, rateBook }: Pick<EstimateInput, "policy" | "rateBook">,
): Looked & { readonly agreedThen: AgreedThen } {
  const own = withUniqueIds([...work.flatMap(labourLines), ...parts].map(({ line }) => line));
  const { adjustments } = discountOn(own, policy.discount, rateBook);
  const bill = holdToLimit(own, adjustments, rateBook.tax, 0, { agreed: upTo, upTo, withTax: true, by: "ceiling" }, false);
  const agreedThen = { charged, amount: bill.totals.total };
  if (!charged) return { ...looked, agreedThen };
  const lines = withUniqueIds([...looked.lines, ...own]);
  const allowances = [...looked.held.allowances, ...bill.allowances];
  return {
    ...{ lines, adjustments, agreedThen },
    held: { over: looked.held.over, allowances },
    totals: addUp(lines, [...adjustments, ...allowances], rateBook.tax, looked.totals.prepaid),
    fitted: partsFitted(parts.map((part) => ({ ...part, agreed: true }))),
  };
}
