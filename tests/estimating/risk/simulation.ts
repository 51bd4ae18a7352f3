/** Test only: draws jobs at random from a risk model, seeded, written apart from the engine (beta quantiles by the reference library, no shared code). */
import jStat from "jstat";
import type { Chance, LabourRisk, RiskModel } from "../../../src/estimating/risk/model.js";

/** sfc32 (C. Doty-Humphrey, PractRand; from memory): uniform on (0, 1). */
export function seeded(seed: number): () => number {
  let [a, b, c, counter] = [0x9e3779b9, 0x243f6a88, seed | 0, 1];
  const next = () => {
    const t = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + t;
    return ((t >>> 0) + 0.5) / 4294967296;
  };
  for (let warm = 0; warm < 20; warm++) next();
  return next;
}

/** Marsaglia's polar method. */
export function normals(uniform: () => number): () => number {
  let spare = Number.NaN;
  return () => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * factor;
      return x * factor;
    }
  };
}

/** Quantiles of Beta(alpha, beta) at k / NODES by the reference library; a draw is a random node and a straight step towards the next. */
const NODES = 1024;
const tables = new Map<string, Float64Array>();
function betaTable(alpha: number, beta: number): Float64Array {
  const key = `${alpha} ${beta}`;
  const table = tables.get(key) ?? Float64Array.from({ length: NODES + 1 }, (_, k) => betaQuantile(k / NODES, alpha, beta));
  tables.set(key, table);
  return table;
}
const betaQuantile = (p: number, alpha: number, beta: number): number =>
  p <= 0 ? 0 : p >= 1 ? 1 : jStat.beta.inv(p, alpha, beta);

/** Sorted totals of `jobs` simulated jobs, in minor units. */
export function simulate(model: RiskModel, jobs: number, seed: number): Float64Array {
  const uniform = seeded(seed);
  const normal = normals(uniform);
  const sigma = Math.sqrt(Math.log(1 + model.conditionCv ** 2));
  const sampler = ({ time: { low, likely, high }, ratePerHour }: LabourRisk) => {
    const rate = ratePerHour / 60;
    if (high <= low) return () => low * rate;
    const alpha = 1 + (4 * (likely - low)) / (high - low);
    const beta = 1 + (4 * (high - likely)) / (high - low);
    const table = betaTable(alpha, beta);
    return () => {
      const place = uniform() * NODES;
      const node = Math.floor(place);
      const share = table[node]! + (place - node) * (table[node + 1]! - table[node]!);
      return (low + (high - low) * share) * rate;
    };
  };
  const pick = (outcomes: readonly Chance[]) => () => {
    let u = uniform();
    for (const { probability, amount } of outcomes) {
      u -= probability;
      if (u < 0) return amount;
    }
    return outcomes.length === 0 ? 0 : outcomes[outcomes.length - 1]!.amount;
  };
  const under = model.labour.filter((line) => line.underCondition).map(sampler);
  const steady = model.labour.filter((line) => !line.underCondition).map(sampler);
  const sourcing = model.sourcing.map((part) => pick(part.outcomes));
  const found = model.ifFound.map((lump) => ({
    probability: lump.probability,
    parts: lump.parts,
    under: lump.labour.filter((line) => line.underCondition).map(sampler),
    steady: lump.labour.filter((line) => !line.underCondition).map(sampler),
    sourcing: (lump.sourcing ?? []).map((part) => pick(part.outcomes)),
  }));
  const totals = new Float64Array(jobs);
  for (let job = 0; job < jobs; job++) {
    let hours = 0;
    let rest = model.fixed;
    for (const draw of under) hours += draw();
    for (const draw of steady) rest += draw();
    for (const draw of sourcing) rest += draw();
    for (const lump of found) {
      if (uniform() >= lump.probability) continue;
      rest += lump.parts;
      for (const draw of lump.under) hours += draw();
      for (const draw of lump.steady) rest += draw();
      for (const draw of lump.sourcing) rest += draw();
    }
    totals[job] = rest + hours * (sigma > 0 ? Math.exp(sigma * normal() - (sigma * sigma) / 2) : 1);
  }
  return totals.sort();
}

export const quantileOf = (sorted: Float64Array, p: number): number => sorted[Math.ceil(p * sorted.length) - 1]!;
