import type { ScarcityReason, Why } from "../../estimating/sheet.js";
import { duration } from "../duration.js";
import { counted, listed } from "../list.js";
import { money } from "../money.js";
import { percent } from "../percent.js";
import type { Figures } from "../tongue.js";
import { scarcity } from "./scarcity.js";

export type Whys = { readonly [K in Why["rule"]]: (why: Extract<Why, { rule: K }>, figures: Figures) => string };

export const why: Whys = {
  worked: () => "Work is done on it.",
  "in the way of": ({ of }) => `It must come off to reach ${listed(of)}.`,
  "joined to": ({ to }) => `It comes out together with ${listed(to)}.`,
  "by standard": ({ size, mounting, lowMinutes, highMinutes }, { locale }) =>
    `Timed by the rate book's standard for a ${size} board ${mounting}: ${duration(lowMinutes, locale)} to ${duration(highMinutes, locale)}.`,
  leads: ({ leads, minutesEach, setupMinutes, gradePercent }, { locale }) =>
    `${counted(leads, "lead")} each: ${duration(minutesEach, locale)} apiece${andSetup(setupMinutes, 1, locale)}${inCondition(gradePercent, locale)}.`,
  each: ({ minutesEach, setupMinutes, setups, gradePercent }, { locale }) =>
    `${duration(minutesEach, locale)} each${andSetup(setupMinutes, setups, locale)}${inCondition(gradePercent, locale)}.`,
  scarcity: ({ scarcity: how, percent: margin, because }, figures) =>
    `${scarcity.names[how]}: ${reasonText(because, figures)}; ${percent(margin, figures.locale)} of its cost covers pieces that turn out bad or dearer.`,
  increment: ({ minutes, increment }, { locale }) =>
    `${duration(minutes, locale)} in all, billed in steps of ${duration(increment, locale)}.`,
  minimum: ({ minimum }, figures) => `Brings labour and access up to the minimum charge of ${money(minimum, figures)}.`,
  credited: () => "Taken off because the work goes ahead.",
  "storage days": ({ days }) => `Stored for ${counted(days, "day")}.`,
  "labour allowance": () =>
    "Some of the work may take longer than is usual; this is set against that, and you pay no more if it does.",
  "sourcing allowance": ({ parts }) =>
    `${listed(parts)} ${parts.length === 1 ? "is" : "are"} hard to get and not every piece proves good; this is for buying enough good ones, and you pay no more if it takes more.`,
  "if-found allowance": ({ work }) =>
    `Whether this is needed shows only during the work: ${work.join("; ")}. This covers it, and it is not charged again.`,
  "margin allowance": () => "What the shop asks over what the work and its parts are expected to come to.",
  reason: ({ text }) => text,
};
const reasonText = (reason: ScarcityReason, figures: Figures): string =>
  (scarcity.reasons[reason.is] as (reason: ScarcityReason, figures: Figures) => string)(reason, figures);

const andSetup = (minutes: number, setups: number, locale: string): string =>
  minutes === 0 || setups === 0
    ? ""
    : setups === 1
      ? `, and ${duration(minutes, locale)} to set up`
      : `, and ${duration(minutes, locale)} to set up ${setups} times`;

const inCondition = (gradePercent: number | undefined, locale: string): string =>
  gradePercent === undefined ? "" : `; ${percent(gradePercent, locale)} of that in this condition`;
