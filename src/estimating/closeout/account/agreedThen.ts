/** Work done while an agreement stood that the owner has taken back since: no looking, and owed as agreed unless the shop lets it go. */
import type { Limit } from "../../agreement/limit.js";
import type { EstimateInput, Minor, TaxRules } from "../../input.js";
import { timesOver } from "../../money/rounding.js";
import { toScaledPercent, WHOLE } from "../../money/scales.js";
import { split } from "../../money/split.js";
import { withUniqueIds } from "../../parts/partLines.js";
import type { Adjustment, Line, Sheet, Totals } from "../../sheet.js";
import type { Taxed } from "../../totals/addUp.js";
import { addUp } from "../../totals/addUp.js";
import { rush, sundries } from "../../totals/charges.js";
import { discountOn } from "../../totals/discount.js";
import { labourLines } from "../actual/actualLines.js";
import type { Recorded } from "../actual/partsDone.js";
import { agreedOf, type JobDone } from "../jobDone.js";
import type { WorkLog } from "../log/workLog.js";
import { doneThen } from "./doneThen.js";
import { type PartTold, partsFitted } from "./fitted.js";
import { type AccountTerms, chargesLooking, type Held, holdToLimit } from "./terms.js";

/** Whether it is charged, and what it comes to beside the looking, tax included; never 0. */
export interface AgreedThen {
  readonly charged: boolean;
  readonly amount: Minor;
  /** So much more was done, and is not charged: it and the rest come to `upTo` at most. `rows`: of the account's allowances, the last. */
  readonly held?: { readonly over: Minor; readonly upTo: Minor; readonly rows: number };
}

type Discount = NonNullable<EstimateInput["policy"]>["discount"];

interface Looked {
  readonly lines: readonly Line[];
  readonly adjustments: readonly Adjustment[];
  readonly held: Pick<Held, "over" | "allowances">;
  readonly totals: Totals;
  readonly fitted?: readonly PartTold[];
  readonly basis: AccountTerms["basis"];
}

/** What was done, and what of it is charged beside its lines: freight, and where it is charged as agreed, sundries and a rush. */
interface Then extends Recorded {
  readonly lines: readonly Line[];
  readonly fitted: readonly PartTold[];
  readonly beside: (lines: readonly Line[]) => readonly Adjustment[];
  /** What was agreed. */
  readonly of: { readonly input: Pick<EstimateInput, "policy" | "rateBook">; readonly sheet: Pick<Sheet, "lines"> };
}

/** As it was agreed; closed before that was reckoned, by the time logged and the parts used alone. `log`: of that work. */
export function thenOf(job: JobDone, log: WorkLog, recordedIn: (log: WorkLog) => Recorded): Then {
  const { thenAgreed, current } = job;
  const done = thenAgreed && doneThen(thenAgreed, current, log);
  if (done) {
    const { policy, rateBook } = done.whole.input;
    return {
      ...{ ...done.worked, lines: done.lines, fitted: done.fitted, of: thenAgreed.revision },
      beside: (lines) => [...sundries(lines, rateBook), ...done.freight, ...(policy?.rush ? rush(lines, rateBook) : [])],
    };
  }
  const { work, parts } = recordedIn(log);
  return {
    ...{ work, parts, lines: [...work.flatMap(labourLines), ...parts].map(({ line }) => line), beside: () => [] },
    ...{ fitted: partsFitted(parts.map((part) => ({ ...part, agreed: true }))), of: agreedOf(job) },
  };
}

/**
 * With the discount agreed, and never so much that it and the looking come to more than was agreed. `looked`: the account of the looking
 * alone, which stays as it is where nothing is left to charge.
 */
export function withAgreedThen(
  looked: Looked,
  { lines: logged, beside, fitted, of: { input, sheet } }: Then,
  terms: NonNullable<AccountTerms["agreedThen"]>,
  lookedBy: TaxRules,
): Omit<Looked, "basis"> & { readonly agreedThen?: AgreedThen } {
  const { policy = {}, rateBook } = input;
  const { tax, taxed } = bothTaxed(lookedBy, rateBook.tax);
  const agreed = withUniqueIds(logged);
  const own = agreed.map(taxed);
  const { total, prepaid } = looked.totals;
  // What stands has a discount in money whole.
  const discount = chargesLooking(looked.basis)
    ? shared(policy.discount, agreed, sheet.lines)
    : policy.discount && "percent" in policy.discount
      ? policy.discount
      : undefined;
  const adjustments = [
    ...looked.adjustments,
    ...[...discountOn(agreed, discount, rateBook).adjustments, ...beside(agreed)].map(taxed),
  ];
  const lines = withUniqueIds([...looked.lines, ...own]);
  const upTo = Math.max(terms.upTo, total);
  const limit: Limit = { agreed: upTo, upTo, withTax: true, by: "ceiling" };
  const already = looked.held.allowances;
  const bill = holdToLimit(lines, [...adjustments, ...already], tax, prepaid, limit, false);
  const then = { charged: terms.charged, amount: bill.totals.total - total };
  if (then.amount === 0) return looked;
  if (!terms.charged) return { ...looked, agreedThen: then };
  const over = addUp(lines, [...adjustments, ...already], tax, prepaid).total - bill.totals.total;
  const agreedThen = { ...then, ...(over > 0 && { held: { over, upTo, rows: bill.allowances.length } }) };
  return {
    ...{ lines, adjustments, agreedThen },
    held: { over: looked.held.over, allowances: [...already, ...bill.allowances] },
    totals: bill.totals,
    fitted: [...(looked.fitted ?? []), ...fitted],
  };
}

/** Each by its own book: the looking by that of the revision declined, what was agreed by its own, at its rates. */
function bothTaxed(looked: TaxRules, agreed: TaxRules) {
  const categories = [...looked.categories];
  const idOf = new Map(
    agreed.categories.map((category) => {
      const { id, percent } = category;
      const alike = looked.categories.filter((each) => each.percent === percent);
      const known = alike.find((each) => each.id === id) ?? alike[0];
      if (known) return [id, known.id];
      let own = id;
      while ([...categories, ...agreed.categories].some((each) => each.id === own && each !== category)) own += "+";
      categories.push({ ...category, id: own });
      return [id, own];
    }),
  );
  const taxed = <T extends Taxed>(each: T): T => {
    const { taxCategory: category, amount } = each;
    if (agreed.included === looked.included) return { ...each, taxCategory: idOf.get(category)! };
    const percent = toScaledPercent(agreed.categories.find(({ id }) => id === category)!.percent);
    const [times, over] = agreed.included ? [WHOLE, WHOLE + percent] : [WHOLE + percent, WHOLE];
    return { ...each, taxCategory: idOf.get(category)!, amount: timesOver(amount, times, over) };
  };
  return { tax: { ...looked, categories }, taxed };
}

/** A discount in money was for all that was agreed; what was done of it has its share. */
function shared(discount: Discount, own: readonly Line[], agreed: readonly Line[]): Discount {
  if (!discount || "percent" in discount) return discount;
  const { taxCategory: only } = discount;
  const sumOf = (lines: readonly Line[]) =>
    lines.reduce((sum, { amount, taxCategory }) => sum + (only === undefined || taxCategory === only ? amount : 0), 0);
  const part = Math.max(0, sumOf(own));
  const [amount = 0] = split(discount.amount, [part, Math.max(0, sumOf(agreed) - part)]);
  return { ...discount, amount };
}
