import type { EstimateInput, Minor, PaperPhoto, Paperwork } from "../../estimating/input.js";
import type { Sheet } from "../../estimating/sheet.js";
import type { Words } from "../../wording/english/index.js";
import { money } from "../../wording/figures.js";
import { bookIn, namesIn } from "../../wording/names.js";
import { day, spokenIn } from "../../wording/time.js";
import { type Tongue, wordsIn } from "../../wording/tongue.js";
import { isUntaxed, untaxed } from "../../wording/untaxed.js";
import type { Picture } from "../picture/picture.js";
import { oneLine } from "../type/shape.js";
import { type Changes, changesSince, type Earlier } from "./earlier.js";
import { spelled } from "./spelling.js";

/** What a document is about. Every figure is the sheet's; documents add nothing up. */
export interface Subject {
  readonly sheet: Sheet;
  readonly input: EstimateInput;
  readonly paperwork: Paperwork;
  readonly tongue: Tongue;
  readonly cash: (amount: Minor) => string;
  /** The words of the document's language. */
  readonly words: Words;
  /** The picture at the top. */
  readonly logo?: Picture;
  /** Those of the last pages, by SHA-256. */
  readonly photos?: ReadonlyMap<string, Picture>;
  /** Against the revision before, if there is one. */
  readonly changes?: Changes;
  /** Not issued: nobody can agree to it yet. */
  readonly draft?: boolean;
}

/** Id of the picture at the top, within a document. */
export const LOGO = "logo";

interface About {
  readonly draft?: boolean | undefined;
  readonly earlier?: Earlier | undefined;
  readonly logo?: Picture | undefined;
  readonly photos?: ReadonlyMap<string, Picture> | undefined;
}

const ENGLISH = "en-GB";
const BEYOND_THE_FONTS = /[^\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Common}\p{Script=Inherited}]/u;

/** The words are in the language that the paperwork names, or in English. Figures follow the shop's locale, or English where it writes them in a script that the fonts lack. */
export function subjectOf(given: Sheet, asKept: EstimateInput, { earlier: before, logo, photos, draft }: About = {}): Subject {
  const { spellings, language } = asKept.paperwork ?? {};
  const spoken = wordsIn(language).words;
  const words = isUntaxed(given.totals) ? untaxed(spoken) : spoken;
  const own = asKept.paperwork?.names;
  const [sheet, input] = spelled([namesIn(given, words.tag, own), bookIn(asKept, words.tag)] as const, spellings);
  const earlier = before && {
    ...before,
    sheet: namesIn(before.sheet, words.tag, own),
    input: bookIn(before.input, words.tag, own),
  };
  const paperwork = input.paperwork ?? {};
  const asked: Tongue = { locale: spokenIn(paperwork.locale ?? ENGLISH, words.tag), currency: sheet.currency, words };
  const figures = `${money(sheet.totals.total, asked)} ${day(sheet.asOf, asked.locale)}`;
  const tongue = BEYOND_THE_FONTS.test(figures) ? { ...asked, locale: spokenIn(ENGLISH, words.tag) } : asked;
  const changes = earlier && { changes: changesSince(earlier, { sheet, input }) };
  return {
    sheet,
    input,
    paperwork,
    tongue,
    cash: (amount) => money(amount, tongue),
    words,
    ...changes,
    ...(logo && { logo }),
    ...(photos && { photos }),
    ...(draft && { draft }),
  };
}

/** What stays in the shop is in English, as the shop's pages are, and has no footer for owners. */
export function forTheShop(input: EstimateInput): EstimateInput {
  const { language: _, footer: __, ...paperwork } = input.paperwork ?? {};
  return { ...input, paperwork };
}

export const unitName = ({ input, words }: Subject): string =>
  oneLine([input.unit.maker, input.unit.model].filter(Boolean).join(" ")) || words.paper.unit.unit;

/** 'J-2026-0001, revision 1', as far as it is known. */
export const numberOf = ({ paperwork: { number, revision }, words }: Subject): string =>
  [number && oneLine(number), revision === undefined ? undefined : words.paper.head.revision(revision)]
    .filter(Boolean)
    .join(", ");

/** 'Photo 1: the vented capacitor'. */
export const photoAlternative = ({ caption }: PaperPhoto, place: number, { paper }: Words): string =>
  [paper.furniture.photo(place + 1), caption && oneLine(caption)].filter(Boolean).join(": ");

/** From Exif 2.32: the first row is a side of the picture. */
const SIDEWAYS = 5;

/** Width and height as it stands upright. */
export const photoTurned = ({ width, height }: Picture, { turn = 1 }: PaperPhoto): Pick<Picture, "width" | "height"> =>
  turn >= SIDEWAYS ? { width: height, height: width } : { width, height };
