/** What a job comes to, what was paid on it, and what is still to pay. */
import type { Minor } from "../estimating/input.js";
import { credited } from "../records/payments.js";
import type { JobAsItStands } from "./job.js";

export interface Owed {
  /** Of the account, or of what is agreed; absent while neither is there. */
  readonly total?: Minor;
  readonly paid: Minor;
  /** Below 0: to be given back. */
  readonly due?: Minor;
  /** Still to come before work may begin. */
  readonly deposit: Minor;
}

export function owed(job: Pick<JobAsItStands, "agreed" | "payments" | "closeOut">): Owed {
  const agreed = job.agreed();
  const total = job.closeOut?.result.account.totals.total ?? agreed?.sheet.totals.total;
  const credits = credited(job.payments, job.closeOut?.basis.terms.payments);
  // What an old estimate says was paid counts until payments are on record.
  const before = credits.length === 0 && !job.closeOut ? (agreed?.input.policy?.prepaid ?? 0) : 0;
  const paid = credits.reduce((sum, { amount }) => sum + amount, before);
  const asked = job.closeOut ? 0 : (agreed?.sheet.deposit.amount ?? 0);
  return { paid, deposit: Math.max(0, asked - paid), ...(total !== undefined && { total, due: total - paid }) };
}
