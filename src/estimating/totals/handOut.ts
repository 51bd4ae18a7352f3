/** Invariant: the whole amounts sum to the total, and each lies less than one unit from its exact share. */

/**
 * Whole amounts for exact shares (numerators over one denominator > 0) whose sum has been rounded to `total`, up or down:
 * each share is cut towards zero, then the units missing go to the largest cut-off fractions, earlier first.
 * Opposite shares give the opposite amounts, so a credit mirrors its charge.
 */
export function handOut(total: bigint, shares: readonly bigint[], denominator: bigint): bigint[] {
  const amounts = shares.map((share) => share / denominator);
  let missing = total - amounts.reduce((sum, amount) => sum + amount, 0n);
  const unit = missing < 0n ? -1n : 1n;
  const cuts = shares
    .map((share, index) => ({ index, size: (share % denominator) * unit }))
    .sort((a, b) => (a.size === b.size ? a.index - b.index : a.size > b.size ? -1 : 1));
  for (const { index } of cuts) {
    if (missing === 0n) break;
    amounts[index] = amounts[index]! + unit;
    missing -= unit;
  }
  return amounts;
}
