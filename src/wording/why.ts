import type { Why } from "../estimating/sheet.js";
import { duration } from "./duration.js";
import { counted, listed } from "./list.js";
import { money } from "./money.js";
import { percent } from "./percent.js";
import { scarcityText } from "./scarcity.js";
import type { Tongue } from "./tongue.js";

type Say = { readonly [K in Why["rule"]]: (why: Extract<Why, { rule: K }>, tongue: Tongue) => string };

const SAY: Say = {
  worked: () => "Work is done on it.",
  "in the way of": ({ of }) => `It must come off to reach ${listed(of)}.`,
  "joined to": ({ to }) => `It comes out together with ${listed(to)}.`,
  "by standard": ({ size, mounting, lowMinutes, highMinutes }, { locale }) =>
    `Timed by the rate book's standard for a ${size} board ${mounting}: ${duration(lowMinutes, locale)} to ${duration(highMinutes, locale)}.`,
  leads: ({ leads, minutesEach, setupMinutes, gradePercent }, { locale }) =>
    `${counted(leads, "lead")} each: ${duration(minutesEach, locale)} apiece${andSetup(setupMinutes, 1, locale)}${inCondition(gradePercent, locale)}.`,
  each: ({ minutesEach, setupMinutes, setups, gradePercent }, { locale }) =>
    `${duration(minutesEach, locale)} each${andSetup(setupMinutes, setups, locale)}${inCondition(gradePercent, locale)}.`,
  scarcity: ({ scarcity, percent: margin, because }, tongue) =>
    `${SCARCITY[scarcity]}: ${scarcityText(because, tongue)}; ${percent(margin, tongue.locale)} of its cost covers pieces that turn out bad or dearer.`,
  increment: ({ minutes, increment }, { locale }) =>
    `${duration(minutes, locale)} in all, billed in steps of ${duration(increment, locale)}.`,
  minimum: ({ minimum }, tongue) => `Brings labour and access up to the minimum charge of ${money(minimum, tongue)}.`,
  credited: () => "Taken off because the work goes ahead.",
  "storage days": ({ days }) => `Stored for ${counted(days, "day")}.`,
  "labour allowance": () =>
    "Some of the work may take longer than is usual; this is set against that, and you pay no more if it does.",
  "sourcing allowance": ({ parts }) =>
    `${listed(parts)} ${parts.length === 1 ? "is" : "are"} hard to get and not every piece proves good; this is for buying enough good ones, and you pay no more if it takes more.`,
  "if-found allowance": ({ work }) =>
    `Whether this is needed shows only during the work: ${work.join("; ")}. This covers it, and it is not charged again.`,
  reason: ({ text }) => text,
};

const SCARCITY = { "in stock": "In stock", "to order": "To order", scarce: "Scarce", "donor only": "Donor only" } as const;

const andSetup = (minutes: number, setups: number, locale: string): string =>
  minutes === 0 || setups === 0
    ? ""
    : setups === 1
      ? `, and ${duration(minutes, locale)} to set up`
      : `, and ${duration(minutes, locale)} to set up ${setups} times`;

const inCondition = (gradePercent: number | undefined, locale: string): string =>
  gradePercent === undefined ? "" : `; ${percent(gradePercent, locale)} of that in this condition`;

/** One plain sentence. */
export const whyText = (why: Why, tongue: Tongue): string => (SAY[why.rule] as (why: Why, tongue: Tongue) => string)(why, tongue);
