import type { EstimateInput } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { day } from "../wording/time.js";
import { condition, known, letterhead } from "./estimate/parties.js";
import { numberOf, type Subject, subjectOf, unitName } from "./estimate/subject.js";
import type { Block } from "./layout/block.js";
import type { Picture } from "./picture/picture.js";
import { printSubject } from "./printDocument.js";
import { oneLine } from "./type/shape.js";

/** What an owner gets at the counter. `at`: address of the job, behind the code on the tag. Same visit, same bytes. */
export function intakeReceiptPdf(sheet: Sheet, input: EstimateInput, { logo, at }: { logo?: Picture | undefined; at: string }) {
  const subject = subjectOf(sheet, input, { logo });
  const title = [subject.words.paper.intake.title, numberOf(subject)].filter(Boolean).join(" · ");
  return printSubject(subject, title, intakeReceiptBlocks(subject, at));
}

/** What came in and in what state, how far it may be opened, a place to sign; and below a line to cut a tag for the unit. */
export function intakeReceiptBlocks(subject: Subject, at: string): Block[] {
  const { sheet, input, paperwork, words, tongue, cash } = subject;
  const { intake, head, unit, agreement } = words.paper;
  const { diagnosis, limit, amount, tax } = sheet.ifDeclined;
  const fee = diagnosis > 0 ? intake.forFee(cash(amount), tax > 0) : intake.nothing;
  const arrived = day(sheet.asOf, tongue.locale);
  const tag: Block[] = [
    { is: "shop", text: oneLine(paperwork.number ?? "") },
    {
      is: "facts",
      labels: 92,
      facts: known([
        [unit.makerAndModel, unitName(subject)],
        [unit.serial, input.unit.serial && oneLine(input.unit.serial)],
        [head.owner, paperwork.owner && oneLine(paperwork.owner.name)],
        [intake.received, arrived],
        [unit.cameWith, input.unit.accessories?.join(", ")],
      ]),
    },
  ];
  return [
    ...letterhead(subject, intake.title, [
      [head.number, numberOf(subject)],
      [intake.received, arrived],
    ]),
    ...condition(subject),
    { is: "heading", text: intake.authority },
    { is: "paragraph", text: limit === undefined ? fee : intake.upTo(cash(limit)) },
    { is: "paragraph", text: intake.bring },
    { is: "blanks", labels: [agreement.name, agreement.signature, agreement.date] },
    {
      is: "together",
      blocks: [
        { is: "gap", height: 18 },
        { is: "rule" },
        { is: "paragraph", small: true, text: intake.tag },
        { is: "columns", shares: [0.76, 0.24], columns: [tag, [{ is: "square code", content: at }]] },
      ],
    },
  ];
}
