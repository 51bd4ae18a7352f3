import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import { paymentText } from "../../wording/index.js";
import { sumRow, sumsToTotal } from "../estimate/ledgerSums.js";
import type { Subject } from "../estimate/subject.js";
import type { Row } from "../layout/block.js";

/** From the lines to what is due; every payment is credited by itself. */
export function accountSums(
  subject: Subject,
  { held, payments, totals }: FinalAccount,
  letters: ReadonlyMap<string, string> | undefined,
): Row[] {
  const row = sumRow(subject, letters);
  const above = held.allowances.map(({ amount, taxCategory }) =>
    row("sum", "Above the limit agreed, not charged", -amount, taxCategory),
  );
  return [
    ...sumsToTotal(subject, letters, above),
    ...payments.map((payment) => row("sum", paymentText(payment, subject.tongue), -payment.amount)),
    totals.due < 0 ? row("total", "To be paid back to you", -totals.due) : row("total", "Still to pay", totals.due),
  ];
}
