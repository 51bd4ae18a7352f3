/** What a job tells of a sheet's warnings. */
import type { JobAsItStands } from "../../acts/job.js";
import { partsFitted } from "../../acts/logWork.js";
import { neverMore } from "../../estimating/sheet/terms.js";
import type { SoFar } from "../../pages/sheet/sheetView.js";

export function soFar(job: JobAsItStands, revision: number): SoFar {
  const agreed = job.agreed();
  return {
    ...(job.agreed(revision) && { stands: true }),
    ...(agreed && { allowed: agreed.agreement.ceiling ?? neverMore(agreed.sheet) }),
    fitted: partsFitted(job),
  };
}
