import type { Category } from "../estimating/agreement/categories.js";
import type { Cause, CauseAmount } from "../estimating/agreement/causes.js";
import { english } from "./english/index.js";
import { listed } from "./list.js";
import type { Spoken } from "./tongue.js";

const CATEGORY: Readonly<Record<Category, string>> = {
  access: "Opening and refitting",
  labour: "Labour",
  parts: "Parts",
  "scarcity margin": "Scarcity margin",
  fees: "Fees",
  "allowances and charges": "Discount and charges",
  tax: "Tax",
};

export const causeText = (cause: Cause, { words = english }: Spoken = {}): string => capital(words.causes[cause]);

/** The cause of an amount, with those it could not be told apart from. */
export const causesText = ({ cause, together = [] }: CauseAmount, { words = english }: Spoken = {}): string =>
  capital(
    listed(
      [cause, ...together].map((each) => words.causes[each]),
      words.lists.and,
    ),
  );

export const categoryText = (category: Category): string => CATEGORY[category];

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
