import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import { accountBasisText, limitText } from "../../wording/account.js";
import { day } from "../../wording/time.js";
import { ledger } from "../estimate/ledger.js";
import { letterhead } from "../estimate/parties.js";
import { numberOf, type Subject } from "../estimate/subject.js";
import { taxTable } from "../estimate/taxTable.js";
import type { Block } from "../layout/block.js";
import { accountSums } from "./accountSums.js";
import { hours, partsFitted } from "./particulars.js";
import { stands } from "./stands.js";

/** All that the account says, in print order. */
export function accountBlocks(subject: Subject, account: FinalAccount, title: string): Block[] {
  const { tongue, cash, paperwork, words } = subject;
  const say = words.account.paper;
  const { totals } = account;
  const limit = limitText(account, tongue);
  return [
    ...letterhead(subject, title, [
      [say.agreed, numberOf(subject)],
      [say.date, day(paperwork.date ?? account.on, tongue.locale)],
      [say.basis, accountBasisText(account.basis, tongue)],
    ]),
    {
      is: "figures",
      figures: [
        { label: say.total, value: cash(totals.total) },
        { label: say.paid, value: cash(totals.prepaid) },
        totals.due < 0 ? { label: say.paidBack, value: cash(-totals.due) } : { label: say.stillToPay, value: cash(totals.due) },
      ],
    },
    ...ledger(subject, (_, letters) => accountSums(subject, account, letters)),
    ...(limit ? [{ is: "paragraph", text: limit } as const] : []),
    ...taxTable(subject),
    ...hours(subject, account),
    ...partsFitted(subject, account),
    ...stands(subject, account),
  ];
}
