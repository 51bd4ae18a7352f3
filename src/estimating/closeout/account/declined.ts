/** What is owed for a job that nothing was agreed to on, or of which nothing that was agreed was done: looking and opening as they were logged, never above what paper or receipt promised. */
import type { Limit } from "../../agreement/limit.js";
import type { Revision } from "../../agreement/rowChanges.js";
import { isLooking, lookingLimit } from "../../agreement/workLog.js";
import { withUniqueIds } from "../../parts/partLines.js";
import type { Line } from "../../sheet.js";
import { labourLines } from "../actual/actualLines.js";
import type { Recorded } from "../actual/partsDone.js";
import type { WorkDone } from "../actual/workDone.js";
import type { AccountTerms } from "./terms.js";

/**
 * The figure 'if declined after opening', which never passes the diagnosis limit; nothing where neither a diagnosis fee nor such a limit
 * was on the paper, since then nobody agreed to pay for looking. Taken back with no paper issued: what the intake receipt authorised.
 */
export function promised({ input, sheet }: Revision, basis: AccountTerms["basis"] = "declined"): Limit {
  const { diagnosis, diagnosisLimit } = input.policy ?? {};
  const { ifDeclined } = sheet;
  // What was agreed is never passed either.
  const owed =
    basis === "nothing done"
      ? Math.min(ifDeclined.amount, Math.max(sheet.totals.total, sheet.ceiling.amount))
      : ifDeclined.amount;
  const most = basis === "taken back" ? lookingLimit(input) : owed;
  const agreed = diagnosis || diagnosisLimit !== undefined ? most : 0;
  return { agreed, upTo: agreed, withTax: true, by: "if declined" };
}

/** Agreed work is no looking, however far it came, where all of it is said not to have been done. */
const isLooked = ({ line }: WorkDone, { input }: Revision): boolean =>
  line.sort === "access" || line.from.some((by) => by.is === "item" && isLooking(input, by.id));

/**
 * The fee and the time logged, at the exact minutes; parts are none of it. Empty where nothing is owed, as where a unit is taken back
 * before anybody looked at it.
 */
export function declinedLines(
  { work }: Pick<Recorded, "work">,
  from: Revision,
  { basis, lookingWaived }: Pick<AccountTerms, "basis" | "lookingWaived">,
): readonly Line[] {
  if (lookingWaived || promised(from, basis).upTo === 0 || (basis === "taken back" && work.length === 0)) return [];
  const charged = work.filter((done) => done.agreed && (basis !== "nothing done" || isLooked(done, from)));
  return [
    ...from.sheet.lines.filter(({ id }) => id === "fee:diagnosis"),
    ...withUniqueIds(charged.flatMap((done) => labourLines(done).map(({ line }) => line))),
  ];
}
