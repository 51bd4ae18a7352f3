/** Test only: draws jobs at random from a risk model, seeded, written apart from the engine (beta quantiles by the reference library, no shared code). */
import jStat from "jstat";
import type { Chance, LabourRisk, RiskModel } from "../../../src/estimating/risk/model.js";

/** sfc32 (C. Doty-Humphrey, PractRand; from memory): fills the first so many places with whole numbers of 32 random bits. */
function bits(seed: number): (out: Int32Array, count: number) => void {
  const state = Int32Array.of(0x9e3779b9, 0x243f6a88, seed, 1);
  const fill = (out: Int32Array, count: number) => {
    let [a, b, c, counter] = [state[0]!, state[1]!, state[2]!, state[3]!];
    for (let at = 0; at < count; at++) {
      const t = (a + b + counter) | 0;
      counter = (counter + 1) | 0;
      a = b ^ (b >>> 9);
      b = (c + (c << 3)) | 0;
      c = (((c << 21) | (c >>> 11)) + t) | 0;
      out[at] = t;
    }
    state.set([a, b, c, counter]);
  };
  fill(new Int32Array(20), 20);
  return fill;
}

/** Uniform on (0, 1). */
export function seeded(seed: number): () => number {
  const fill = bits(seed);
  const ready = new Int32Array(1024);
  let next = ready.length;
  return () => {
    if (next === ready.length) {
      fill(ready, ready.length);
      next = 0;
    }
    return ((ready[next++]! >>> 0) + 0.5) / 4294967296;
  };
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
const NODE_BITS = 10;
const NODES = 2 ** NODE_BITS;
const REST = 2 ** -(32 - NODE_BITS);
const REST_BITS = 2 ** (32 - NODE_BITS) - 1;
const tables = new Map<string, Float64Array>();
function betaTable(alpha: number, beta: number): Float64Array {
  const key = `${alpha} ${beta}`;
  const table = tables.get(key) ?? Float64Array.from({ length: NODES + 1 }, (_, k) => betaQuantile(k / NODES, alpha, beta));
  tables.set(key, table);
  return table;
}
const betaQuantile = (p: number, alpha: number, beta: number): number =>
  p <= 0 ? 0 : p >= 1 ? 1 : jStat.beta.inv(p, alpha, beta);

/** What a line costs, in minor units, at each node. */
function costs({ time: { low, likely, high }, ratePerHour }: LabourRisk): Float64Array {
  const rate = ratePerHour / 60;
  if (high <= low) return new Float64Array(NODES + 1).fill(low * rate);
  const alpha = 1 + (4 * (likely - low)) / (high - low);
  return betaTable(alpha, 6 - alpha).map((share) => (low + (high - low) * share) * rate);
}

/** Amounts, and the chance of one up to each, as a whole number of 31 bits. */
interface Pick {
  readonly amounts: readonly number[];
  readonly upTo: readonly number[];
}

const HALF = 2 ** 31;

function pick(outcomes: readonly Chance[]): Pick {
  let sum = 0;
  const upTo = outcomes.map(({ probability }) => {
    sum += probability;
    return sum * HALF;
  });
  return { amounts: outcomes.map(({ amount }) => amount), upTo };
}

/** Work on some jobs of a lot: draws are made line by line, so that a line's table stays at hand. */
function lot(seed: number, size: number) {
  const fill = bits(seed);
  const random = new Int32Array(size);
  return {
    /** Those of the jobs that have it. */
    having(probability: number, out: Int32Array): number {
      fill(random, size);
      let count = 0;
      const below = Math.round(probability * HALF);
      for (let job = 0; job < size; job++) {
        out[count] = job;
        if (random[job]! >>> 1 < below) count++;
      }
      return count;
    },
    addLine(to: Float64Array, jobs: Int32Array, count: number, table: Float64Array): void {
      fill(random, count);
      for (let at = 0; at < count; at++) {
        const word = random[at]!;
        const node = word >>> (32 - NODE_BITS);
        const left = table[node]!;
        to[jobs[at]!]! += left + (word & REST_BITS) * REST * (table[node + 1]! - left);
      }
    },
    addPick(to: Float64Array, jobs: Int32Array, count: number, { amounts, upTo }: Pick): void {
      const last = amounts.length - 1;
      if (last < 0) return;
      fill(random, count);
      for (let at = 0; at < count; at++) {
        const place = random[at]! >>> 1;
        let which = 0;
        while (which < last && place >= upTo[which]!) which++;
        to[jobs[at]!]! += amounts[which]!;
      }
    },
  };
}

const LOT = 4096;

/** Totals of `jobs` simulated jobs, in minor units, in no order. */
export function simulate(model: RiskModel, jobs: number, seed: number): Float64Array {
  const { having, addLine, addPick } = lot(seed, LOT);
  const normal = normals(seeded(~seed));
  const sigma = Math.sqrt(Math.log(1 + model.conditionCv ** 2));
  const drawn = (labour: readonly LabourRisk[], parts: RiskModel["sourcing"]) => ({
    under: labour.filter((line) => line.underCondition).map(costs),
    steady: labour.filter((line) => !line.underCondition).map(costs),
    sourcing: parts.map((part) => pick(part.outcomes)),
  });
  const planned = drawn(model.labour, model.sourcing);
  const found = model.ifFound.map((lump) => ({ ...lump, ...drawn(lump.labour, lump.sourcing ?? []) }));
  const [hours, rest] = [new Float64Array(LOT), new Float64Array(LOT)];
  const add = ({ under, steady, sourcing }: typeof planned, who: Int32Array, count: number) => {
    for (const table of under) addLine(hours, who, count, table);
    for (const table of steady) addLine(rest, who, count, table);
    for (const part of sourcing) addPick(rest, who, count, part);
  };
  const everyJob = Int32Array.from({ length: LOT }, (_, job) => job);
  const some = new Int32Array(LOT);
  const totals = new Float64Array(jobs);
  for (let from = 0; from < jobs; from += LOT) {
    const size = Math.min(LOT, jobs - from);
    hours.fill(0);
    rest.fill(model.fixed);
    add(planned, everyJob, size);
    for (const lump of found) {
      const count = having(lump.probability, some);
      for (let at = 0; at < count; at++) rest[some[at]!]! += lump.parts;
      add(lump, some, count);
    }
    for (let job = 0; job < size; job++)
      totals[from + job] = rest[job]! + hours[job]! * (sigma > 0 ? Math.exp(sigma * normal() - (sigma * sigma) / 2) : 1);
  }
  return totals;
}

/** The least amount that p of the totals do not exceed. Moves the totals about (Hoare's selection), in place. */
export function quantileOf(totals: Float64Array, p: number): number {
  const wanted = Math.ceil(p * totals.length) - 1;
  let [from, to] = [0, totals.length - 1];
  while (from < to) {
    const pivot = totals[(from + to) >> 1]!;
    let [left, right] = [from, to];
    while (left <= right) {
      while (totals[left]! < pivot) left++;
      while (totals[right]! > pivot) right--;
      if (left > right) break;
      const moved = totals[left]!;
      totals[left++] = totals[right]!;
      totals[right--] = moved;
    }
    if (wanted <= right) to = right;
    else if (wanted >= left) from = left;
    else break;
  }
  return totals[wanted]!;
}
