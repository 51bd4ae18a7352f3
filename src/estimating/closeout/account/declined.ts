/** What is owed for a job that was declined: looking and opening as they were logged, never above what the paper promised. */
import type { Limit } from "../../agreement/limit.js";
import type { Revision } from "../../agreement/rowChanges.js";
import { withUniqueIds } from "../../parts/partLines.js";
import type { Line } from "../../sheet.js";
import { labourLines } from "../actual/actualLines.js";
import type { Recorded } from "../actual/partsDone.js";

/**
 * The figure 'if declined after opening', which never passes the diagnosis limit; nothing where neither a diagnosis fee nor such a limit
 * was on the paper, since then nobody agreed to pay for looking.
 */
export function promised({ input: { policy = {} }, sheet: { ifDeclined } }: Revision): Limit {
  const agreed = policy.diagnosis || policy.diagnosisLimit !== undefined ? ifDeclined.amount : 0;
  return { agreed, upTo: agreed, withTax: true, by: "if declined" };
}

/** The fee and the time logged, at the exact minutes; parts are none of it. Empty where nothing is owed. */
export function declinedLines({ work }: Pick<Recorded, "work">, declined: Revision): readonly Line[] {
  if (promised(declined).upTo === 0) return [];
  return [
    ...declined.sheet.lines.filter(({ id }) => id === "fee:diagnosis"),
    ...withUniqueIds(work.filter(({ agreed }) => agreed).flatMap((done) => labourLines(done).map(({ line }) => line))),
  ];
}
