import type { Block } from "../layout/block.js";
import { fitWithin } from "../picture/picture.js";
import { agreement, cautionsFor, inSmallPrint, notices, terms } from "./agreement.js";
import { ifFound, options, packages, worthDoing } from "./choices.js";
import { byAssembly, ledger } from "./ledger.js";
import { figures, inWords, isToldInWords, offers, workInShort } from "./letter.js";
import { inShort, meaning } from "./meaning.js";
import { parties, shortHead } from "./parties.js";
import { photoAlternative, photoTurned, type Subject } from "./subject.js";
import { taxTable } from "./taxTable.js";
import { whatChanged } from "./whatChanged.js";

/** What the estimate says, in print order, in as much detail as the paperwork asks for. Totals, limits and terms are on each. */
export const estimateBlocks = (subject: Subject): Block[] =>
  (subject.paperwork.detail ?? "letter") === "letter" ? letterBlocks(subject) : reckoned(subject);

/** A letter without what stands on the owner's page too, then without the list of the work: tried in turn where it takes more than a page. */
export const shorterBlocks = (subject: Subject): Block[][] => {
  if ((subject.paperwork.detail ?? "letter") !== "letter") return [];
  return [
    letterBlocks(subject, { short: true }),
    ...(isToldInWords(subject) ? [letterBlocks(subject, { short: true, listed: false })] : []),
  ];
};

const letterBlocks = (subject: Subject, { short = false, listed = true } = {}): Block[] => [
  ...shortHead(subject),
  ...inWords(subject, { photo: true, short }),
  ...(listed ? workInShort(subject, short) : []),
  ...figures(subject),
  ...whatChanged(subject, { rows: !short }),
  ...packages(subject),
  ...offers(subject, short),
  ...inSmallPrint(subject),
  ...agreement(subject, listed),
  ...photoPages(subject, 1),
];

/** All of it, whatever the paperwork asks for. */
export const everyLine = (subject: Subject): Block[] =>
  reckoned({ ...subject, paperwork: { ...subject.paperwork, detail: "every line" } });

const reckoned = (subject: Subject): Block[] => [
  ...parties(subject),
  ...inWords(subject),
  ...inShort(subject),
  ...whatChanged(subject),
  ...(subject.paperwork.detail === "by assembly" ? byAssembly(subject) : ledger(subject)),
  ...taxTable(subject),
  ...packages(subject),
  ...options(subject),
  ...ifFound(subject),
  ...worthDoing(subject),
  ...meaning(subject),
  ...terms(subject),
  ...notices(subject),
  ...cautionsFor(subject),
  ...agreement(subject),
  ...photoPages(subject),
];

/** Two upright ones, or three that lie, a page. */
const BOX = { width: 420, height: 300 };

/** Pages of their own at the end, but for those before `from`, which stand elsewhere. A photo whose picture was not given beside the input is left out: the caller has said so. */
function photoPages({ paperwork: { photos = [] }, photos: pictures, words }: Subject, from = 0): Block[] {
  const shown = photos.flatMap((photo, place): Block[] => {
    const { sha256, turn } = photo;
    const picture = pictures?.get(sha256);
    if (!picture || place < from) return [];
    const alternative = photoAlternative(photo, place, words);
    const size = fitWithin(photoTurned(picture, photo), BOX);
    return [
      {
        is: "together",
        blocks: [
          { is: "gap", height: 8 },
          { is: "picture", picture: sha256, alternative, ...size, ...(turn !== undefined && { turn }) },
          { is: "paragraph", text: alternative, small: true },
        ],
      },
    ];
  });
  return shown.length === 0 ? [] : [{ is: "page" }, { is: "heading", text: words.paper.furniture.photos }, ...shown];
}
