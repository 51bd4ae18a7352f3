import { strikeable } from "../../estimating/agreement/choices.js";
import { profileOf } from "../../estimating/law/profiles.js";
import { isOwners, neverMore } from "../../estimating/sheet/terms.js";
import { billedText, termsTexts } from "../../wording/agreement.js";
import { ownerSafetyText } from "../../wording/caution.js";
import { profileNotices } from "../../wording/profile.js";
import { day } from "../../wording/time.js";
import type { Block } from "../layout/block.js";
import { oneLine } from "../type/shape.js";
import { declined } from "./meaning.js";
import { numberOf, type Subject } from "./subject.js";

const CODE_SHARE = 0.17;
const CODE_DROP = 4;

/** What the owner agrees to by the shop's terms. */
export function terms({ input, sheet, tongue }: Subject): Block[] {
  const said = termsTexts(input, sheet, tongue);
  if (!said) return [];
  return [
    { is: "heading", text: said.heading },
    ...(said.terms.length === 0 ? [] : [{ is: "list", items: numbered(said.terms) } as const]),
    { is: "paragraph", small: true, text: said.beside },
  ];
}

const numbered = (texts: readonly string[]): string[] => texts.map((text, index) => `${index + 1}. ${text}`);

/** The same as one small paragraph each, with what the profile has the owner told, and the caution. */
export function inSmallPrint(subject: Subject): Block[] {
  const { sheet, input, tongue, words } = subject;
  const { caution } = words.paper.agreement;
  const agreed = termsTexts(input, sheet, tongue);
  const said = agreed === undefined ? [] : [`${agreed.heading}: ${[...numbered(agreed.terms), agreed.beside].join(" ")}`];
  const warned = ownerSafetyText(sheet, input.unit, tongue);
  const { requires } = profileOf(subject.input.policy?.profile);
  const priced = requires.includes("price of diagnosis") || requires.includes("price of teardown and reassembly");
  const { label, value } = declined(subject);
  return [
    ...(priced ? [`${label}: ${value}`] : []),
    ...said,
    ...noticesOf(subject),
    ...(warned === undefined ? [] : [`${caution}: ${warned}`]),
  ].map((text): Block => ({ is: "paragraph", small: true, text }));
}

/** Where the owner answers, on paper or through the link. A letter says where all of it stands that it leaves out. `listed`: the work, so that some of it can be struck out. */
export function agreement(subject: Subject, listed = true): Block[] {
  const { paperwork, words } = subject;
  const { link } = paperwork;
  const answers = answer(subject, listed);
  const more = (paperwork.detail ?? "letter") === "letter" ? words.paper.letter.more(link !== undefined) : "";
  const said: Block[] = [
    { is: "heading", text: words.paper.agreement.yourAnswer },
    { is: "paragraph", text: offered(subject) },
  ];
  if (!link)
    return [
      {
        is: "together",
        blocks: [...said, ...answers, ...(more ? [{ is: "paragraph", small: true, text: more } as const] : [])],
      },
    ];
  const code: Block[] = [
    { is: "gap", height: CODE_DROP },
    { is: "square code", content: link },
    { is: "paragraph", small: true, text: words.paper.agreement.scan },
  ];
  return [
    {
      is: "together",
      blocks: [
        ...said,
        { is: "columns", shares: [1 - CODE_SHARE, CODE_SHARE], columns: [answers, code] },
        { is: "gap", height: 4 },
        yourPage(subject, link, more && ` ${more}`),
      ],
    },
  ];
}

/** A link with a secret is scanned or followed, not typed: what stands after its # is left out where there is a code to type. */
function yourPage({ paperwork: { number, code }, words }: Subject, link: string, more: string): Block {
  const texts = words.paper.agreement;
  const page = { is: "link", before: texts.yourPage, to: link } as const;
  if (code === undefined) return { ...page, shown: link, after: more && `.${more}` };
  return { ...page, shown: link.split("#")[0]!, after: texts.typeThere(oneLine(number ?? ""), oneLine(code)) + more };
}

function offered(subject: Subject): string {
  const { sheet, input, tongue, cash, words } = subject;
  const texts = words.paper.agreement;
  const ticking = canTick(subject) ? (isOwners(sheet) ? "total" : "both") : undefined;
  const isEstimate = texts.notABill(numberOf(subject), day(sheet.validUntil, tongue.locale));
  const agreeing = texts.agreeing(cash(sheet.totals.total), cash(neverMore(sheet)), ticking);
  return [isEstimate, agreeing, billedText(input, sheet, tongue)].filter(Boolean).join(" ");
}

/** A letter leaves out what is worth doing besides. */
const canTick = ({ sheet: { options, suggestions }, paperwork: { detail = "letter" } }: Subject): boolean =>
  options.length + (detail === "letter" ? 0 : suggestions.length) > 0;

function answer(subject: Subject, listed: boolean): Block[] {
  const { agreement: texts, letter } = subject.words.paper;
  const inPart = strikeable(subject.input).length > 0;
  const elsewhere = letter.inPart(subject.paperwork.link !== undefined);
  const earlier = subject.changes?.earlier;
  const decline = earlier?.agreed ? texts.declineRevision(earlier.revision ?? 0) : texts.decline;
  return [
    { is: "choices", choices: [texts.agree(canTick(subject)), ...(inPart && listed ? [texts.agreeInPart] : []), decline] },
    ...(inPart && !listed ? [{ is: "paragraph", small: true, text: elsewhere } as const] : []),
    { is: "blanks", labels: [texts.name, texts.signature, texts.date] },
  ];
}

/** What the agreement profile has the owner told; the last one says that it is no legal advice. */
export function notices(subject: Subject): Block[] {
  const texts = noticesOf(subject);
  if (texts.length === 0) return [];
  return [
    { is: "heading", text: subject.words.paper.agreement.notices },
    ...texts.map((text): Block => ({ is: "paragraph", text })),
  ];
}

const noticesOf = ({ input, sheet, tongue }: Subject): string[] =>
  profileNotices(profileOf(input.policy?.profile), input, sheet, tongue);

/** What the owner should know about a unit that is dangerous inside. */
export function cautionsFor(subject: Subject): Block[] {
  const last = ownerSafetyText(subject.sheet, subject.input.unit, subject.tongue);
  return last === undefined ? [] : [{ is: "cautions", title: subject.words.paper.agreement.caution, cautions: [], last }];
}
