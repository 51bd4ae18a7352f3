/** What the shop reads about the risk of the job; the owner's documents have none of it. */
import type { RiskSummary, Sheet } from "../../estimating/sheet.js";
import { chance, money } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { plannedBuyText, raisedText, riskSourceText, riskText, triedText } from "../../wording/risk.js";
import { heldName } from "../../wording/riskCurve.js";
import { day } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import { columns, wrapped } from "./columns.js";

const WIDE = 110;
/** The rest take off less. */
const MOST_SHARES = 8;

export function riskLines(risk: RiskSummary, sheet: Sheet, tongue: Tongue): string[] {
  const { expected, sd, p10, p50, p80, p95, completion, contributions, buyPlans, pricing, taxIncluded } = risk;
  const ready = (by: { readonly days: number; readonly on: string }) =>
    `${counted(by.days, "day")}, ${day(by.on, tongue.locale)}`;
  const sentences = [
    riskText(risk, tongue),
    triedText(risk, tongue, sheet),
    ...(pricing.raisedTo ? [raisedText(pricing.raisedTo)] : []),
    ...buyPlans.map((plan) => plannedBuyText(plan, tongue)),
  ];
  const figures: [string, string][] = [
    [`As counted, ${taxIncluded ? "tax included" : "without tax"}`, money(pricing.deterministic, tongue)],
    ["Expected", `${money(expected, tongue)}, standard deviation ${money(sd, tongue)}`],
    ["P10, P50, P80, P95", [p10, p50, p80, p95].map((amount) => money(amount, tongue)).join(", ")],
    [`${heldName(risk)} loses money`, chance(risk.tried.chanceOfLoss, tongue.locale)],
    ["Half are ready within", ready(completion.p50)],
    ["4 in 5 are ready within", ready(completion.p80)],
  ];
  const shares = contributions
    .slice(0, MOST_SHARES)
    .map(({ source, name, takesOff }) => [
      `Certainty about ${riskSourceText(source)}`,
      name,
      `${money(takesOff, tongue)} off P80`,
    ]);
  return [
    ...sentences.flatMap((text) => wrapped(text, WIDE)),
    ...columns(figures, ["<", "<"]),
    ...columns(shares, ["<", "<", ">"]),
  ];
}
