/** Invariant: every total is the sum of what is printed above it, in the order of EN 16931 (BR-CO-10 to BR-CO-17). */
import type { Minor, TaxCategory, TaxRules } from "../input.js";
import { divideWhole } from "../money/rounding.js";
import { toScaledPercent, WHOLE } from "../money/scales.js";
import { handOut } from "../money/split.js";
import type { TaxGroup, Totals } from "../sheet.js";

/** A document allowance (`charge` false) or charge; the amount as printed, positive. */
export interface AllowanceOrCharge extends Taxed {
  readonly charge: boolean;
}

/** Lines -> allowances and charges -> tax per group -> total -> prepaid -> due, in minor units. Throws on a tax category that is not in the rules. */
export function addUp(lines: readonly Taxed[], adjustments: readonly AllowanceOrCharge[], tax: TaxRules, prepaid: Minor): Totals {
  const signed = adjustments.map(({ charge, amount, taxCategory }) => ({ taxCategory, amount: charge ? amount : -amount }));
  const groups = taxGroups([...lines, ...signed], tax);
  const linesNet = amountOf(lines);
  const allowances = amountOf(adjustments.filter(({ charge }) => !charge));
  const charges = amountOf(adjustments.filter(({ charge }) => charge));
  const taxTotal = groups.reduce((total, { tax: amount }) => total + amount, 0);
  const withoutTax = linesNet - allowances + charges - (tax.included ? taxTotal : 0);
  const total = withoutTax + taxTotal;
  return {
    linesNet,
    allowances,
    charges,
    withoutTax,
    taxGroups: groups,
    tax: taxTotal,
    total,
    prepaid,
    due: total - prepaid,
    pricesIncludeTax: tax.included,
    rounding: tax.rounding,
  };
}

const amountOf = (all: readonly Taxed[]): Minor => all.reduce((total, { amount }) => total + amount, 0);

/** Signed: allowances and credits are negative. */
export interface Taxed {
  readonly amount: Minor;
  readonly taxCategory: string;
}

/**
 * One group per tax category in use, in the rate book's order (EN 16931 BG-23). The printed taxes sum to the rounded tax.
 * Tax = amount x percent / 100, or amount x percent / (100 + percent) when prices include it. Rounded in the rule's mode:
 * 'group': each group's tax once; 'line': each amount's tax (to `extraDigits` beyond the minor unit), then the sum of all;
 * 'document': the exact sum of all groups once. A sum rounded once is handed out over the groups.
 */
function taxGroups(amounts: readonly Taxed[], tax: TaxRules): TaxGroup[] {
  const { level, mode, extraDigits = 0 } = tax.rounding;
  const byCategory = new Map<string, Minor[]>();
  for (const { taxCategory, amount } of amounts) {
    const before = byCategory.get(taxCategory);
    if (before) before.push(amount);
    else byCategory.set(taxCategory, [amount]);
  }
  const used = tax.categories.filter(({ id }) => byCategory.has(id));
  const lost = [...byCategory.keys()].find((id) => !used.some((category) => category.id === id));
  if (lost !== undefined) throw new Error(`Tax category '${lost}' reached the totals unchecked.`);

  const rates = used.map((category) => rateOf(category, tax.included));
  const fine = level === "line" ? 10n ** BigInt(extraDigits) : 1n;
  const common = level === "document" ? rates.reduce((product, rate) => product * rate.over, 1n) : fine;
  const all = used.map(({ id }) => byCategory.get(id)!);
  const gross = all.map(exactSum);
  const shares = rates.map(({ times, over }, index) => {
    const rounded = (amount: bigint) => divideWhole(amount * times * fine, over, mode);
    if (level === "line") return sum(all[index]!.map((amount) => rounded(BigInt(amount))));
    if (level === "group") return rounded(gross[index]!);
    return (gross[index]! * times * common) / over;
  });
  const printed = handOut(divideWhole(sum(shares), common, mode), shares, common);

  return used.map((category, index) => ({
    category: category.id,
    name: category.name,
    percent: category.percent,
    base: Number(gross[index]! - (tax.included ? printed[index]! : 0n)),
    tax: Number(printed[index]!),
  }));
}

/** The tax within or on an amount, as an exact fraction of it. */
function rateOf(category: TaxCategory, included: boolean): { times: bigint; over: bigint } {
  const percent = toScaledPercent(category.percent);
  return { times: BigInt(percent), over: BigInt(included ? WHOLE + percent : WHOLE) };
}

/** In plain numbers where no step of the sum can leave them. */
function exactSum(amounts: readonly Minor[]): bigint {
  let [total, size] = [0, 0];
  for (const amount of amounts) {
    total += amount;
    size += Math.abs(amount);
  }
  return Number.isSafeInteger(size) ? BigInt(total) : sum(amounts.map(BigInt));
}

const sum = (amounts: readonly bigint[]): bigint => amounts.reduce((total, amount) => total + amount, 0n);
