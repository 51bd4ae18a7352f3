import type { Payment } from "../estimating/closeout/account/terms.js";
import type { EstimateInput, Minor } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { paymentText } from "../wording/account.js";
import { day } from "../wording/time.js";
import { letterhead } from "./estimate/parties.js";
import { numberOf, subjectOf } from "./estimate/subject.js";
import type { Picture } from "./picture/picture.js";
import { printSubject } from "./printDocument.js";
import { oneLine } from "./type/shape.js";

interface Paid extends Payment {
  readonly how: "cash" | "card" | "transfer" | "other";
  readonly by: string;
}

/** One payment as the owner is given it, numbered by the job: which revision is newest by now says nothing of it. `due`: still to pay by now; absent while nothing is agreed. */
export function receiptPdf(
  { for: what, amount, on, how, by }: Paid,
  { sheet, input }: { readonly sheet: Sheet; readonly input: EstimateInput },
  { logo, due }: { readonly logo?: Picture | undefined; readonly due?: Minor | undefined } = {},
) {
  const { revision: _, ...paperwork } = input.paperwork ?? {};
  const subject = subjectOf(sheet, { ...input, paperwork }, { logo });
  const { account } = subject.words;
  const { receipt } = account;
  const title = [receipt.title, numberOf(subject)].filter(Boolean).join(" · ");
  const { tongue } = subject;
  return printSubject(subject, title, [
    ...letterhead(subject, receipt.title, [
      [subject.words.paper.head.number, numberOf(subject)],
      [account.paper.date, day(on, tongue.locale)],
      [receipt.forWhat, account.payment[what]],
      [receipt.how, account.how[how]],
      [what === "refund" ? receipt.givenBy : receipt.by, oneLine(by)],
    ]),
    {
      is: "figures",
      figures: [
        { label: receipt.amount, value: subject.cash(amount) },
        ...(due === undefined || due < 0 ? [] : [{ label: receipt.toPay, value: subject.cash(due) }]),
      ],
    },
    { is: "paragraph", text: `${paymentText({ for: what, amount, on }, tongue)}: ${subject.cash(amount)}` },
  ]);
}
