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
