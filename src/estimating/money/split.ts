/** An amount divided into whole parts that sum to it. */

/** Splits an amount by whole weights; the parts always sum to the amount. The remainder goes, one unit each, to the largest fractions, earlier first. */
export function split(amount: number, weights: readonly number[]): number[] {
  const total = weights.reduce((sum, weight) => sum + BigInt(weight), 0n);
  if (total === 0n) return weights.map((_, index) => (index === 0 ? amount : 0));
  const sign = amount < 0 ? -1n : 1n;
  const size = BigInt(amount) * sign;
  const shares = weights.map((weight, index) => {
    const product = size * BigInt(weight);
    return { index, whole: product / total, rest: product % total };
  });
  let left = size - shares.reduce((sum, share) => sum + share.whole, 0n);
  const order = [...shares].sort((a, b) => (a.rest === b.rest ? a.index - b.index : a.rest > b.rest ? -1 : 1));
  for (const share of order) {
    if (left === 0n) break;
    share.whole += 1n;
    left -= 1n;
  }
  return shares.map((share) => Number(share.whole * sign));
}

/**
 * Whole amounts for exact shares (numerators over one denominator > 0) whose sum has been rounded to `total`, up or down:
 * each share is cut towards zero, then the units missing go to the largest cut-off fractions, earlier first.
 * Each lies less than one unit from its exact share. Opposite shares give the opposite amounts, so a credit mirrors its charge.
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
