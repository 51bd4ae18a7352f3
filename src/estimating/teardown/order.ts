/**
 * An order in which everything comes after what it waits for; among those that are free, the lowest rank first.
 * `waitsFor[i]` lists what must come before i. Undefined when some wait for one another.
 */
export function order(waitsFor: readonly (readonly number[])[], rank: readonly number[]): number[] | undefined {
  const left = waitsFor.map((needed) => new Set(needed).size);
  const frees: number[][] = waitsFor.map(() => []);
  waitsFor.forEach((needed, node) => {
    for (const before of new Set(needed)) frees[before]!.push(node);
  });
  const free = left.flatMap((count, node) => (count === 0 ? [node] : []));
  const result: number[] = [];
  while (free.length > 0) {
    let next = 0;
    for (let i = 1; i < free.length; i++) if (rank[free[i]!]! < rank[free[next]!]!) next = i;
    const [node] = free.splice(next, 1);
    result.push(node!);
    for (const freed of frees[node!]!) if (--left[freed]! === 0) free.push(freed);
  }
  return result.length === waitsFor.length ? result : undefined;
}
