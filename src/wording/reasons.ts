/** Why a figure is what it is: one plain sentence for each of the engine's reasons, in the words of a language. */
import type { Minutes, TaxRounding, ThreePoint } from "../estimating/input.js";
import { expected, inMilli } from "../estimating/labour/times.js";
import { fromMilli } from "../estimating/money/scales.js";
import type { Uncovered } from "../estimating/parts/orderList.js";
import type { Detail, Rule, ScarcityReason, Sheet, Source, Warning, Why } from "../estimating/sheet.js";
import { englishOfSheet as english, type SpokenOfSheet } from "./english/sheet.js";
import type { Figures } from "./figures.js";
import type { Tongue } from "./tongue.js";

/** One plain sentence. */
export const whyText = (why: Why, tongue: Tongue): string =>
  ((tongue.words ?? english).why[why.rule] as (why: Why, figures: Figures) => string)(why, tongue);

export const ruleText = (rule: Rule, { words = english }: SpokenOfSheet = {}): string => words.rules[rule];

/** One plain sentence saying where an amount comes from. */
export function sourceText(source: Source, tongue: Tongue): string {
  const words = tongue.words ?? english;
  if (source.is === "rule") return words.rules[source.rule];
  if (source.is === "boards") return words.sources.counted(words.lines.boards(source.size, source.mounting, source.count));
  return (words.sources.texts[source.is] as (source: Source, figures: Figures) => string)(source, tongue);
}

/** Completes a sentence such as 'Scarce: ...'. */
export const scarcityText = (reason: ScarcityReason, tongue: Tongue): string =>
  ((tongue.words ?? english).scarcity.reasons[reason.is] as (reason: ScarcityReason, figures: Figures) => string)(reason, tongue);

/** One plain sentence: what was noticed and what to do. */
export const warningText = (warning: Warning, tongue: Tongue): string =>
  ((tongue.words ?? english).warnings[warning.is] as (warning: Warning, figures: Figures) => string)(warning, tongue);

/** Completes 'Access is reckoned ...' and 'Work is counted ...'. */
export const detailText = (detail: Detail, { words = english }: SpokenOfSheet = {}): string => words.detail[detail];

/** Of a time with a range, what its sheet charges of it: the mean where it charges expected minutes. */
export const reckoned = (time: ThreePoint, { time: { charged } }: Pick<Sheet, "time">): Minutes =>
  charged ? fromMilli(expected(inMilli(time))) : time.likely;

/** 'between LOW and HIGH, most likely LIKELY'. */
export const spread = (time: ThreePoint, locale?: string, { words = english }: SpokenOfSheet = {}): string =>
  words.lists.spread(time, locale);

/** The rounding rule as printed under a tax table. */
export function taxRoundingText(rounding: TaxRounding, { words = english }: SpokenOfSheet = {}): string {
  const { level, mode, moreDigits } = words.taxRounding;
  const { extraDigits = 0 } = rounding;
  const digits = rounding.level === "line" && extraDigits > 0 ? moreDigits(extraDigits) : "";
  return `${level[rounding.level]}${digits}; ${mode[rounding.mode]}.`;
}

/** What is said of parts to get, on pages and in lists. */
export const UNCOVERED_TEXT: Readonly<Record<Uncovered["why"], string>> = {
  "own words": "in the shop's own words: order it as the estimate says",
  "counted by type": "counted by type only: take it from the drawers, or name the part in the estimate",
  "no offer": "no offer on record",
  "not enough offered": "more than is offered",
};
