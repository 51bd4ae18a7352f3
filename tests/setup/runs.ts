/** How many random cases a property draws: `usual`, or with `PROPERTY_TIMES=5` five times as many. */
export const runs = (usual: number): { readonly numRuns: number } => ({
  numRuns: usual * Number(process.env.PROPERTY_TIMES ?? 1),
});
