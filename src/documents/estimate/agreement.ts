import { day } from "../../wording/index.js";
import type { Block } from "../layout/block.js";
import { cautionsFor } from "./cautions.js";
import { numberOf, type Subject } from "./subject.js";

/** Terms, and where the owner answers. */
export function agreement(subject: Subject): Block[] {
  const { sheet, paperwork, tongue, cash } = subject;
  const number = numberOf(subject);
  const answer: Block[] = [
    { is: "heading", text: "Your answer" },
    {
      is: "paragraph",
      text:
        `This is a written estimate${number && ` (${number})`}, not a bill. It is good until ${day(sheet.validUntil, tongue.locale)}. ` +
        `Agreeing lets us do the work listed for ${cash(sheet.totals.total)}, tax included, with the options ticked, and never above the ceiling of ${cash(sheet.ceiling.amount)}.`,
    },
    {
      is: "choices",
      choices: [
        "I agree to this estimate, with the options ticked.",
        "I agree to part of it only; I have struck out what is not to be done.",
        "I decline. Please refit the unit and return it.",
      ],
    },
    { is: "blanks", labels: ["Name", "Signature", "Date"] },
  ];
  const { link } = paperwork;
  return [
    ...terms(paperwork.terms ?? []),
    ...cautionsFor(subject),
    {
      is: "together",
      blocks: link
        ? [
            {
              is: "columns",
              shares: [0.8, 0.2],
              columns: [
                answer,
                [
                  { is: "gap", height: 16 },
                  { is: "square code", content: link },
                  { is: "paragraph", small: true, text: "Or answer on your page:" },
                  { is: "paragraph", small: true, text: link },
                ],
              ],
            },
          ]
        : answer,
    },
  ];
}

const terms = (texts: readonly string[]): Block[] =>
  texts.length === 0
    ? []
    : [
        { is: "heading", text: "Terms" },
        ...texts.map((text, index): Block => ({ is: "paragraph", small: true, text: `${index + 1}. ${text}` })),
        { is: "paragraph", small: true, text: "Your rights under local consumer law stand beside these terms." },
      ];
