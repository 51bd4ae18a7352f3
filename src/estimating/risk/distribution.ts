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

export const FULL: Resolution = { cells: 384, strata: 12 };

/** Mean and sd are exact; percentiles within 0.1 % of the total for usual jobs, 0.5 % for the lumpiest (tests/estimating/risk/simulation). */
export const distributionOf = (model: RiskModel, resolution: Resolution = FULL): Distribution =>
  distributionOfTerms(termsOf(model), resolution);

export function distributionOfTerms(terms: Terms, resolution: Resolution): Distribution {
  const total = totalMoments(terms);
  const atoms = atomsOf(terms);
  if (atoms !== undefined) return fromAtoms(atoms, total.mean, Math.sqrt(Math.max(0, total.variance)));
  return fromLattices(
    convolveTotal(terms, total, resolution).map((lattice) => read(lattice, terms.fixed)),
    total.mean,
    Math.sqrt(total.variance),
  );
}

function fromAtoms(atoms: readonly Chance[], expected: number, sd: number): Distribution {
  const SLACK = 1e-12;
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
function fromLattices(curves: readonly Curve[], expected: number, sd: number): Distribution {
  const whole = curves[0]!;
  const forAmount = (amount: number) => curves.findLast((curve) => amount <= curve.end) ?? whole;
  return {
    expected,
    sd,
    atMost: (amount) => forAmount(amount).atMost(amount),
    quantile: (p) => (curves.findLast((curve) => p <= curve.reached) ?? whole).quantile(p),
    // E(T - K)+ = E(T) - K + E(K - T)+: needs nothing from above the lattice.
    shortfall: (amount) => Math.max(0, expected - amount + forAmount(amount).below(amount)),
  };
}

/** Between lattice points the probability rises straight, from half a cell below a point to half a cell above it. */
function read({ from, mass, h }: OnLattice, fixed: number): Curve {
  const upTo = new Float64Array(mass.length + 1);
  for (let i = 0; i < mass.length; i++) upTo[i + 1] = upTo[i]! + mass[i]!;
  const start = fixed + (from - 0.5) * h;
  return {
    end: start + mass.length * h,
    reached: upTo[mass.length]!,
    atMost: (amount) => {
      const position = (amount - start) / h;
      if (position <= 0) return 0;
      const cell = Math.floor(position);
      if (cell >= mass.length) return Math.min(1, upTo[mass.length]!);
      return Math.min(1, upTo[cell]! + (position - cell) * mass[cell]!);
    },
    quantile: (p) => {
      let low = 0;
      let high = mass.length;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (upTo[middle]! < p) low = middle;
        else high = middle;
      }
      const within = mass[low]! > 0 ? Math.min(1, Math.max(0, (p - upTo[low]!) / mass[low]!)) : 1;
      return start + (low + within) * h;
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
