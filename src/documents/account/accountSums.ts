import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import { paymentText } from "../../wording/account.js";
import { sumRow, sumsToTotal } from "../estimate/ledgerSums.js";
import type { Subject } from "../estimate/subject.js";
import type { Row } from "../layout/block.js";

/** From the lines to what is due; every payment is credited by itself. */
export function accountSums(
  subject: Subject,
  { held, payments, totals }: FinalAccount,
  letters: ReadonlyMap<string, string> | undefined,
): Row[] {
  const say = subject.words.account.paper;
  const row = sumRow(subject, letters);
  const above = held.allowances.map(({ amount, taxCategory }) => row("sum", say.aboveLimit, -amount, taxCategory));
  return [
    ...sumsToTotal(subject, letters, above),
    ...payments.map((payment) => row("sum", paymentText(payment, subject.tongue), -payment.amount)),
    totals.due < 0 ? row("total", say.paidBack, -totals.due) : row("total", say.stillToPay, totals.due),
  ];
}
