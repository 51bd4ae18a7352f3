/** The parts of the reference library that the tests use; it ships no types. */
declare module "jstat" {
  export const jStat: {
    readonly normal: {
      pdf(x: number, mean: number, sd: number): number;
      cdf(x: number, mean: number, sd: number): number;
      inv(p: number, mean: number, sd: number): number;
    };
    readonly lognormal: { cdf(x: number, mu: number, sigma: number): number; inv(p: number, mu: number, sigma: number): number };
    readonly beta: {
      pdf(x: number, alpha: number, beta: number): number;
      cdf(x: number, alpha: number, beta: number): number;
      inv(p: number, alpha: number, beta: number): number;
      mean(alpha: number, beta: number): number;
      variance(alpha: number, beta: number): number;
    };
    readonly studentt: { cdf(x: number, df: number): number; inv(p: number, df: number): number };
    readonly binomial: { pdf(k: number, n: number, p: number): number; cdf(k: number, n: number, p: number): number };
    readonly negbin: { pdf(k: number, r: number, p: number): number; cdf(k: number, r: number, p: number): number };
    readonly poisson: { pdf(k: number, mean: number): number; cdf(k: number, mean: number): number };
    gammaln(x: number): number;
    betaln(a: number, b: number): number;
    ibeta(x: number, a: number, b: number): number;
    combinationln(n: number, m: number): number;
  };
  /** The same: plain Node sees a CommonJS module's default only. */
  export default jStat;
}
