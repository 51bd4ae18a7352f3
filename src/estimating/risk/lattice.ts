/**
 * Probability masses on the amounts i x h, i whole. Every amount is put down by a linear split onto its two neighbours, so means are exact;
 * a split adds at most h^2 / 4 to a variance.
 */
import type { Chance } from "./model.js";

export interface Masses {
  /** Index of mass[0]. No masses at all: everything lies above the lattice. */
  readonly from: number;
  readonly mass: Float64Array;
}

/** Masses this small at either end are let go. */
const DUST = 1e-11;

/** Single amounts; those above index `top` are dropped. */
export function splitOnto(points: readonly Chance[], h: number, top: number): Masses {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { amount } of points) {
    const position = amount / h;
    if (position > top) continue;
    low = Math.min(low, position);
    high = Math.max(high, position);
  }
  if (low > high) return { from: top, mass: new Float64Array(0) };
  const from = Math.floor(low);
  const mass = new Float64Array(Math.floor(high) + 2 - from);
  for (const { amount, probability } of points) {
    const position = amount / h;
    if (position <= top) splitInto(mass, position - from, probability);
  }
  return trimmed({ from, mass });
}

/** Every amount times `factor`; what then lies above index `top` is dropped. */
export function scaled({ from, mass }: Masses, factor: number, top: number): Masses {
  const low = Math.floor(from * factor);
  const length = Math.min(Math.floor((from + mass.length - 1) * factor) + 2, top + 2) - low;
  if (mass.length === 0 || length <= 0) return { from: low, mass: new Float64Array(0) };
  const out = new Float64Array(length);
  for (let i = 0; i < mass.length; i++) splitInto(out, (from + i) * factor - low, mass[i]!);
  return { from: low, mass: out };
}

function splitInto(out: Float64Array, position: number, amount: number): void {
  const cell = Math.floor(position);
  const rest = position - cell;
  if (cell < out.length) out[cell]! += amount * (1 - rest);
  if (cell + 1 < out.length) out[cell + 1]! += amount * rest;
}

/** The sum of two independent amounts; what lies above index `top` is dropped. */
export function convolve(a: Masses, b: Masses, top: number): Masses {
  const [long, short] = a.mass.length >= b.mass.length ? [a, b] : [b, a];
  const from = a.from + b.from;
  const length = Math.max(0, Math.min(a.mass.length + b.mass.length - 1, top - from + 1));
  const out = new Float64Array(length);
  const source = long.mass;
  for (let j = 0; j < short.mass.length; j++) {
    const weight = short.mass[j]!;
    if (weight === 0) continue;
    const end = Math.min(source.length, length - j);
    for (let i = 0; i < end; i++) out[i + j]! += weight * source[i]!;
  }
  return trimmed({ from, mass: out });
}

/** `a`, and with `probability` also `b`. */
export function convolveIfFound(a: Masses, b: Masses, probability: number, top: number): Masses {
  const low = Math.min(0, b.from);
  const from = a.from + low;
  const length = Math.max(0, Math.min(a.mass.length + Math.max(0, b.from + b.mass.length - 1) - low, top - from + 1));
  const out = new Float64Array(length);
  add(out, a.mass, -low, 1 - probability);
  for (let j = 0; j < b.mass.length; j++) add(out, a.mass, b.from - low + j, probability * b.mass[j]!);
  return trimmed({ from, mass: out });
}

function add(out: Float64Array, source: Float64Array, shift: number, weight: number): void {
  if (weight === 0) return;
  const end = Math.min(source.length, out.length - shift);
  for (let i = 0; i < end; i++) out[i + shift]! += weight * source[i]!;
}

/** a x x + b x y; a weight may be negative. */
export function mixed(a: Masses, x: number, b: Masses, y: number): Masses {
  if (b.mass.length === 0 || y === 0) return { from: a.from, mass: a.mass.map((mass) => x * mass) };
  if (a.mass.length === 0) return { from: b.from, mass: b.mass.map((mass) => y * mass) };
  const from = Math.min(a.from, b.from);
  const out = new Float64Array(Math.max(a.from + a.mass.length, b.from + b.mass.length) - from);
  add(out, a.mass, a.from - from, x);
  add(out, b.mass, b.from - from, y);
  return { from, mass: out };
}

export function trimmed({ from, mass }: Masses): Masses {
  let start = 0;
  let end = mass.length;
  while (end > start + 1 && Math.abs(mass[end - 1]!) < DUST) end--;
  while (start < end - 1 && Math.abs(mass[start]!) < DUST) start++;
  return start === 0 && end === mass.length ? { from, mass } : { from: from + start, mass: mass.subarray(start, end) };
}

/**
 * Hat masses of a continuous amount: mass_i = [G(x_i + h) - 2 G(x_i) + G(x_i - h)] / h with G(x) = E(x - X)+, for the amounts between low and high.
 * Keeps the mean. What lies above index `top` is dropped.
 */
export function hatMasses(below: (x: number) => number, low: number, high: number, h: number, top: number): Masses {
  const from = Math.floor(low / h);
  const mass = new Float64Array(Math.max(0, Math.min(Math.ceil(high / h), top) - from + 1));
  let before = below((from - 1) * h);
  let here = below(from * h);
  for (let i = 0; i < mass.length; i++) {
    const after = below((from + i + 1) * h);
    mass[i] = Math.max(0, (after - 2 * here + before) / h);
    before = here;
    here = after;
  }
  return trimmed({ from, mass });
}
