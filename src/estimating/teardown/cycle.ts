/** Nodes that wait for one another in a ring, each for the next and the last for the first; undefined when there is none. */
export function findCycle(waitsFor: readonly (readonly number[])[]): number[] | undefined {
  const done = new Set<number>();
  const path: number[] = [];
  const follow = (node: number): number[] | undefined => {
    const start = path.indexOf(node);
    if (start >= 0) return path.slice(start);
    if (done.has(node)) return undefined;
    path.push(node);
    for (const next of waitsFor[node]!) {
      const cycle = follow(next);
      if (cycle) return cycle;
    }
    path.pop();
    done.add(node);
    return undefined;
  };
  for (const node of waitsFor.keys()) {
    const cycle = follow(node);
    if (cycle) return cycle;
  }
  return undefined;
}
