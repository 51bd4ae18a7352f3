import type { Hazard } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import { ownerCautionText } from "../../wording/caution.js";
import { profileNotices } from "../../wording/profile.js";
import { day } from "../../wording/time.js";
import type { Block } from "../layout/block.js";
import { oneLine } from "../type/shape.js";
import { numberOf, type Subject } from "./subject.js";

const CODE_SHARE = 0.17;
const CODE_DROP = 14;

/** What the owner agrees to by the shop's terms. */
export function terms({ paperwork, words: { paper } }: Subject): Block[] {
  const texts = paperwork.terms ?? [];
  if (texts.length === 0) return [];
  return [
    { is: "heading", text: paper.agreement.terms },
    { is: "list", items: texts.map((text, index) => `${index + 1}. ${text}`) },
    { is: "paragraph", small: true, text: paper.agreement.yourRights },
  ];
}

/** Where the owner answers, on paper or through the link. */
export function agreement(subject: Subject): Block[] {
  const { link } = subject.paperwork;
  if (!link) return [{ is: "together", blocks: answer(subject) }];
  const code: Block[] = [
    { is: "gap", height: CODE_DROP },
    { is: "square code", content: link },
    { is: "paragraph", small: true, text: subject.words.paper.agreement.scan },
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
function yourPage({ paperwork: { number, code }, words }: Subject, link: string): Block {
  const texts = words.paper.agreement;
  const page = { is: "link", before: texts.yourPage, to: link } as const;
  if (code === undefined) return { ...page, shown: link, after: "" };
  return { ...page, shown: link.split("#")[0]!, after: texts.typeThere(oneLine(number ?? ""), oneLine(code)) };
}

function answer(subject: Subject): Block[] {
  const { sheet, tongue, cash, words } = subject;
  const texts = words.paper.agreement;
  const ticked = sheet.options.length + sheet.suggestions.length > 0;
  const isEstimate = texts.notABill(numberOf(subject), day(sheet.validUntil, tongue.locale));
  return [
    { is: "heading", text: texts.yourAnswer },
    {
      is: "paragraph",
      text: `${isEstimate} ${texts.agreeing(cash(sheet.totals.total), ticked, cash(sheet.ceiling.amount))}`,
    },
    { is: "choices", choices: [texts.agree(ticked), texts.agreeInPart, texts.decline] },
    { is: "blanks", labels: [texts.name, texts.signature, texts.date] },
  ];
}

/** What the agreement profile has the owner told; the last one says that it is no legal advice. */
export function notices({ input, sheet, tongue, words }: Subject): Block[] {
  const texts = profileNotices(profileOf(input.policy?.profile), input, sheet, tongue);
  if (texts.length === 0) return [];
  return [{ is: "heading", text: words.paper.agreement.notices }, ...texts.map((text): Block => ({ is: "paragraph", text }))];
}

/** Solder and solvents endanger the bench, not the owner. */
const BENCH_ONLY: readonly Hazard[] = ["lead solder", "solvent vapour"];

/** What the owner should know about a unit that is dangerous inside. */
export function cautionsFor({ sheet, tongue, words }: Subject): Block[] {
  const hazards = sheet.hazards.map(({ hazard }) => hazard).filter((hazard) => !BENCH_ONLY.includes(hazard));
  return hazards.length === 0
    ? []
    : [{ is: "cautions", title: words.paper.agreement.caution, cautions: [], last: ownerCautionText(hazards, tongue) }];
}
