import { day } from "../../wording/index.js";
import type { Block } from "../layout/block.js";
import { oneLine } from "../type/shape.js";
import { numberOf, type Subject } from "./subject.js";

const CODE_SHARE = 0.17;
const CODE_DROP = 14;

/** What the owner agrees to by the shop's terms. */
export function terms({ paperwork }: Subject): Block[] {
  const texts = paperwork.terms ?? [];
  if (texts.length === 0) return [];
  return [
    { is: "heading", text: "Terms" },
    ...texts.map((text, index): Block => ({ is: "paragraph", small: true, text: `${index + 1}. ${text}` })),
    { is: "paragraph", small: true, text: "Your rights under local consumer law stand beside these terms." },
  ];
}

/** Where the owner answers, on paper or through the link. */
export function agreement(subject: Subject): Block[] {
  const { link } = subject.paperwork;
  if (!link) return [{ is: "together", blocks: answer(subject) }];
  const code: Block[] = [
    { is: "gap", height: CODE_DROP },
    { is: "square code", content: link },
    { is: "paragraph", small: true, text: "Scan to answer" },
  ];
  return [
    {
      is: "together",
      blocks: [
        { is: "columns", shares: [1 - CODE_SHARE, CODE_SHARE], columns: [answer(subject), code] },
        { is: "gap", height: 6 },
        yourPage(subject, link),
      ],
    },
  ];
}

/** A link with a secret is scanned or followed, not typed: what stands after its # is left out where there is a code to type. */
function yourPage({ paperwork: { number, code } }: Subject, link: string): Block {
  const page = { is: "link", before: "Your page: ", to: link } as const;
  if (code === undefined) return { ...page, shown: link, after: "" };
  const typed = `. Type the number ${oneLine(number ?? "")} and the code ${oneLine(code)} there.`;
  return { ...page, shown: link.split("#")[0]!, after: typed };
}

function answer(subject: Subject): Block[] {
  const { sheet, tongue, cash } = subject;
  const number = numberOf(subject);
  const ticked = sheet.options.length + sheet.suggestions.length > 0 ? ", with what is ticked" : "";
  return [
    { is: "heading", text: "Your answer" },
    {
      is: "paragraph",
      text:
        `This is a written estimate${number && ` (${number})`}, not a bill. It is good until ${day(sheet.validUntil, tongue.locale)}. ` +
        `Agreeing lets us do the work listed for ${cash(sheet.totals.total)}, tax included${ticked}, and never above the ceiling of ${cash(sheet.ceiling.amount)}.`,
    },
    {
      is: "choices",
      choices: [
        `I agree to this estimate${ticked}.`,
        "I agree to part of it only; I have struck out what is not to be done.",
        "I decline. Please refit the unit and return it.",
      ],
    },
    { is: "blanks", labels: ["Name", "Signature", "Date"] },
  ];
}
