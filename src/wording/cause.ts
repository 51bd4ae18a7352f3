import type { Category } from "../estimating/agreement/categories.js";
import type { Cause, CauseAmount } from "../estimating/agreement/causes.js";
import { listed } from "./list.js";

const CAUSE: Readonly<Record<Cause, string>> = {
  prices: "prices and rates that changed",
  condition: "the condition of the unit",
  access: "what has to be opened",
  dropped: "work dropped",
  found: "possible work that proved necessary",
  choice: "options taken up or left",
  corrected: "work and counts corrected",
  "extra faults": "faults found since",
  terms: "discount, fees and terms",
};

const CATEGORY: Readonly<Record<Category, string>> = {
  access: "Opening and refitting",
  labour: "Labour",
  parts: "Parts",
  "scarcity margin": "Scarcity margin",
  fees: "Fees",
  "allowances and charges": "Discount and charges",
  tax: "Tax",
};

export const causeText = (cause: Cause): string => capital(CAUSE[cause]);

/** The cause of an amount, with those it could not be told apart from. */
export const causesText = ({ cause, together = [] }: CauseAmount): string =>
  capital(listed([cause, ...together].map((each) => CAUSE[each])));

export const categoryText = (category: Category): string => CATEGORY[category];

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
