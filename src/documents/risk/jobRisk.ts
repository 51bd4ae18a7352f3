import type { Minor } from "../../estimating/input.js";

/** What the shop's page says about the risk of a job. Money = minor units; every amount is with tax, or every one without. */
export interface JobRisk {
  readonly taxIncluded: boolean;
  readonly expected: Minor;
  /** Standard deviation. */
  readonly sd: Minor;
  /** 'p of 100 jobs like this cost that or less.' */
  readonly p10: Minor;
  readonly p50: Minor;
  readonly p80: Minor;
  readonly p95: Minor;
  /** The price that was chosen. `chanceOfLoss`: P(cost > price), 0 to 1; `expectedLoss`: E(cost - price)+, over all jobs. */
  readonly tried: { readonly price: Minor; readonly chanceOfLoss: number; readonly expectedLoss: Minor };
  /** Chance, 0 to 1, that the job costs the amount or less; amounts rise. */
  readonly curve: readonly { readonly amount: Minor; readonly chance: number }[];
  /** Largest first. */
  readonly contributions: readonly RiskShare[];
}

export interface RiskShare {
  readonly source: "condition" | "labour" | "sourcing" | "if found";
  /** Id of a sheet's line, work item, part type, part kind or group that may be found. */
  readonly id: string;
  /** Where the sheet does not know the id. */
  readonly name?: string;
  /** The 80 % percentile less the same with this thing fixed at its expected cost; may be below 0. */
  readonly takesOff: Minor;
}
