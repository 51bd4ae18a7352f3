/** What a job's risk means to the shop. */
import type { Pricing, ScarcityRules, WorkItem } from "../estimating/input.js";
import { OFFER_STATES } from "../estimating/lists.js";
import { bookShare } from "../estimating/parts/shareGood.js";
import { ownId, ownPartOf } from "../estimating/resolve.js";
import { isAboveOwners, neverMore } from "../estimating/sheet/terms.js";
import type { Buy, PlannedBuy, Raiser, RiskShare, RiskSummary, Sheet } from "../estimating/sheet.js";
import { chance, money, percent } from "./figures.js";
import { counted, listed } from "./list.js";
import type { Tongue } from "./tongue.js";

/** Plain fractions, the plainest first. */
const OUT_OF = [2, 3, 4, 5, 10, 20, 50, 100];
const NEAR_ENOUGH = 0.1;
const EXACT = 0.0005;
const RARE = 0.005;

/** A chance, 0 to 1, as a shop counts it: '4 jobs in 5', 'about 1 job in 3'. */
export function jobsIn(chance: number): string {
  if (chance <= 0) return "no job";
  if (chance >= 1) return "every job";
  if (chance < RARE) return "fewer than 1 job in 200";
  if (chance > 1 - RARE) return "all but 1 job in 200";
  const off = (of: number) => Math.abs(Math.round(chance * of) / of - chance);
  const of = OUT_OF.find((each) => off(each) <= NEAR_ENOUGH * Math.min(chance, 1 - chance)) ?? OUT_OF.at(-1)!;
  const jobs = Math.round(chance * of);
  return `${off(of) < EXACT ? "" : "about "}${jobs} ${jobs === 1 ? "job" : "jobs"} in ${of}`;
}

const PLAIN = 0.8;

/** What the shop reads first: '4 jobs in 5 like this cost you £612 or less.' */
export const riskText = ({ p80 }: Pick<RiskSummary, "p80">, tongue: Tongue): string =>
  `${jobsIn(PLAIN)} like this cost you ${money(p80, tongue)} or less.`;

/** What pieces that may prove bad add to a part in the shop's own words, and the share behind it; undefined where they add nothing. */
export function ownMarginText(
  { lines }: Pick<Sheet, "lines">,
  item: Pick<WorkItem, "id" | "part">,
  rules: ScarcityRules,
  tongue: Tongue,
): string | undefined {
  const margin = lines.find(({ id }) => id === `scarcity:${ownId(item.id)}`);
  const own = ownPartOf(item as WorkItem);
  if (!margin || !own) return undefined;
  const { state = "new", shareGood } = own;
  const share = chance(shareGood ?? bookShare(state, rules), tongue.locale);
  const whose = shareGood === undefined ? `by the rate book ${share} of ${state} pieces are` : `${share} of the pieces are`;
  const plan =
    margin.why?.rule === "buy plan" ? `, so ${counted(margin.why.pieces, "piece")} may be bought for ${margin.why.needed}` : "";
  return `The part carries ${money(margin.amount, tongue)} margin: ${whose} expected to be good${plan}.`;
}

/** The states a part can be in, each with the share that is taken to be good. */
export const stateOptions = (rules: ScarcityRules, locale: string): readonly (readonly [value: string, name: string])[] =>
  OFFER_STATES.map((state) => {
    const share = bookShare(state, rules);
    return [state, share < 1 ? `${state}: ${chance(share, locale)} good` : state] as const;
  });

/** Why a loss at the price as counted is not the shop's plan. */
export const AS_COUNTED_TEXT =
  "Nothing is charged for work that is not found, and what is found is charged on top once it is agreed.";

type Tried = Pick<RiskSummary, "tried" | "pricing" | "bounded">;

type Most = Pick<Sheet, "totals" | "ceiling">;

/** What the price does to the shop, as if it were fixed. `sheet`: for what the owner pays at most, tax included. */
export function triedText(risk: Tried, tongue: Tongue, sheet?: Most): string {
  const text = `${sheet && isOther(risk) ? otherText(sheet, tongue) : ""}${lossText(risk, tongue, sheet)}`;
  return risk.bounded ? `${text} ${BOUNDED_TEXT}` : text;
}

/** The pricing asks for one ceiling, and another holds. */
export const isOther = ({ tried, pricing: { ceiling } }: Pick<RiskSummary, "tried" | "pricing">): boolean =>
  ceiling !== undefined && ceiling !== tried.price;

function otherText(sheet: Most, tongue: Tongue): string {
  if (isAboveOwners(sheet)) return "In its place holds the total, which is above what the owner had allowed. ";
  const { amount, from } = sheet.ceiling;
  const whose = from.is === "rule" && from.rule === "ceiling set by owner" ? "the owner's own" : "the law's";
  return `In its place holds ${whose} ceiling of ${money(amount, tongue)}, tax included. `;
}

const BOUNDED_TEXT =
  "So many possible faults share what they open that some of it is counted more than once: these figures are a little high.";

function lossText({ tried, pricing }: Tried, tongue: Tongue, sheet?: Most): string {
  const what = pricing.ceiling === undefined ? "price" : "ceiling";
  const paid = pricing.ceiling === undefined || !sheet ? tried.price : neverMore(sheet);
  const price = paid === tried.price ? money(paid, tongue) : `${money(paid, tongue)} (${money(tried.price, tongue)} without tax)`;
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

const TEXT: Readonly<Record<RiskShare["source"], string>> = {
  condition: "condition of the unit",
  labour: "how long it takes",
  sourcing: "how many to buy",
  "if found": "whether it is found",
};

/** Why a thing's cost is not certain. */
export const riskSourceText = (source: RiskShare["source"]): string => TEXT[source];

/** 'Fixed price that covers 4 jobs in 5.' */
export function pricingText(pricing: Pricing, locale: string): string {
  const least = "minimumMarginPercent" in pricing ? pricing.minimumMarginPercent : undefined;
  const margin = least ? `, and leaves ${percent(least, locale)} of the price or more over the expected cost` : "";
  switch (pricing.is) {
    case "as counted":
      return "Priced as counted, nothing found.";
    case "fixed price":
      return `Fixed price that covers ${jobsIn(pricing.confidencePercent / 100)}${margin}.`;
    case "time and parts with ceiling":
      return `Time and parts, with a ceiling that covers ${jobsIn(pricing.confidencePercent / 100)}${margin}.`;
    case "expected cost plus":
      return `Fixed price: the expected cost and ${percent(pricing.percent, locale)} of it${margin}.`;
  }
}
