/** What is owed if the owner declines after opening: diagnosis, and access with refit, at their exact minutes; never above the agreed limit. */
import type { Policy, RateBook } from "../input.js";
import type { IfDeclined, Line } from "../sheet.js";
import { addUp } from "../totals/addUp.js";

export function ifDeclined(access: readonly Line[], policy: Policy, { fees, tax }: RateBook): IfDeclined {
  const diagnosis = policy.diagnosis ? fees.diagnosis.amount : 0;
  const owed = addUp([...access, { amount: diagnosis, taxCategory: tax.fees }], [], tax, 0);
  const limit = policy.diagnosisLimit;
  const limited = limit !== undefined && owed.total > limit;
  return {
    amount: limited ? limit : owed.total,
    diagnosis,
    access: access.reduce((sum, { amount }) => sum + amount, 0),
    tax: owed.tax,
    ...(limit !== undefined && { limit }),
    limited,
  };
}
