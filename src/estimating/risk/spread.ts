/**
 * Within one stratum of the condition factor, every amount slides with the factor by the labour in it. Its mass is laid out as a density that is linear
 * between the stratum's edges and has the stratum's mean: jumps of the density and of its slope on the lattice, summed up once for all strata.
 */
import type { Stratum } from "./condition.js";
import { sumOf } from "./cumulants.js";
import type { Masses } from "./lattice.js";
import type { Terms } from "./terms.js";

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
  const layers = emptyLayers(Math.max(1, top - origin + 1));
  for (const slide of slides) lay(slide, layers, origin);
  return { from: origin, mass: summedUp(layers) };
}

interface Layers {
  readonly masses: Float64Array;
  /** Of the density. */
  readonly jumps: Float64Array;
  /** Of the density's slope. */
  readonly bends: Float64Array;
}

const emptyLayers = (cells: number): Layers => ({
  masses: new Float64Array(cells),
  jumps: new Float64Array(cells),
  bends: new Float64Array(cells),
});

function lay({ stratum, masses: { from, mass }, labour }: Slide, layers: Layers, origin: number): void {
  const { masses } = layers;
  const left = stratum.from - stratum.mean;
  const width = stratum.to - stratum.from;
  // Slope of the density relative to its height, so that its mean is the stratum's: between -1 and 1.
  const lean = width > 0 ? Math.max(-1, Math.min(1, (-6 * left) / width - 3)) : 0;
  for (let i = 0; i < mass.length; i++) {
    const cell = from - origin + i;
    const hours = Math.max(0, labour.at0 + labour.perCell * (from + i));
    const cells = hours * width;
    const share = mass[i]! * stratum.mass;
    if (cells < SHORT) {
      if (cell < masses.length) masses[cell]! += share;
      continue;
    }
    const height = share / cells;
    const bend = (2 * lean * height) / cells;
    const start = cell + hours * left;
    const excess = edge(layers, start, height * (1 - lean), bend) + edge(layers, start + cells, -height * (1 + lean), -bend);
    if (cell < masses.length) masses[cell]! -= excess;
  }
}

/**
 * A jump and a bend of the density at a place between two lattice points, split linearly. The jump goes half a cell on: a lattice point at the very edge of a
 * block belongs to it by half. Returns what the slope sums to too much: bend x r (1 - r) / 2, r being the way to the next point.
 */
function edge({ jumps, bends }: Layers, position: number, jump: number, bend: number): number {
  const last = jumps.length - 1;
  const cell = Math.floor(position);
  const rest = position - cell;
  if (cell <= last) {
    bends[cell]! += bend * (1 - rest);
    if (cell < last) bends[cell + 1]! += bend * rest;
  }
  const later = rest < 0.5 ? cell : cell + 1;
  const over = rest < 0.5 ? rest + 0.5 : rest - 0.5;
  if (later <= last) {
    jumps[later]! += jump * (1 - over);
    if (later < last) jumps[later + 1]! += jump * over;
  }
  return (bend * rest * (1 - rest)) / 2;
}

function summedUp({ masses, jumps, bends }: Layers): Float64Array {
  let density = 0;
  let slope = 0;
  return masses.map((mass, i) => {
    density += jumps[i]! + slope;
    slope += bends[i]!;
    return Math.max(0, mass + density);
  });
}

/** Lowest lattice index a slide can reach: labour changes straight along the masses, so one of their ends. */
function firstIndex({ stratum, masses, labour }: Slide): number {
  const left = stratum.from - stratum.mean;
  const reach = (index: number) => index + Math.max(0, labour.at0 + labour.perCell * index) * left;
  return Math.floor(Math.min(reach(masses.from), reach(masses.from + masses.mass.length - 1), masses.from));
}

/** Labour at factor 1, in cells, expected in the amount at lattice index i: at0 + perCell x i, never below 0. */
interface LabourLine {
  readonly at0: number;
  readonly perCell: number;
}

/** How much labour to expect in a given total at condition c: the straight line of labour on the total, from exact moments. */
export function labourBehind(terms: Terms, h: number): (c: number) => LabourLine {
  const lines = sumOf(terms.lines);
  const unmoved = sumOf([...terms.steady, ...terms.draws]);
  let labour = terms.sure + lines.mean;
  let labourVariance = lines.variance;
  let both = 0;
  let other = unmoved.mean;
  let otherVariance = unmoved.variance;
  for (const { probability: p, labour: l, other: q } of terms.lumps) {
    labour += p * l.mean;
    labourVariance += p * (l.variance + l.mean * l.mean) - (p * l.mean) ** 2;
    both += p * (1 - p) * l.mean * q.mean;
    other += p * q.mean;
    otherVariance += p * (q.variance + q.mean * q.mean) - (p * q.mean) ** 2;
  }
  for (const cluster of terms.clusters) {
    labour += cluster.labour;
    labourVariance += cluster.variance.labour;
    both += cluster.variance.both;
    other += cluster.other;
    otherVariance += cluster.variance.other;
  }
  return (c) => {
    const variance = c * c * labourVariance + 2 * c * both + otherVariance;
    const perCell = variance > 0 ? (c * labourVariance + both) / variance : 0;
    return { at0: (labour - perCell * (c * labour + other)) / h, perCell };
  };
}
