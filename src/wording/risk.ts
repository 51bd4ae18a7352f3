import type { Buy, Raiser } from "../estimating/parts/buyPlan.js";
import type { PlannedBuy, RiskSummary } from "../estimating/sheet.js";
import { jobsIn } from "./jobs.js";
import { counted, listed } from "./list.js";
import { money } from "./money.js";
import { chance } from "./percent.js";
import type { Tongue } from "./tongue.js";

const PLAIN = 0.8;

/** What the shop reads first: '4 jobs in 5 like this cost you £612 or less.' */
export const riskText = ({ p80 }: Pick<RiskSummary, "p80">, tongue: Tongue): string =>
  `${jobsIn(PLAIN)} like this cost you ${money(p80, tongue)} or less.`;

/** Why a loss at the price as counted is not the shop's plan. */
export const AS_COUNTED_TEXT =
  "Nothing is charged for work that is not found, and what is found is charged on top once it is agreed.";

/** What the price does to the shop, as if it were fixed. */
export function triedText({ tried, pricing }: Pick<RiskSummary, "tried" | "pricing">, tongue: Tongue): string {
  const what = pricing.ceiling === undefined ? "price" : "ceiling";
  const price = money(tried.price, tongue);
  if (tried.chanceOfLoss <= 0) return `No such job costs you more than the ${what} of ${price}.`;
  const jobs = jobsIn(tried.chanceOfLoss);
  const lose = `${jobs} ${/\b1 job\b/.test(jobs) || jobs === "every job" ? "loses" : "lose"} money, and over all such jobs you lose ${money(tried.expectedLoss, tongue)} each`;
  return pricing.by.is === "as counted"
    ? `${AS_COUNTED_TEXT} If you held the owner to ${price} whatever is found and however long it takes, ${lose}.`
    : `If the owner never pays more than the ${what} of ${price}, ${lose}.`;
}

const RAISED: Readonly<Record<NonNullable<RiskSummary["pricing"]["raisedTo"]>, string>> = {
  "deterministic price": "It stands at what is counted, which is more than the risk alone asks for.",
  "minimum margin": "It was raised to leave the least margin you set.",
};
export const raisedText = (to: keyof typeof RAISED): string => RAISED[to];

/** What to buy of one part, how sure it is to be enough, and what would make it surer. */
export function plannedBuyText(plan: PlannedBuy, tongue: Tongue): string {
  const { part, group, needed, buys, spend, probability, reached, serviceLevel, raisers, leadDays } = plan;
  const wanted = chance(serviceLevel, tongue.locale);
  const name = group === undefined ? part.name : `${part.name}, if it proves needed`;
  const all = raisers.map((raiser) => raiserText(raiser, tongue)).join("; or ");
  if (buys.length === 0)
    return `${name}: ${counted(needed, "good piece")} needed and none offered, so the rate book's margin stands in; to reach ${wanted}: ${all}.`;
  const bought = listed(buys.map((buy) => `${buy.pieces} from ${offerName(buy)}`));
  const sure = `${chance(probability, tongue.locale)} sure to hold ${counted(needed, "good piece")}`;
  return `${name}: buy ${bought} for ${money(spend, tongue)}, here in ${counted(leadDays, "day")}; ${sure}${reached ? "" : `, short of the ${wanted} wanted; to reach it: ${all}`}.`;
}

/** 'Marrowgate Surplus (used)'. */
const offerName = ({ source, state }: Pick<Buy, "source" | "state">): string => (state ? `${source} (${state})` : source);

function raiserText(raiser: Raiser, { locale }: Tongue): string {
  switch (raiser.is) {
    case "an offer":
      return "record an offer";
    case "more of an offer":
      return `have ${counted(raiser.pieces, "more piece")} from ${offerName(raiser)}`;
    case "pieces surely good":
      return `find ${counted(raiser.pieces, "piece")} tested good`;
    case "a lower service level":
      return `settle for ${chance(raiser.level, locale)}`;
  }
}
