/** How many random cases a property draws: `usual`, or with `PROPERTY_TIMES=5` five times as many; a fifth on the newer Nodes (`run.ts`). */
export const runs = (usual: number): { readonly numRuns: number } => ({
  numRuns: Math.ceil(usual * Number(process.env.PROPERTY_TIMES ?? 1)),
});
