import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import type { EstimateInput } from "../estimating/input.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import { accountBlocks } from "./account/accountBlocks.js";
import { subjectOf, unitName } from "./estimate/subject.js";
import type { Picture } from "./picture/picture.js";
import { printSubject } from "./printSubject.js";
import { oneLine } from "./type/shape.js";

/** What was agreed to: its sheet, and its input with the paperwork it was issued with, dated as the account is. */
export interface AgreedWork {
  readonly sheet: Sheet;
  readonly input: EstimateInput;
}

/** What the owner pays, and for what. Shows what is charged, never what it cost the shop or what it earned. Same account, same bytes. */
export function finalAccountPdf(
  account: FinalAccount,
  { sheet, input }: AgreedWork,
  { corrected = false, logo }: { readonly corrected?: boolean; readonly logo?: Picture | undefined } = {},
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const { lines, adjustments, totals } = account;
  const subject = subjectOf({ ...sheet, lines, adjustments, totals }, input, { logo });
  const { paper } = subject.words.account;
  const name = corrected ? paper.corrected : paper.finalAccount;
  const title = [name, subject.paperwork.number && oneLine(subject.paperwork.number), unitName(subject)]
    .filter(Boolean)
    .join(" · ");
  return printSubject(subject, title, accountBlocks(subject, account, name));
}
