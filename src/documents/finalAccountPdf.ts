import type { FinalAccount } from "../estimating/closeout/account/finalAccount.js";
import type { PartTold } from "../estimating/closeout/account/fitted.js";
import { chargesLooking } from "../estimating/closeout/account/terms.js";
import type { EstimateInput } from "../estimating/input.js";
import { profileOf } from "../estimating/law/profiles.js";
import type { Sheet, Warning } from "../estimating/sheet.js";
import {
  accountBasisText,
  accountNotices,
  agreedThenText,
  allowanceTexts,
  handBackTexts,
  limitText,
  oldPartsText,
  partStateText,
  paymentText,
  warrantyText,
  workLeft,
} from "../wording/account.js";

import { listed } from "../wording/list.js";
import { namesIn } from "../wording/names.js";
import { day, duration } from "../wording/time.js";
import { languageOf } from "../wording/tongue.js";
import { ledger, sumRow, sumsToTotal } from "./estimate/ledger.js";
import { letterhead } from "./estimate/parties.js";
import { numberOf, type Subject, subjectOf, unitName } from "./estimate/subject.js";
import { taxTable } from "./estimate/taxTable.js";
import type { Block, Row } from "./layout/block.js";
import type { Picture } from "./picture/picture.js";
import { printSubject } from "./printDocument.js";
import { oneLine } from "./type/shape.js";

/** What was agreed to: its sheet, and its input with the paperwork it was issued with, dated as the account is. */
interface AgreedWork {
  readonly sheet: Sheet;
  readonly input: EstimateInput;
}

/** What the owner pays, and for what. Shows what is charged, never what it cost the shop or what it earned. Same account, same bytes. */
export function finalAccountPdf(
  kept: FinalAccount,
  { sheet, input }: AgreedWork,
  { corrected = false, logo }: { readonly corrected?: boolean; readonly logo?: Picture | undefined } = {},
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const { language, names } = input.paperwork ?? {};
  const account = namesIn(kept, languageOf(language), names);
  const { lines, adjustments, totals } = account;
  const subject = subjectOf({ ...sheet, lines, adjustments, totals }, input, { logo });
  const { paper } = subject.words.account;
  const name = corrected ? paper.corrected : paper.finalAccount;
  const title = [name, subject.paperwork.number && oneLine(subject.paperwork.number), unitName(subject)]
    .filter(Boolean)
    .join(" · ");
  return printSubject(subject, title, accountBlocks(subject, account, name));
}

/** All that the account says, in print order. */
export function accountBlocks(subject: Subject, account: FinalAccount, title: string): Block[] {
  const { tongue, cash, paperwork, words } = subject;
  const texts = words.account.paper;
  const { totals } = account;
  const limit = limitText(account, tongue);
  const then = agreedThenText(account, tongue);
  return [
    ...letterhead(subject, title, [
      [
        account.basis === "declined" ? texts.declined : account.basis === "taken back" ? texts.job : texts.agreed,
        numberOf(subject),
      ],
      [texts.date, day(paperwork.date ?? account.on, tongue.locale)],
      [texts.basis, accountBasisText(account, tongue)],
    ]),
    {
      is: "figures",
      figures: [
        { label: texts.total, value: cash(totals.total) },
        { label: texts.paid, value: cash(totals.prepaid) },
        totals.due < 0
          ? { label: texts.paidBack, value: cash(-totals.due) }
          : { label: texts.stillToPay, value: cash(totals.due) },
      ],
    },
    ...(account.lines.length === 0 && account.payments.length === 0
      ? []
      : ledger(subject, (_, letters) => accountSums(subject, account, letters))),
    ...(chargesLooking(account.basis) && account.lines.length === 0
      ? [{ is: "paragraph", text: nothingOwed(texts, account) } as const]
      : []),
    ...(limit ? [{ is: "paragraph", text: limit } as const] : []),
    ...(then ? [{ is: "paragraph", text: then } as const] : []),
    ...taxTable(subject),
    ...sinceAgreed(subject, account),
    ...hours(subject, account),
    ...partsFitted(subject, account),
    ...(chargesLooking(account.basis) ? handedBack(subject, account) : stands(subject, account)),
  ];
}

const nothingOwed = (texts: Subject["words"]["account"]["paper"], { basis, limit: { upTo } }: FinalAccount): string =>
  upTo === 0 ? texts.nothingOwed : basis === "nothing done" ? texts.lookingWaived : texts.nothingDone;

/** From the lines to what is due; every payment is credited by itself. */
function accountSums(subject: Subject, account: FinalAccount, letters: ReadonlyMap<string, string> | undefined): Row[] {
  const texts = subject.words.account.paper;
  const row = sumRow(subject, letters);
  const { held, payments, totals } = account;
  const whys = allowanceTexts(account, subject.tongue);
  const above = held.allowances.map(({ amount, taxCategory }, at) => row("sum", whys[at]!, -amount, taxCategory));
  return [
    ...sumsToTotal(subject, letters, above),
    ...payments.map((payment) => row("sum", paymentText(payment, subject.tongue), -payment.amount)),
    totals.due < 0 ? row("total", texts.paidBack, -totals.due) : row("total", texts.stillToPay, totals.due),
  ];
}

/** How the agreed total became this one, where it is another. */
function sinceAgreed({ cash, input, words }: Subject, { since, totals }: FinalAccount): Block[] {
  if (!since || since.steps.length === 0) return [];
  const texts = words.account.paper;
  const left = workLeft(since, input);
  const named = {
    "not done": texts.notDone(listed(left, words.lists.and)),
    found: texts.found,
    actual: texts.asItWas,
    limit: texts.aboveLimit,
    "agreed then": texts.takenBack,
  };
  const row = (text: string, amount: number, kind?: "total"): Row => ({
    cells: [{ text }, { text: cash(amount) }],
    ...(kind && { kind }),
  });
  return [
    { is: "heading", text: texts.sinceAgreed },
    {
      is: "table",
      columns: [
        { title: texts.what, width: "rest" },
        { title: texts.amount, width: "fit", align: "right" },
      ],
      rows: [
        row(texts.agreedTotal, since.agreed),
        ...since.steps.map((step) => row(named[step.is], step.amount)),
        row(texts.total, totals.total, "total"),
      ],
    },
  ];
}

/** Time and rate by kind of labour, and what was really worked. What each came to is the lines' own: each is rounded by itself. */
function hours({ tongue, cash, words }: Subject, { basis, hours: billed, worked }: FinalAccount): Block[] {
  const texts = words.account.paper;
  const attended = duration(worked.attended, tongue.locale);
  const unattended = worked.unattended === 0 ? undefined : duration(worked.unattended, tongue.locale);
  const untimed = worked.untimed === undefined ? undefined : duration(worked.untimed, tongue.locale);
  if (billed.length === 0) return [];
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: texts.hours },
        {
          is: "table",
          columns: [
            { title: basis === "fixed price" ? texts.labourWithin : texts.labour, width: "rest" },
            { title: basis === "fixed price" ? texts.timeWithin : texts.time, width: "fit", align: "right" },
            { title: texts.ratePerHour, width: "fit", align: "right" },
          ],
          rows: billed.map(({ labourClass, minutes, ratePerHour }) => ({
            cells: [{ text: labourClass.name }, { text: duration(minutes, tongue.locale) }, { text: cash(ratePerHour) }],
          })),
        },
        { is: "paragraph", small: true, text: texts.worked(attended, unattended, untimed) },
      ],
    },
  ];
}

/** What was fitted, in place of what, and whether it was new. */
function partsFitted({ tongue, words }: Subject, { parts, fitted = parts }: FinalAccount): Block[] {
  if (fitted.length === 0) return [];
  const texts = words.account.paper;
  const named = ({ part, insteadOf, beyond }: PartTold): string =>
    [insteadOf ? texts.inPlaceOf(part.name, insteadOf.name) : part.name, ...(beyond ? [texts.beyond] : [])].join(", ");
  return [
    { is: "heading", text: texts.partsFitted },
    {
      is: "table",
      columns: [
        { title: texts.part, width: "rest" },
        { title: texts.state, width: "fit" },
        { title: texts.pieces, width: "fit", align: "right" },
      ],
      rows: fitted.map((told) => ({
        cells: [{ text: named(told) }, { text: partStateText(told.state, tongue) }, { text: String(told.count) }],
      })),
    },
  ];
}

/** What went back, to whom and how; nothing was repaired, so there is no warranty to speak of. */
function handedBack({ tongue, words }: Subject, account: FinalAccount): Block[] {
  const { paper } = words.account;
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: account.handBack?.to !== undefined ? paper.handedBack : paper.goesBack },
        ...handBackTexts(account, tongue).map((text): Block => ({ is: "paragraph", text })),
        { is: "paragraph", small: true, text: paper.yourRights },
      ],
    },
  ];
}

/** Warranty, the parts that came out, and what the agreement profile has the bill say. */
function stands({ tongue, input, words }: Subject, { warranty, oldParts }: FinalAccount): Block[] {
  const notices = accountNotices(profileOf(input.policy?.profile), tongue);
  return [
    {
      is: "together",
      blocks: [
        { is: "heading", text: words.account.paper.warrantyAndParts },
        { is: "paragraph", text: warrantyText(warranty, tongue) },
        { is: "paragraph", text: oldPartsText(oldParts, tongue) },
        ...notices.map((text): Block => ({ is: "paragraph", small: true, text })),
        { is: "paragraph", small: true, text: words.account.paper.yourRights },
      ],
    },
  ];
}
