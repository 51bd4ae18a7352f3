/** The engine run before anyone asks: what a Worker compiles while it starts, the first request need not wait for. */
import { estimate } from "../../estimating/estimate.js";
import { REHEARSAL_JOB } from "./rehearsalJob.js";

/** Once compiles; twice more, and the runtime has seen enough of the job's shapes to go quicker by a sixth. */
const TIMES = 3;

/** Throws if the made-up job is refused: our own fault. */
export function rehearse(): void {
  for (let left = TIMES; left > 0; left -= 1) {
    const outcome = estimate(REHEARSAL_JOB, { risk: true });
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
  }
}
