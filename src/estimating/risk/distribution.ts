/** The distribution of a job's total. Deterministic: the same model gives the same bytes. Amounts in minor units, not rounded. */
import { atomsOf } from "./atoms.js";
import { convolveTotal, type OnLattice, type Resolution } from "./convolution.js";
import type { Chance, RiskModel } from "./model.js";
import { totalMoments } from "./moments.js";
import { type Terms, termsOf } from "./terms.js";

export interface Distribution {
  readonly expected: number;
  readonly sd: number;
  /** P(total <= amount). */
  readonly atMost: (amount: number) => number;
  /** Least amount with P(total <= amount) >= p, 0 < p < 1. */
  readonly quantile: (p: number) => number;
  /** E(total - amount)+: what a fixed price of `amount` is expected to be short by. */
  readonly shortfall: (amount: number) => number;
}

const FULL: Resolution = { cells: 384, strata: 12 };

/** Mean and sd are exact; percentiles within 0.1 % of the total for usual jobs, 0.5 % for the lumpiest (tests/estimating/risk/simulation). */
export const distributionOf = (model: RiskModel, resolution: Resolution = FULL): Distribution =>
  distributionOfTerms(termsOf(model), resolution);

/** The certain part is set aside first: it moves every amount and changes nothing else. */
export function distributionOfTerms({ fixed, ...uncertain }: Terms, resolution: Resolution): Distribution {
  const terms = { ...uncertain, fixed: 0 };
  const total = totalMoments(terms);
  const expected = fixed + total.mean;
  const sd = Math.sqrt(Math.max(0, total.variance));
  const atoms = atomsOf(terms);
  return atoms === undefined
    ? fromLattices(convolveTotal(terms, total, resolution), fixed, expected, sd)
    : fromAtoms(atoms, fixed, expected, sd);
}

/** Sums of masses this close are one probability: a percentile that stands on the edge of a step is the edge. */
const SLACK = 1e-8;

function fromAtoms(list: readonly Chance[], fixed: number, expected: number, sd: number): Distribution {
  const atoms = list.map(({ probability, amount }) => ({ probability, amount: fixed + amount }));
  return {
    expected,
    sd,
    atMost: (amount) =>
      Math.min(
        1,
        atoms.reduce((sum, atom) => sum + (atom.amount <= amount + 1e-9 ? atom.probability : 0), 0),
      ),
    quantile: (p) => {
      let sum = 0;
      for (const atom of atoms) {
        sum += atom.probability;
        if (sum >= p - SLACK) return atom.amount;
      }
      return atoms[atoms.length - 1]!.amount;
    },
    shortfall: (amount) => atoms.reduce((sum, atom) => sum + atom.probability * Math.max(0, atom.amount - amount), 0),
  };
}

/** One lattice as a curve: up to the amount `end`, and the probability `reached`. */
interface Curve extends Pick<Distribution, "atMost" | "quantile"> {
  readonly end: number;
  readonly reached: number;
  /** E(amount - total)+. */
  readonly below: (amount: number) => number;
}

/** The finest curve that reaches far enough answers. */
function fromLattices(lattices: readonly OnLattice[], fixed: number, expected: number, sd: number): Distribution {
  const curves = lattices.map((lattice) => read(lattice, fixed));
  const whole = curves[0]!;
  const forAmount = (amount: number) => curves.findLast((curve) => amount <= curve.end) ?? whole;
  return {
    expected,
    sd,
    atMost: (amount) => forAmount(amount).atMost(amount),
    quantile: (p) => {
      const at = Math.max(
        0,
        curves.findLastIndex((curve) => p - SLACK <= curve.reached),
      );
      // What a finer curve ends below, it knows better.
      return Math.max(curves[at]!.quantile(p), curves[at + 1]?.end ?? Number.NEGATIVE_INFINITY);
    },
    // E(T - K)+ = E(T) - K + E(K - T)+: needs nothing from above the lattice.
    shortfall: (amount) => Math.max(0, expected - amount + forAmount(amount).below(amount)),
  };
}

/**
 * Between lattice points the probability rises straight, from half a cell below a point to half a cell above it. At the certain amount it jumps: no total
 * is lower, and where nothing turns up the total is that amount to the cent.
 */
function read({ from, mass, h }: OnLattice, fixed: number): Curve {
  const upTo = new Float64Array(mass.length + 1);
  for (let i = 0; i < mass.length; i++) upTo[i + 1] = upTo[i]! + mass[i]!;
  const start = fixed + (from - 0.5) * h;
  const atFixed = upTo[Math.min(mass.length, Math.max(0, 1 - from))]!;
  return {
    end: start + mass.length * h,
    reached: upTo[mass.length]!,
    atMost: (amount) => {
      const position = (amount - start) / h;
      if (amount < fixed || position <= 0) return 0;
      const cell = Math.floor(position);
      const risen = cell >= mass.length ? upTo[mass.length]! : upTo[cell]! + (position - cell) * mass[cell]!;
      return Math.min(1, Math.max(atFixed, risen));
    },
    quantile: (p) => {
      if (p - SLACK <= atFixed) return fixed;
      let low = 0;
      let high = mass.length;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (upTo[middle]! < p - SLACK) low = middle;
        else high = middle;
      }
      const within = mass[low]! > 0 ? Math.min(1, Math.max(0, (p - upTo[low]!) / mass[low]!)) : 1;
      return Math.max(fixed, start + (low + within) * h);
    },
    below: (amount) => {
      let sum = 0;
      for (let i = 0; i < mass.length; i++) {
        const gap = amount - (fixed + (from + i) * h);
        if (gap <= 0) break;
        sum += mass[i]! * gap;
      }
      return sum;
    },
  };
}
