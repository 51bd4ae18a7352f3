import { english, type Words } from "./english/index.js";
import type { Figures } from "./figures.js";
import { german } from "./german/index.js";

/** The words of a language; English ones when absent, as on every page of the shop. */
export interface Spoken {
  readonly words?: Words;
}

export interface Tongue extends Figures, Spoken {}

/** The languages a document can be written in. One more is a folder that is `Words`, and a line here. */
const WORDS = { en: english, de: german } as const satisfies Readonly<Record<string, Words>>;

type Language = keyof typeof WORDS;
export const LANGUAGES = Object.keys(WORDS) as [Language, ...Language[]];

const isLanguage = (tag: string): tag is Language => Object.hasOwn(WORDS, tag);

/** By the first subtag of a BCP 47 tag; English for a language that nobody has written. */
export function languageOf(tag: string | undefined): Language {
  const first = tag?.split("-")[0]?.toLowerCase() ?? "";
  return isLanguage(first) ? first : "en";
}

export const wordsIn = (language: string | undefined): Required<Spoken> => ({ words: WORDS[languageOf(language)] });

export const usualLocale = (language: Language): string => WORDS[language].locale;

/** What a person reads who chooses one. */
export const languageName = (language: Language): string => WORDS[language].ownName;

/** Within a sentence of the shop's, which is in English. */
export const inEnglish = (language: Language): string => new Intl.DisplayNames("en", { type: "language" }).of(language)!;
