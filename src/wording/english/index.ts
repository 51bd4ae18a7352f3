/** English, the language every other one is measured against: `Words` is what it says. */
import { account } from "./account.js";
import { adjustments } from "./adjustments.js";
import { causes } from "./causes.js";
import { changes } from "./changes.js";
import { dangers } from "./dangers.js";
import { detail } from "./detail.js";
import { law } from "./law.js";
import { lines } from "./lines.js";
import { lists } from "./lists.js";
import { paper } from "./paper.js";
import { paperChanges } from "./paperChanges.js";
import { paperMeaning } from "./paperMeaning.js";
import { quotation } from "./quotation.js";
import { rules } from "./rules.js";
import { scarcity } from "./scarcity.js";
import { sources } from "./sources.js";
import { taxRounding } from "./taxRounding.js";
import { unitDetails } from "./unitDetails.js";
import { warnings } from "./warnings.js";
import { why } from "./why.js";

export const english = {
  /** BCP 47. */
  tag: "en",
  /** How figures and days are written where nothing else is said. */
  locale: "en-GB",
  ownName: "English",
  ...{ account, adjustments, causes, changes, dangers, detail, law, lines, lists, paper, paperChanges, paperMeaning },
  ...{ quotation, rules, scarcity, sources, taxRounding, unitDetails, warnings, why },
};

/** All that is said in a document for an owner. A text that a language lacks is a type error. */
export type Words = typeof english;
