/** English, the language every other one is measured against: `Words` is what it says. */
import { account, causes, changes, law } from "./agreement.js";
import { paper, paperChanges, paperMeaning, quotation, unitDetails } from "./paper.js";
import { englishOfSheet } from "./sheet.js";

export const english = {
  /** BCP 47. */
  tag: "en",
  /** How figures and days are written where nothing else is said. */
  locale: "en-GB",
  ownName: "English",
  ...englishOfSheet,
  ...{ account, causes, changes, law, paper, paperChanges, paperMeaning, quotation, unitDetails },
};

/** All that is said in a document for an owner. A text that a language lacks is a type error. */
export type Words = typeof english;
