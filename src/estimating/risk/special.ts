/** Functions that the distributions rest on: the standard normal, and the regularised incomplete beta (PERT, binomial, negative binomial). */

const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905, -0.13857109526572012,
  9.984369578019572e-6, 1.5056327351493116e-7,
];

/** ln of the gamma function for x > 0 (Lanczos, g = 7, nine terms; from memory, held against jstat). */
export function lnGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - lnGamma(1 - x);
  const y = x - 1;
  let sum = 0.9999999999998099;
  for (let term = 0; term < LANCZOS.length; term++) sum += LANCZOS[term]! / (y + term + 1);
  const t = y + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (y + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** ln of the beta function; a, b > 0. */
export const lnBeta = (a: number, b: number): number => lnGamma(a) + lnGamma(b) - lnGamma(a + b);

/** I_x(a, b) for a, b > 0, 0 <= x <= 1: continued fraction DLMF 8.17.22, evaluated by Lentz's method. `lnB` saves recomputing lnBeta(a, b). */
export function incompleteBeta(x: number, a: number, b: number, lnB = lnBeta(a, b)): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a, lnB);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) - lnB) / a;
  let c = 1;
  let d = 1 / guard(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / guard(1 + even * d);
    c = guard(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / guard(1 + odd * d);
    c = guard(1 + odd / c);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return front * fraction;
}

const guard = (value: number): number => (Math.abs(value) < 1e-300 ? 1e-300 : value);

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / ROOT_TWO_PI;

/** P(Z <= z), about 15 figures. Rational approximation 5666 of Hart et al., Computer Approximations (1968), from memory; held against jstat. */
export function normalCdf(z: number): number {
  const size = Math.abs(z);
  if (size > 37) return z > 0 ? 1 : 0;
  const decay = Math.exp(-0.5 * size * size);
  let tail: number;
  if (size < 7.07106781186547) {
    let top = 0.0352624965998911 * size + 0.700383064443688;
    top = top * size + 6.37396220353165;
    top = top * size + 33.912866078383;
    top = top * size + 112.079291497871;
    top = top * size + 221.213596169931;
    top = top * size + 220.206867912376;
    let bottom = 0.0883883476483184 * size + 1.75566716318264;
    bottom = bottom * size + 16.064177579207;
    bottom = bottom * size + 86.7807322029461;
    bottom = bottom * size + 296.564248779674;
    bottom = bottom * size + 637.333633378831;
    bottom = bottom * size + 793.826512519948;
    bottom = bottom * size + 440.413735824752;
    tail = (decay * top) / bottom;
  } else {
    tail = decay / (size + 1 / (size + 2 / (size + 3 / (size + 4 / (size + 0.65))))) / ROOT_TWO_PI;
  }
  return z > 0 ? 1 - tail : tail;
}
