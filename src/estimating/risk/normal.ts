/** The standard normal distribution. */

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
