/**
 * Within one stratum of the condition factor, every amount slides with the factor by the labour in it. Its mass is laid out as a density that is linear
 * between the stratum's edges and has the stratum's mean: jumps of the density and of its slope on the lattice, summed up once for all strata.
 */
import type { Stratum } from "./condition.js";
import type { LabourLine } from "./labourBehind.js";
import type { Masses } from "./lattice.js";

export interface Slide {
  readonly stratum: Stratum;
  /** Masses at the stratum's mean factor. */
  readonly masses: Masses;
  readonly labour: LabourLine;
}

/** A slide shorter than this many cells is not spread. */
const SHORT = 0.5;

/** All strata together, each by its share of units; what lies above index `top` is dropped. */
export function layDown(slides: readonly Slide[], top: number): Masses {
  const origin = Math.min(top, ...slides.filter(({ masses }) => masses.mass.length > 0).map(firstIndex));
  const cells = Math.max(1, top - origin + 1);
  const plain = new Float64Array(cells);
  const jumps = new Float64Array(cells);
  const bends = new Float64Array(cells);
  for (const { stratum, masses, labour } of slides) {
    const left = stratum.from - stratum.mean;
    const right = stratum.to - stratum.mean;
    // Relative slope of the density, so that its mean is the stratum's: between -1 and 1.
    const lean = right > left ? Math.max(-1, Math.min(1, (-3 * (left + right)) / (right - left))) : 0;
    for (let i = 0; i < masses.mass.length; i++) {
      const mass = masses.mass[i]! * stratum.mass;
      if (mass === 0) continue;
      const index = masses.from + i;
      const cell = index - origin;
      const hours = Math.max(0, labour.at0 + labour.perCell * index);
      const width = hours * (right - left);
      if (width < SHORT) {
        if (cell < cells) plain[cell]! += mass;
        continue;
      }
      const start = cell + hours * left;
      const end = cell + hours * right;
      const height = mass / width;
      const bend = (2 * lean * height) / width;
      // Half a cell on: a lattice point at the very edge of a block belongs to it by half.
      place(jumps, start + 0.5, height * (1 - lean));
      place(jumps, end + 0.5, -height * (1 + lean));
      place(bends, start, bend);
      place(bends, end, -bend);
    }
  }
  let density = 0;
  let slope = 0;
  for (let i = 0; i < cells; i++) {
    density += jumps[i]! + slope;
    slope += bends[i]!;
    plain[i] = Math.max(0, plain[i]! + density);
  }
  return { from: origin, mass: plain };
}

function place(into: Float64Array, position: number, amount: number): void {
  const cell = Math.floor(position);
  if (cell >= into.length) return;
  const rest = position - cell;
  into[cell]! += amount * (1 - rest);
  if (cell + 1 < into.length) into[cell + 1]! += amount * rest;
}

/** Lowest lattice index a slide can reach: labour changes straight along the masses, so one of their ends. */
function firstIndex({ stratum, masses, labour }: Slide): number {
  const left = stratum.from - stratum.mean;
  const reach = (index: number) => index + Math.max(0, labour.at0 + labour.perCell * index) * left;
  return Math.floor(Math.min(reach(masses.from), reach(masses.from + masses.mass.length - 1), masses.from));
}
