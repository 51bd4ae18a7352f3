/** What a log without problems says was worked and used, told apart by whether it is agreed. */
import { agreedOf, type ChargedRevision, type JobDone } from "../jobDone.js";
import { coverage } from "../log/covered.js";
import { withNames } from "../log/withNames.js";
import type { WorkLog } from "../log/workLog.js";
import { type PartsDone, partsDone } from "./partsDone.js";
import { type WorkDone, workDone } from "./workDone.js";

export interface Recorded {
  readonly work: readonly WorkDone[];
  readonly parts: readonly PartsDone[];
}

export function recorded(job: JobDone, log: WorkLog, allowed: ChargedRevision): Recorded {
  const agreed = agreedOf(job).input;
  const covered = coverage(agreed, agreed);
  const names = withNames(allowed.input, job.current);
  return { work: workDone(log, allowed.sheet, names, covered, job.rates), parts: partsDone(log, names, covered) };
}
