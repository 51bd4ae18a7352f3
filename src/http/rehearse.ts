/** The engine run once before anyone asks: what a Worker compiles while it starts, the first request need not wait for. */
import { estimate } from "../estimating/estimate.js";
import { REHEARSAL_JOB } from "./rehearsalJob.js";

/** Throws if the made-up job is refused: our own fault. */
export function rehearse(): void {
  const outcome = estimate(REHEARSAL_JOB, { risk: true });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
}
