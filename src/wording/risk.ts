import type { Raiser } from "../estimating/parts/buyPlan.js";
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

/** What the price does to the shop, as if it were fixed. */
export function triedText({ tried, pricing }: Pick<RiskSummary, "tried" | "pricing">, tongue: Tongue): string {
  const what = pricing.ceiling === undefined ? "price" : "ceiling";
  const price = money(tried.price, tongue);
  if (tried.chanceOfLoss <= 0) return `No such job costs you more than the ${what} of ${price}.`;
  const jobs = jobsIn(tried.chanceOfLoss);
  return `If the owner never pays more than the ${what} of ${price}, ${jobs} ${/\b1 job\b/.test(jobs) || jobs === "every job" ? "loses" : "lose"} money, and over all such jobs you lose ${money(tried.expectedLoss, tongue)} each.`;
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
  const bought = listed(buys.map(({ pieces, source }) => `${pieces} from ${source}`));
  const sure = `${chance(probability, tongue.locale)} sure to hold ${counted(needed, "good piece")}`;
  return `${name}: buy ${bought} for ${money(spend, tongue)}, here in ${counted(leadDays, "day")}; ${sure}${reached ? "" : `, short of the ${wanted} wanted; to reach it: ${all}`}.`;
}

function raiserText(raiser: Raiser, { locale }: Tongue): string {
  switch (raiser.is) {
    case "an offer":
      return "record an offer";
    case "more of an offer":
      return `have ${counted(raiser.pieces, "more piece")} of offer ${raiser.offer}`;
    case "pieces surely good":
      return `find ${counted(raiser.pieces, "piece")} tested good`;
    case "a lower service level":
      return `settle for ${chance(raiser.level, locale)}`;
  }
}
