import type { Block } from "../layout/block.js";
import { agreement, terms } from "./agreement.js";
import { cautionsFor } from "./cautions.js";
import { ifFound, options, worthDoing } from "./choices.js";
import { condition } from "./condition.js";
import { inShort } from "./inShort.js";
import { ledger } from "./ledger.js";
import { meaning } from "./meaning.js";
import { notices } from "./notices.js";
import { parties } from "./parties.js";
import { photoPages } from "./photos.js";
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
