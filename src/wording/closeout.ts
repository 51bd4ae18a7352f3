/** Quoted against actual, for the shop. */
import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import type { Margin } from "../estimating/closeout/account/margin.js";
import type { CloseOut } from "../estimating/closeout/variance/closeOut.js";
import type { FoundOrNot, RiskWorth } from "../estimating/closeout/variance/riskWorth.js";
import type { CloseOutCategory, Row, VarianceKind } from "../estimating/closeout/variance/row.js";
import type { ScopeCause } from "../estimating/closeout/variance/scope.js";
import type { Minor, TaxRules } from "../estimating/input.js";
import { chance, money } from "./figures.js";
import { adjustmentTitle, lineTitle } from "./line.js";
import { listed } from "./list.js";
import { duration } from "./time.js";
import type { Tongue } from "./tongue.js";

const CATEGORY: Readonly<Record<CloseOutCategory, string>> = {
  access: "Access",
  labour: "Labour",
  "billing steps": "Billing steps and least charge",
  parts: "Parts",
  risk: "Charged for risk",
  fees: "Fees",
  "allowances and charges": "Discount, sundries, freight and charges",
  "not agreed": "Not agreed",
};

/** What the figures of a close-out are: as the lines of its sheets, so with tax where prices have it in them. */
export const atBookPrices = ({ included }: Pick<TaxRules, "included">): string =>
  `At the rate book's prices, ${included ? "tax included" : "before tax that comes on top"}.`;

export const closeOutCategoryName = (category: CloseOutCategory): string => CATEGORY[category];

/** What a row is for, without its assembly. */
export const closeOutRowTitle = ({ is }: Pick<Row, "is">, tongue: Tongue): string =>
  "line" in is ? lineTitle(is.line) : adjustmentTitle(is.adjustment, tongue);

/** Said beside a row that was allowed for and has no time; undefined where it has some. */
export function noTimeText({
  is,
  logged,
  minutes,
  untimed,
}: Pick<Row, "is" | "logged" | "minutes" | "untimed">): string | undefined {
  if (untimed === "as planned") return "Not timed: someone said that it took what was planned.";
  if (untimed === "done") return "Done and not timed: nothing is learnt from it.";
  if ("line" in is && is.line.why?.rule === "fixed price" && minutes?.actual && !minutes.allowed)
    return "Sold at a price, with no time allowed.";
  return logged === false ? "No time was logged on this, so the difference may only mean that." : undefined;
}

/** What changed the scope. */
export function scopeCauseText(cause: ScopeCause): string {
  switch (cause.is) {
    case "revision":
      return `Revision ${cause.to} instead of revision ${cause.from}`;
    case "choice":
      return `What the owner chose, or left out, of revision ${cause.revision}`;
    case "not done":
      return "Planned work that was not done";
    case "found":
      return "Possible work that proved necessary";
    case "found and done":
      return "Work that was not done, and possible work that proved necessary";
  }
}

/** What a charge for risk was worth, in one sentence. */
export function riskWorthText({ charged, covers, used, kept }: RiskWorth, tongue: Tongue): string {
  const what = { work: "the work", parts: "the parts", found: "what was found" }[covers];
  const size = money(Math.abs(used), tongue);
  const came =
    covers === "found"
      ? used === 0
        ? "nothing was found"
        : `${what} came to ${size}`
      : used === 0
        ? `${what} came to what was allowed`
        : `${what} came to ${size} ${used > 0 ? "more" : "less"} than allowed`;
  const left = kept >= 0 ? `${money(kept, tongue)} of it is left` : `it fell short by ${money(-kept, tongue)}`;
  return `${money(charged, tongue)} was charged for risk; ${came}, so ${left}.`;
}

/** 'Expected in 30% of such jobs; found.' */
export const foundOrNotText = ({ group, probability, found }: FoundOrNot, { locale }: Tongue): string =>
  `${listed(group.names)}: expected in ${chance(probability, locale)} of such jobs; ${found ? "found" : "not found"}.`;

const NAME: Readonly<Record<VarianceKind, string>> = {
  rate: "Rate",
  efficiency: "Time",
  price: "Price",
  usage: "Use",
  risk: "Risk",
  terms: "Steps, fees and charges",
  "not agreed": "Not agreed",
};

/** What a variance is called in a table. */
export const varianceName = (kind: VarianceKind): string => NAME[kind];

const WHY: Readonly<Record<VarianceKind, { readonly more: string; readonly less: string }>> = {
  rate: { more: "the time was worked at dearer rates than allowed", less: "the time was worked at cheaper rates than allowed" },
  efficiency: { more: "the work took longer than allowed", less: "the work took less time than allowed" },
  price: { more: "the parts were dearer than allowed", less: "the parts were cheaper than allowed" },
  usage: { more: "more pieces were used than allowed", less: "fewer pieces were used than allowed" },
  risk: { more: "risk cost more than was charged for it", less: "what was charged for risk gives way to what was really spent" },
  terms: {
    more: "billing steps, fees, allowances and charges follow from the rest",
    less: "billing steps, fees, allowances and charges follow from the rest",
  },
  "not agreed": { more: "work or parts were not agreed", less: "work or parts were not agreed" },
};

/** '£96.00 more: the work took longer than allowed.' */
export function varianceText(kind: VarianceKind, amount: Minor, tongue: Tongue): string {
  if (amount === 0) return `${NAME[kind]}: as allowed.`;
  const [size, word, why] = amount > 0 ? [amount, "more", WHY[kind].more] : [-amount, "less", WHY[kind].less];
  return `${money(size, tongue)} ${word}: ${why}.`;
}

/** Of a job on which nothing was agreed to. */
export function unagreedText(
  { margin, account }: { readonly margin?: Margin | undefined; readonly account: Pick<FinalAccount, "basis" | "agreedThen"> },
  tongue: Tongue,
): string {
  const was = account.basis === "taken back" ? "It was taken back before an estimate was issued" : "It was declined";
  const then = account.agreedThen?.charged ? account.agreedThen.amount : undefined;
  const cost = then === undefined ? "looking at it cost" : "looking at it and the work done while it was agreed cost";
  if (margin === undefined) return `${was}. What an hour costs the shop was not said, so what ${cost} is not known.`;
  const left = money(Math.abs(margin.margin), tongue);
  if (margin.margin < 0)
    return `${was}; ${cost} the shop ${left} more than is charged for ${then === undefined ? "it" : "them"}.`;
  if (then === undefined) return `${was}; ${left} is left of what is charged for looking at it.`;
  return `${was}; ${left} is left of what is charged for looking at it and, ${money(then, tongue)} with tax, for the work done while it was agreed.`;
}

/** 'The job earned £148.20, £30.00 less than planned: hours cost £30.00 more.' Its reasons add up to it. Without costs, what is known instead. */
export function earnedText(
  closeOut: CloseOut,
  earned: { readonly margin?: Margin | undefined; readonly planned?: Margin | undefined },
  tongue: Tongue,
): string {
  if (earned.margin && earned.planned) {
    const why = moved(earned.margin, earned.planned, tongue);
    const because = why.length === 0 ? "." : `: ${listed(why)}.`;
    const by = earned.margin.margin - earned.planned.margin;
    const made = money(earned.margin.margin, tongue);
    if (by === 0) return `The job earned ${made}, as planned${because}`;
    return `The job earned ${made}, ${money(Math.abs(by), tongue)} ${by < 0 ? "less" : "more"} than planned${because}`;
  }
  const why = reasons(closeOut, tongue);
  const because = why.length === 0 ? "." : `: ${listed(why)}.`;
  const { actual, allowed } = closeOut.total;
  const size = money(Math.abs(actual - allowed), tongue);
  const came = actual === allowed ? "what was allowed for" : `${size} ${actual > allowed ? "more" : "less"} than allowed for`;
  return `What an hour costs the shop was not said, so what the job earned is not known. At the shop's own prices, work and parts came to ${came}${because}`;
}

/** What the margin is other by; revenue less the rest is the whole of it. */
function moved(earned: Margin, planned: Margin, tongue: Tongue): string[] {
  const by = (of: "revenue" | "labour" | "parts" | "other", text: (size: string) => string): string[] => {
    const difference = earned[of] - planned[of];
    const size = `${money(Math.abs(difference), tongue)} ${difference > 0 ? "more" : "less"}`;
    return difference === 0 ? [] : [text(size)];
  };
  return [
    ...by("revenue", (size) => `${size} was billed`),
    ...by("labour", (size) => `hours cost ${size}`),
    ...by("parts", (size) => `parts cost ${size}`),
    ...by("other", (size) => `freight and other costs came to ${size}`),
  ];
}

/** What moved it, in the order a person looks for it. */
function reasons({ attended, total, scope }: CloseOut, tongue: Tongue): string[] {
  const minutes = attended.actual - attended.allowed;
  const parts = total.variance.price + total.variance.usage;
  const changed = scope.reduce((sum, { amount }) => sum + amount, 0);
  const { "not agreed": beyond } = total.variance;
  const more = (amount: number) => (amount > 0 ? "more" : "less");
  const cash = (amount: number) => money(Math.abs(amount), tongue);
  return [
    ...(Math.abs(minutes) < 0.05
      ? []
      : [`${duration(Math.abs(minutes), tongue.locale)} ${more(minutes)} at the bench than allowed`]),
    ...(parts === 0 ? [] : [`${cash(parts)} ${more(parts)} for parts`]),
    ...(changed === 0 ? [] : [`${cash(changed)} ${more(changed)} work than first quoted`]),
    ...(beyond === 0 ? [] : [`${cash(beyond)} of work and parts that were not agreed`]),
  ];
}
