/** One group per tax category in use, in the rate book's order (EN 16931 BG-23). The printed taxes sum to the rounded tax. */
import type { Minor, TaxCategory, TaxRules } from "../input.js";
import { divideWhole } from "../money/rounding.js";
import { toScaledPercent, WHOLE } from "../money/scales.js";
import type { TaxGroup } from "../sheet.js";
import { handOut } from "./handOut.js";

/** Signed: allowances and credits are negative. */
export interface Taxed {
  readonly amount: Minor;
  readonly taxCategory: string;
}

/**
 * Tax = amount x percent / 100, or amount x percent / (100 + percent) when prices include it. Rounded in the rule's mode:
 * 'group': each group's tax once; 'line': each amount's tax (to `extraDigits` beyond the minor unit), then the sum of all;
 * 'document': the exact sum of all groups once. A sum rounded once is handed out over the groups.
 */
export function taxGroups(amounts: readonly Taxed[], tax: TaxRules): TaxGroup[] {
  const { level, mode, extraDigits = 0 } = tax.rounding;
  const used = tax.categories.filter((category) => amounts.some((taxed) => taxed.taxCategory === category.id));
  const lost = amounts.find((taxed) => !used.some((category) => category.id === taxed.taxCategory));
  if (lost) throw new Error(`Tax category '${lost.taxCategory}' reached the totals unchecked.`);

  const rates = used.map((category) => rateOf(category, tax.included));
  const fine = level === "line" ? 10n ** BigInt(extraDigits) : 1n;
  const common = level === "document" ? rates.reduce((product, rate) => product * rate.over, 1n) : fine;
  const gross = used.map((category) =>
    amounts.filter((taxed) => taxed.taxCategory === category.id).map((taxed) => BigInt(taxed.amount)),
  );
  const shares = rates.map(({ times, over }, index) => {
    const rounded = (amount: bigint) => divideWhole(amount * times * fine, over, mode);
    if (level === "line") return sum(gross[index]!.map(rounded));
    if (level === "group") return rounded(sum(gross[index]!));
    return (sum(gross[index]!) * times * common) / over;
  });
  const printed = handOut(divideWhole(sum(shares), common, mode), shares, common);

  return used.map((category, index) => ({
    category: category.id,
    name: category.name,
    percent: category.percent,
    base: Number(sum(gross[index]!) - (tax.included ? printed[index]! : 0n)),
    tax: Number(printed[index]!),
  }));
}

/** The tax within or on an amount, as an exact fraction of it. */
function rateOf(category: TaxCategory, included: boolean): { times: bigint; over: bigint } {
  const percent = toScaledPercent(category.percent);
  return { times: BigInt(percent), over: BigInt(included ? WHOLE + percent : WHOLE) };
}

const sum = (amounts: readonly bigint[]): bigint => amounts.reduce((total, amount) => total + amount, 0n);
