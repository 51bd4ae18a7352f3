import type { CloseOutCategory } from "../estimating/closeout/variance/categories.js";
import type { FoundOrNot, RiskWorth } from "../estimating/closeout/variance/riskWorth.js";
import type { Row } from "../estimating/closeout/variance/row.js";
import type { ScopeCause } from "../estimating/closeout/variance/scope.js";
import { adjustmentTitle } from "./adjustment.js";
import { lineTitle } from "./line.js";
import { listed } from "./list.js";
import { money } from "./money.js";
import { chance } from "./percent.js";
import type { Tongue } from "./tongue.js";

const CATEGORY: Readonly<Record<CloseOutCategory, string>> = {
  access: "Access",
  labour: "Labour",
  "billing steps": "Billing steps and least charge",
  parts: "Parts",
  risk: "Charged for risk",
  fees: "Fees",
  "allowances and charges": "Discount, sundries, freight and charges",
  "not agreed": "Not agreed",
};

export const closeOutCategoryName = (category: CloseOutCategory): string => CATEGORY[category];

/** What a row is for, without its assembly. */
export const closeOutRowTitle = ({ is }: Pick<Row, "is">, tongue: Tongue): string =>
  "line" in is ? lineTitle(is.line) : adjustmentTitle(is.adjustment, tongue);

/** Said beside a row that was allowed for and has no time. */
export const NO_TIME_LOGGED = "No time was logged on this, so the difference may only mean that.";

/** What changed the scope. */
export function scopeCauseText(cause: ScopeCause): string {
  switch (cause.is) {
    case "revision":
      return `Revision ${cause.to} instead of revision ${cause.from}`;
    case "choice":
      return `The owner's choice among the options of revision ${cause.revision}`;
    case "found and done":
      return "What was found or was not needed, of what was agreed in advance";
  }
}

/** What a charge for risk was worth, in one sentence. */
export function riskWorthText({ charged, covers, used, kept }: RiskWorth, tongue: Tongue): string {
  const what = { work: "the work", parts: "the parts", found: "what was found" }[covers];
  const size = money(Math.abs(used), tongue);
  const came =
    covers === "found"
      ? used === 0
        ? "nothing was found"
        : `${what} came to ${size}`
      : used === 0
        ? `${what} came to what was allowed`
        : `${what} came to ${size} ${used > 0 ? "more" : "less"} than allowed`;
  const left = kept >= 0 ? `${money(kept, tongue)} of it is left` : `it fell short by ${money(-kept, tongue)}`;
  return `${money(charged, tongue)} was charged for risk; ${came}, so ${left}.`;
}

/** 'Expected in 30% of such jobs; found.' */
export const foundOrNotText = ({ group, probability, found }: FoundOrNot, { locale }: Tongue): string =>
  `${listed(group.names)}: expected in ${chance(probability, locale)} of such jobs; ${found ? "found" : "not found"}.`;
