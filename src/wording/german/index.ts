/** German as the trade writes it. The names of work, parts and taxes are the shop's own and stand as it wrote them. */
import type { Words } from "../english/index.js";
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

export const german: Words = {
  tag: "de",
  locale: "de-DE",
  ownName: "Deutsch",
  ...{ account, adjustments, causes, changes, dangers, detail, law, lines, lists, paper, paperChanges, paperMeaning },
  ...{ quotation, rules, scarcity, sources, taxRounding, unitDetails, warnings, why },
};
