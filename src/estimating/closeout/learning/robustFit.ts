/**
 * Centre and spread of observations that one wild one must not move much. The likelihood is Huber's: normal up to EDGE deviations from
 * the centre, exponential beyond, so that what is further off counts as one at the edge (Robust Estimation of a Location Parameter,
 * Annals of Mathematical Statistics 35, 1964, with the scale of his proposal 2; 1.5 as Analytical Methods Committee, Analyst 114, 1989).
 * Once that is found, what lies between OFF and FAR deviations tells less of the spread, and from FAR on nothing: one step of a
 * redescending estimate (Hampel, Journal of the American Statistical Association 69, 1974; Bickel, ibid. 70, 1975). Without it a wild job
 * widens the spread so much that the likely time, the mode, falls. Sources from memory.
 */
import { type Belief, predictedVariance, updated, type Weighed } from "./belief.js";

const EDGE = 1.5;
const OFF = 2;
const FAR = 4;
/** What is left of a normal variance by the edge: the mean of min(z², EDGE²); and that of those who tell, by how far they do. */
const LEFT = 0.778465;
const LEFT_OF_TELLING = 0.765875;
const MOST_STEPS = 100;
const NEAR_ENOUGH = 1e-6;

/** `data` is not empty. `deviationOf` is of one observation; `spreadFrom` takes squares that each tell of the variance, by weight. */
export function robustFit<Spread>(
  data: readonly Weighed[],
  prior: Spread,
  deviationOf: (spread: Spread, at: number) => number,
  spreadFrom: (squares: readonly Weighed[]) => Spread,
): { readonly centre: number; readonly spread: Spread } {
  const n = data.reduce((sum, { weight }) => sum + weight, 0);
  let [centre, spread] = [weightedMedian(data, n), prior];
  const settle = (telling: readonly number[], left: number) => {
    for (let step = 0; step < MOST_STEPS; step++) {
      const [was, deviation] = [centre, deviationOf(spread, 0)];
      const drawn = data.map(({ x }, at) => {
        const edge = EDGE * deviationOf(spread, at);
        return Math.max(was - edge, Math.min(was + edge, x));
      });
      centre = drawn.reduce((sum, x, at) => sum + data[at]!.weight * x, 0) / n;
      spread = spreadFrom(drawn.map((x, at) => ({ x: (x - centre) ** 2 / left, weight: telling[at]! })));
      if (Math.abs(centre - was) + Math.abs(deviationOf(spread, 0) - deviation) < NEAR_ENOUGH) return;
    }
  };
  settle(
    data.map(({ weight }) => weight),
    LEFT,
  );
  const told = data.map(({ x, weight }, at) => {
    const off = Math.abs(x - centre) / deviationOf(spread, at);
    return weight * Math.max(0, Math.min(1, (FAR - off) / (FAR - OFF)));
  });
  settle(told, LEFT_OF_TELLING);
  return { centre, spread };
}

/** The conjugate update by that likelihood. */
export function robustlyUpdated(prior: Belief, data: readonly Weighed[]): Belief {
  const { mean, k, a, b } = prior;
  const n = data.reduce((sum, { weight }) => sum + weight, 0);
  if (!(n > 0)) return prior;
  const { centre, spread } = robustFit(
    data,
    { a, b },
    (of) => Math.sqrt(predictedVariance({ mean, k: k + n, ...of })),
    (squares) => squares.reduce((of, { x, weight }) => ({ a: of.a + weight / 2, b: of.b + (weight * x) / 2 }), { a, b }),
  );
  const atCentre = updated(prior, [{ x: centre, weight: n }]);
  return { ...atCentre, a: spread.a, b: atCentre.b + spread.b - b };
}

function weightedMedian(data: readonly Weighed[], n: number): number {
  let [upTo, middle] = [0, 0];
  for (const { x, weight } of data.toSorted((a, b) => a.x - b.x)) {
    middle = x;
    upTo += weight;
    if (upTo >= n / 2) break;
  }
  return middle;
}
