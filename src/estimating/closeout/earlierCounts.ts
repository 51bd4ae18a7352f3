/** What earlier jobs of a model came to, count by count: a suggestion for the next one, never an assumption. */

/** One work item of an earlier job. */
export interface CountSeen {
  readonly job: string;
  /** Name of the assembly; absent: the unit as a whole. */
  readonly assembly?: string;
  readonly operation: string;
  readonly partType?: string;
  readonly count: number;
}

export interface EarlierCount {
  readonly assembly?: string;
  readonly operation: string;
  readonly partType?: string;
  /** Over the jobs that had it: whole, or with a half where two middle counts differ by an odd number. */
  readonly median: number;
  readonly least: number;
  readonly most: number;
  /** Jobs that had it, of how many that were looked at. */
  readonly jobs: number;
  readonly of: number;
}

/** Several items of one job, assembly and part are one count. Names are the same whatever their case. Most frequent first. */
export function earlierCounts(seen: readonly CountSeen[], of: number): readonly EarlierCount[] {
  const found = new Map<string, { readonly first: CountSeen; readonly byJob: Map<string, number> }>();
  for (const one of seen) {
    const key = JSON.stringify([one.assembly?.trim().toLowerCase() ?? null, one.operation, one.partType ?? null]);
    const { byJob } = found.get(key) ?? found.set(key, { first: one, byJob: new Map() }).get(key)!;
    byJob.set(one.job, (byJob.get(one.job) ?? 0) + one.count);
  }
  const counts = [...found.values()].map(({ first, byJob }): EarlierCount => {
    const { assembly, operation, partType } = first;
    const sorted = [...byJob.values()].sort((a, b) => a - b);
    return {
      ...(assembly !== undefined && { assembly }),
      operation,
      ...(partType !== undefined && { partType }),
      median: median(sorted),
      least: sorted[0]!,
      most: sorted.at(-1)!,
      jobs: sorted.length,
      of,
    };
  });
  return counts.sort((a, b) => b.jobs - a.jobs);
}

const median = (sorted: readonly number[]): number => (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;

/** Usual enough to be suggested: at least every second job had it. */
export const isUsual = ({ jobs, of }: EarlierCount): boolean => jobs * 2 >= of;

/** The whole count that is suggested; a half goes up. */
export const suggested = ({ median }: EarlierCount): number => Math.ceil(median);
