/** What closed jobs say of the standards, and how good the estimates were. Amounts are minor units, not rounded. */
import type { Accuracy, Coverage } from "../estimating/closeout/accuracy/accuracy.js";
import type { Earned } from "../estimating/closeout/accuracy/board.js";
import type { Change, Proposal, Taken } from "../estimating/closeout/learning/proposal.js";
import type { Standard } from "../estimating/closeout/learning/standard.js";
import type { Minutes } from "../estimating/input.js";
import { chance, money, percent, plainNumber } from "./figures.js";
import { counted, fastenersText } from "./list.js";
import { duration } from "./time.js";
import type { Tongue } from "./tongue.js";

/** A standard by its name. */
export function standardName(standard: Standard): string {
  switch (standard.is) {
    case "operation":
    case "part type":
      return standard.name;
    case "leads":
      return "Soldered leads";
    case "fastener":
      return fastenersText([{ kind: standard.kind, count: 1 }]);
    case "access":
      return `Access, ${standard.size} board ${standard.mounting}`;
    case "grade":
      return `Condition: ${standard.name}`;
    case "share good":
      return `Share good: ${standard.state}`;
  }
}

const FIGURE: Readonly<Record<string, string>> = {
  setup: "set-up",
  unit: "each",
  minutes: "each",
  remove: "off",
  refit: "back on",
  labourPercent: "all minutes",
  spreadPercent: "spread among units",
};

/** Which of a standard's figures it is: 'set-up', 'each', 'desolder', 'off'. */
function changedFigure({ pointer }: Change): string {
  const last = pointer.slice(pointer.lastIndexOf("/") + 1);
  return pointer.startsWith("/scarcity") ? "share good" : (FIGURE[last] ?? last);
}

/** Minutes below which a change would vanish in tenths of them. */
const SHORT = 2;

/** 'each: 3 min (1.5 min to 7 min) becomes 3.6 min (1.7 min to 8.6 min)'. */
export function changeText(change: Change, locale: string): string {
  const say = sayingOf(change, locale);
  return `${changedFigure(change)}: ${say(change.was)} becomes ${say(change.proposed)}`;
}

/** What would be proposed without the job that moves a proposal most: 'without it set-up 8 min (4 min to 15 min), each 3 min (...).' */
export function withoutText(changes: readonly Change[], locale: string): string {
  if (changes.length === 0) return "without it nothing would change.";
  return `without it ${changes.map((change) => `${changedFigure(change)} ${sayingOf(change, locale)(change.proposed)}`).join(", ")}.`;
}

/** Times in seconds where tenths of a minute would hide the change. */
function sayingOf(change: Change, locale: string): (value: Change["was"]) => string {
  const short = [change.was, change.proposed].some((value) => typeof value !== "number" && value.likely < SHORT);
  const time = (minutes: Minutes) =>
    short ? `${plainNumber(Math.round(minutes * 600) / 10, locale)} s` : duration(minutes, locale);
  return (value) =>
    typeof value !== "number"
      ? `${time(value.likely)} (${time(value.low)} to ${time(value.high)})`
      : change.pointer.startsWith("/scarcity")
        ? chance(value, locale)
        : percent(value, locale);
}

/** What it rests on: '23 pieces of work on 12 jobs; they weigh 85% against the rate book.' */
export function evidenceText({ standard, observations, jobs, weight }: Proposal, locale: string): string {
  const seen =
    standard.is === "share good"
      ? `${counted(observations, "piece")} tested`
      : standard.is === "grade"
        ? counted(jobs, "job")
        : `${counted(observations, "piece of work", "pieces of work")} on ${counted(jobs, "job")}`;
  return `${seen}; ${observations === 1 ? "it weighs" : "they weigh"} ${chance(weight, locale)} against the rate book.`;
}

/** Where an accepted figure comes from, as the rate book keeps it. */
export const proposalNote = (proposal: Proposal): string => evidenceText(proposal, "en-GB").replace(/;.*/, "");

/** 'Half of them took 1.2 times the likely time or less, four in five 1.6 times.' */
export function takenText({ p50, p80 }: Taken): string {
  const times = (ratio: number) => `${Math.round(ratio * 100) / 100} times`;
  return `Half of them take ${times(p50)} the likely time or less, four in five ${times(p80)}.`;
}

/** '15 of 20 jobs stayed within their P80; with so many jobs, the true share lies between 51% and 91%.' */
export const coverageText = ({ within, of, low, high }: Coverage, locale: string): string =>
  `${within} of ${counted(of, "job")} came to no more than the figure that four in five should stay within; the true share lies between ${chance(low, locale)} and ${chance(high, locale)} (95% exact interval).`;

/** How good the estimates were, in plain sentences. Amounts are minor units, not rounded. */
function biasText({ bias, jobs }: Accuracy, tongue: Tongue): string {
  const amount = Math.round(bias);
  const over = `Over ${counted(jobs, "job")}`;
  if (amount === 0) return `${over}, work came to what the middle estimate said on average.`;
  return `${over}, work came to ${money(Math.abs(amount), tongue)} ${amount > 0 ? "more" : "less"} than the middle estimate on average.`;
}

/** Of fewer jobs a middle says nothing. */
const ENOUGH = 5;

export function accuracyTexts(accuracy: Accuracy, tongue: Tongue): string[] {
  const { jobs, medianAbsolutePercent, coverage80 } = accuracy;
  return [
    biasText(accuracy, tongue),
    ...(medianAbsolutePercent === undefined || jobs < ENOUGH
      ? []
      : [`For half of them it was within ${percent(tenth(medianAbsolutePercent), tongue.locale)} of what they came to.`]),
    ...(coverage80 ? [coverageText(coverage80, tongue.locale)] : []),
  ];
}

/** Undefined where no job's costs are known. */
export function marginText({ jobs, revenue, margin, percent: share }: Earned, tongue: Tongue): string | undefined {
  if (jobs === 0) return undefined;
  const of = share === undefined ? "" : ` (${percent(tenth(share), tongue.locale)})`;
  const known = jobs === 1 ? "the one job whose costs are known" : `the ${jobs} jobs whose costs are known`;
  return margin >= 0
    ? `${money(margin, tongue)} was left of ${money(revenue, tongue)} billed before tax${of}, over ${known}.`
    : `${money(-margin, tongue)} was lost on ${money(revenue, tongue)} billed before tax${of}, over ${known}.`;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
