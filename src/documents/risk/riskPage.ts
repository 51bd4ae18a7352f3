import type { RiskSummary } from "../../estimating/sheet.js";
import { chance } from "../../wording/figures.js";
import { counted } from "../../wording/list.js";
import { AS_COUNTED_TEXT, isOther, jobsIn, plannedBuyText, raisedText, riskSourceText } from "../../wording/risk.js";
import { heldName } from "../../wording/riskCurve.js";
import { day } from "../../wording/time.js";
import { numberOf, type Subject, unitName } from "../estimate/subject.js";
import type { Block, Row } from "../layout/block.js";
import { oneLine } from "../type/shape.js";
import { costCurve } from "./costCurve.js";

const AS_COUNTED = `${AS_COUNTED_TEXT} The figures above hold the owner to the price, whatever is found and however long it takes.`;

/** So many contributions keep the page one page. */
const MOST_SHARES = 6;

/** One page for the shop: what the job may cost it, and why. Never part of what an owner gets. */
export function riskPage(risk: RiskSummary, subject: Subject): Block[] {
  const { tongue, cash } = subject;
  const { tried } = risk;
  const price = heldName(risk);
  const share = (part: number): string => chance(part, tongue.locale);
  const about = [numberOf(subject), unitName(subject)].filter(Boolean).join(" · ");
  return [
    { is: "page" },
    { is: "title", text: "For the shop only" },
    { is: "paragraph", text: `${about}. This page is no part of the owner's estimate; keep it in the shop.` },
    { is: "rule" },
    {
      is: "figures",
      figures: [
        { label: "4 jobs in 5 like this cost you no more than", value: cash(risk.p80) },
        { label: isOther(risk) ? `${price} that holds` : `${price} chosen`, value: cash(tried.price) },
        {
          label: `Jobs that cost more than the ${price.toLowerCase()}`,
          value: share(tried.chanceOfLoss),
          note: jobsIn(tried.chanceOfLoss),
        },
        { label: "Expected cost", value: cash(risk.expected) },
        { label: "Spread around it (standard deviation)", value: cash(risk.sd) },
        { label: `Expected loss at this ${price.toLowerCase()}, over all jobs`, value: cash(tried.expectedLoss) },
      ],
    },
    ...(risk.pricing.by.is === "as counted" ? [{ is: "paragraph", small: true, text: AS_COUNTED } as const] : []),
    { is: "heading", text: "What the job may cost" },
    costCurve(risk, subject),
    { is: "gap", height: 4 },
    percentiles(risk, subject),
    ready(risk, subject),
    ...shares(risk, subject),
    ...buying(risk, subject),
  ];
}

function percentiles({ p10, p50, p80, p95, taxIncluded }: RiskSummary, { tongue, cash }: Subject): Block {
  const row = (part: number, amount: number): Row => ({
    cells: [
      { text: `${jobsIn(part)} like this ${part > 0.5 ? "cost" : "costs"} you no more` },
      { text: `P${Math.round(part * 100)}` },
      { text: chance(part, tongue.locale) },
      { text: cash(amount) },
    ],
  });
  return {
    is: "table",
    columns: [
      { title: "In plain words", width: "rest" },
      { title: "Percentile", width: "fit" },
      { title: "Chance", width: "fit", align: "right" },
      { title: `Cost, ${taxIncluded ? "tax included" : "without tax"}`, width: "fit", align: "right" },
    ],
    rows: [row(0.1, p10), row(0.5, p50), row(0.8, p80), row(0.95, p95)],
  };
}

function ready(risk: RiskSummary, { tongue: { locale } }: Subject): Block {
  const { completion, pricing } = risk;
  const { p50, p80 } = completion;
  const within = ({ days, on }: { days: number; on: string }) => `${day(on, locale)} (${counted(days, "day")})`;
  const raised = pricing.raisedTo === undefined ? "" : ` ${heldName(risk)}: ${raisedText(pricing.raisedTo)}`;
  return { is: "paragraph", text: `Half of such jobs are ready by ${within(p50)}, 4 in 5 by ${within(p80)}.${raised}` };
}

function shares({ contributions }: RiskSummary, subject: Subject): Block[] {
  if (contributions.length === 0) return [];
  const shown = contributions.slice(0, MOST_SHARES);
  const left = contributions.slice(MOST_SHARES);
  const rows = shown.map(
    (each): Row => ({
      cells: [{ text: oneLine(each.name) }, { text: riskSourceText(each.source) }, { text: subject.cash(each.takesOff) }],
    }),
  );
  const more =
    left.length === 0
      ? ""
      : ` ${counted(left.length, "more thing")} ${left.length === 1 ? "takes" : "take"} off no more than the last one here.`;
  return [
    { is: "heading", text: "Where the risk comes from" },
    {
      is: "table",
      columns: [
        { title: "What is not certain", width: "rest" },
        { title: "Why", width: "fit" },
        { title: "Certainty would take off P80", width: "fit", align: "right" },
      ],
      rows,
    },
    {
      is: "paragraph",
      small: true,
      text: `By how much P80 would fall if this one thing came to its expected cost and the rest stayed as it is. Risks overlap, so these do not add up.${more} Time and parts count here for what they are charged at.`,
    },
  ];
}

/** What to buy of the parts that are hard to get. */
const buying = ({ buyPlans }: RiskSummary, { tongue }: Subject): Block[] =>
  buyPlans.length === 0
    ? []
    : [
        { is: "heading", text: "What to buy" },
        ...buyPlans.map((plan): Block => ({ is: "paragraph", small: true, text: plannedBuyText(plan, tongue) })),
      ];
