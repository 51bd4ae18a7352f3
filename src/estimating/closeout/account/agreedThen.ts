/** Work done while an agreement stood that the owner has taken back since: no looking, and owed as agreed unless the shop lets it go. */
import { itemsOf } from "../../agreement/choices.js";
import type { Limit } from "../../agreement/limit.js";
import { heldTo, takenOff, withPromised } from "../../agreement/promises.js";
import type { EstimateInput, Minor, RateBook, TaxRules } from "../../input.js";
import { timesOver } from "../../money/rounding.js";
import { toScaledPercent, WHOLE } from "../../money/scales.js";
import { split } from "../../money/split.js";
import { withUniqueIds } from "../../parts/partLines.js";
import { isFixed } from "../../pricing/quote.js";
import type { Adjustment, Line, Totals } from "../../sheet.js";
import type { Taxed } from "../../totals/addUp.js";
import { addUp } from "../../totals/addUp.js";
import { rush, sundries } from "../../totals/charges.js";
import { discountOn } from "../../totals/discount.js";
import { labourLines } from "../actual/actualLines.js";
import type { Recorded } from "../actual/partsDone.js";
import { agreedOf, type JobDone, type ThenAgreed } from "../jobDone.js";
import type { WorkLog } from "../log/workLog.js";
import { closedAsAgreed, closedTogether, type Discount } from "./closedAsAgreed.js";
import { doneThen } from "./doneThen.js";
import { type PartTold, partsFitted } from "./fitted.js";
import { type AccountTerms, chargesLooking, type Held, holdToLimit, usualBasis } from "./terms.js";

/** Whether it is charged, and what it comes to beside the looking, tax included; never 0. */
export interface AgreedThen {
  readonly charged: boolean;
  readonly amount: Minor;
  /** So much more was done, and is not charged: it and the rest come to `upTo` at most. `rows`: of the account's allowances, the last. */
  readonly held?: { readonly over: Minor; readonly upTo: Minor; readonly rows: number };
}

interface Looked {
  readonly lines: readonly Line[];
  readonly adjustments: readonly Adjustment[];
  readonly held: Pick<Held, "over" | "allowances">;
  readonly totals: Totals;
  readonly fitted?: readonly PartTold[];
  readonly basis: AccountTerms["basis"];
}

/** What was done, and what of it is charged with its discount, freight, and where it is charged as agreed, sundries and a rush. */
interface Then extends Recorded, Priced {
  readonly fitted: readonly PartTold[];
  /** By which it was agreed. */
  readonly rateBook: RateBook;
  /** The most that it comes to with an agreement that stands, where that comes to less; absent: nothing holds them. */
  readonly together?: Minor | undefined;
}

interface Priced {
  readonly lines: readonly Line[];
  readonly adjustments: readonly Adjustment[];
}

/**
 * As it was agreed; closed before that was reckoned, by the time logged and the parts used alone. `log`: of that work. `account`: what a
 * job would be charged. With the discount agreed, and never dearer than promised, nor than closing it as agreed would have been, alone or
 * together with what stands.
 */
export function thenOf(
  job: JobDone,
  terms: AccountTerms,
  log: WorkLog,
  recordedIn: (log: WorkLog) => Recorded,
  account: (job: JobDone, terms: AccountTerms) => Minor | undefined,
): Then {
  const { thenAgreed, current } = job;
  const done = thenAgreed && doneThen(thenAgreed, current, log);
  const { input, sheet } = done ? thenAgreed.revision : agreedOf(job);
  const { policy = {}, rateBook } = input;
  const discountFor = (lines: readonly Line[]): Discount => {
    if (chargesLooking(terms.basis)) return shared(policy.discount, lines, sheet.lines);
    // What stands has a discount in money whole.
    return policy.discount && "percent" in policy.discount ? policy.discount : undefined;
  };
  const discounted = (lines: readonly Line[]) => discountOn(lines, discountFor(lines), rateBook).adjustments;
  if (!done) {
    const { work, parts } = recordedIn(log);
    const lines = withUniqueIds([...work.flatMap(labourLines), ...parts].map(({ line }) => line));
    const fitted = partsFitted(parts.map((part) => ({ ...part, agreed: true })));
    return { work, parts, lines, adjustments: discounted(lines), fitted, rateBook };
  }
  const priced = (own: Pick<typeof done, "lines" | "freight">) => {
    const lines = withUniqueIds(own.lines);
    const hurry = policy.rush ? rush(lines, rateBook) : [];
    const adjustments = [...discounted(lines), ...sundries(lines, rateBook), ...own.freight, ...hurry];
    return { lines, adjustments, totals: addUp(lines, adjustments, rateBook.tax, 0) };
  };
  const all = priced(done);
  const closing = (some: ThenAgreed, logged: WorkLog) => {
    const closed = closedAsAgreed(some, logged, current, { on: terms.on, discount: discountFor(all.lines) });
    return closed && account(closed.job, closed.terms);
  };
  const most = () => {
    const { found, revision } = thenAgreed;
    const closed = closing(thenAgreed, log) ?? all.totals.total;
    if (found.length === 0 || !pricesFound(input)) return closed;
    const [planned, logged] = [{ ...thenAgreed, found: [] }, withoutFound(log, input, found)];
    const rest = doneThen(planned, current, logged);
    if (!rest) return closed;
    // Possible work was promised on top of a least charge, where one was agreed.
    const least = Math.max(priced(rest).totals.total, closing(planned, logged) ?? 0);
    return Math.min(closed, withPromised(least, revision.sheet.ifFound, found));
  };
  const { lines, adjustments } = thenAgreed.kept ? heldTo(all, Math.max(0, most()), rateBook) : all;
  const stands = agreedOf(job).input.policy?.discount;
  const given = { on: terms.on, discount: stands && "amount" in stands ? stands : undefined };
  const closed = thenAgreed.kept && !chargesLooking(terms.basis) ? closedTogether(thenAgreed, job, given) : undefined;
  const together = closed && account(closed.job, closed.terms);
  return { ...done.worked, lines, adjustments, fitted: done.fitted, rateBook, together };
}

/** Where neither the price covers what is found, nor it is charged as it comes. */
const pricesFound = (input: EstimateInput): boolean => !isFixed(input.policy) && usualBasis(input) === "fixed price";

function withoutFound(log: WorkLog, input: EstimateInput, found: readonly string[]): WorkLog {
  const ids = new Set(itemsOf(input, found).map(({ id }) => id));
  return {
    ...log,
    time: log.time.filter(({ work }) => work.is !== "item" || !ids.has(work.id)),
    parts: log.parts.filter(({ item }) => !ids.has(item)),
  };
}

/**
 * Never so much that it and the looking come to more than was agreed. `looked`: the account of the looking alone, which stays as it is
 * where nothing is left to charge.
 */
export function withAgreedThen(
  looked: Looked,
  then: Then,
  terms: NonNullable<AccountTerms["agreedThen"]>,
  lookedBy: TaxRules,
): Omit<Looked, "basis"> & { readonly agreedThen?: AgreedThen } {
  const { tax, taxed } = bothTaxed(lookedBy, then.rateBook.tax);
  const { total, prepaid } = looked.totals;
  const lines = withUniqueIds([...looked.lines, ...then.lines.map(taxed)]);
  const upTo = Math.max(terms.upTo, total);
  const limit: Limit = { agreed: upTo, upTo, withTax: true, by: "ceiling" };
  const already = looked.held.allowances;
  const own = then.adjustments.map(taxed);
  const most = Math.max(total, then.together ?? Number.POSITIVE_INFINITY);
  const all = [...looked.adjustments, ...own];
  // What the most for all together holds stands in a row of its own, what is promised of it in one.
  const isMore = most < upTo && addUp(lines, [...all, ...already], tax, 0).total > most;
  const bare = [...looked.adjustments, ...own.filter(({ sort }) => sort !== "promised price")];
  const adjustments = isMore ? [...bare, ...takenOff(lines, [...bare, ...already], tax, most)] : all;
  const bill = holdToLimit(lines, [...adjustments, ...already], tax, prepaid, limit, false);
  const amount = bill.totals.total - total;
  const { charged } = terms;
  if (amount === 0) return looked;
  if (!charged) return { ...looked, agreedThen: { charged, amount } };
  const over = addUp(lines, [...adjustments, ...already], tax, prepaid).total - bill.totals.total;
  const agreedThen = { charged, amount, ...(over > 0 && { held: { over, upTo, rows: bill.allowances.length } }) };
  return {
    ...{ lines, adjustments, agreedThen },
    held: { over: looked.held.over, allowances: [...already, ...bill.allowances] },
    totals: bill.totals,
    fitted: [...(looked.fitted ?? []), ...then.fitted],
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
