import type { Block } from "../layout/block.js";
import { fitWithin } from "../picture/picture.js";
import { oneLine } from "../type/shape.js";
import { agreement, cautionsFor, notices, terms } from "./agreement.js";
import { ifFound, options, worthDoing } from "./choices.js";
import { ledger } from "./ledger.js";
import { inShort, meaning } from "./meaning.js";
import { condition, parties } from "./parties.js";
import type { Subject } from "./subject.js";
import { taxTable } from "./taxTable.js";
import { whatChanged } from "./whatChanged.js";

/** All that the estimate says, in print order. */
export const estimateBlocks = (subject: Subject): Block[] => [
  ...parties(subject),
  ...condition(subject),
  ...inShort(subject),
  ...whatChanged(subject),
  ...ledger(subject),
  ...taxTable(subject),
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

/** From Exif 2.32: the first row is a side of the picture. */
const SIDEWAYS = 5;

/** Pages of their own at the end. A photo whose picture was not given beside the input is left out: the caller has said so. */
function photoPages({ paperwork: { photos = [] }, photos: pictures, words }: Subject): Block[] {
  const shown = photos.flatMap(({ sha256, caption, turn }, place): Block[] => {
    const picture = pictures?.get(sha256);
    if (!picture) return [];
    const name = words.paper.furniture.photo(place + 1);
    const alternative = [name, caption && oneLine(caption)].filter(Boolean).join(": ");
    const { width, height } = (turn ?? 1) >= SIDEWAYS ? { width: picture.height, height: picture.width } : picture;
    const size = fitWithin({ width, height }, BOX);
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
