import type { ScarcityReason } from "../../estimating/sheet.js";
import { duration } from "../duration.js";
import type { Words } from "../english/index.js";
import { listed } from "../list.js";
import { money } from "../money.js";
import { percent } from "../percent.js";
import type { Figures } from "../tongue.js";
import { boardNamed } from "./lines.js";
import { scarcity } from "./scarcity.js";

const all = (names: readonly string[]): string => listed(names, "und");

export const why: Words["why"] = {
  worked: () => "Daran wird gearbeitet.",
  "in the way of": ({ of }) => `Muss abgebaut werden, um an Folgendes zu gelangen: ${all(of)}.`,
  "joined to": ({ to }) => `Kommt zusammen heraus mit: ${all(to)}.`,
  "by standard": ({ size, mounting, lowMinutes, highMinutes }, { locale }) =>
    `Nach dem Richtwert der Werkstatt (${boardNamed(size, mounting)}): ${duration(lowMinutes, locale)} bis ${duration(highMinutes, locale)}.`,
  leads: ({ leads, minutesEach, setupMinutes, gradePercent }, { locale }) =>
    `Je ${leads} ${leads === 1 ? "Anschluss" : "Anschlüsse"}: ${duration(minutesEach, locale)} pro Stück${andSetup(setupMinutes, 1, locale)}${inCondition(gradePercent, locale)}.`,
  each: ({ minutesEach, setupMinutes, setups, gradePercent }, { locale }) =>
    `${duration(minutesEach, locale)} pro Stück${andSetup(setupMinutes, setups, locale)}${inCondition(gradePercent, locale)}.`,
  scarcity: ({ scarcity: how, percent: margin, because }, figures) =>
    `${scarcity.names[how]}: ${reasonText(because, figures)}; ${percent(margin, figures.locale)} der Kosten decken Stücke, die schlecht oder teurer ausfallen.`,
  increment: ({ minutes, increment }, { locale }) =>
    `Insgesamt ${duration(minutes, locale)}, abgerechnet in Schritten von ${duration(increment, locale)}.`,
  minimum: ({ minimum }, figures) => `Ergänzt Arbeitszeit und Zugang zum Mindestbetrag von ${money(minimum, figures)}.`,
  credited: () => "Abgezogen, weil die Arbeit beauftragt wird.",
  "storage days": ({ days }) => (days === 1 ? "Einen Tag gelagert." : `${days} Tage gelagert.`),
  "labour allowance": () =>
    "Manche Arbeit kann länger dauern als üblich; dafür ist dies angesetzt, und Sie zahlen dann nicht mehr.",
  "sourcing allowance": ({ parts }) =>
    `${all(parts)}: schwer zu beschaffen, und nicht jedes Stück ist gut; dies dient dazu, genügend gute zu kaufen, und Sie zahlen nicht mehr, wenn es mehr kostet.`,
  "if-found allowance": ({ work }) =>
    `Ob dies nötig ist, zeigt sich erst bei der Arbeit: ${work.join("; ")}. Dies deckt es ab, und es wird nicht noch einmal berechnet.`,
  "margin allowance": () => "Was die Werkstatt über die zu erwartenden Kosten von Arbeit und Teilen hinaus verlangt.",
  reason: ({ text }) => text,
};

const reasonText = (reason: ScarcityReason, figures: Figures): string =>
  (scarcity.reasons[reason.is] as (reason: ScarcityReason, figures: Figures) => string)(reason, figures);

const andSetup = (minutes: number, setups: number, locale: string): string =>
  minutes === 0 || setups === 0
    ? ""
    : setups === 1
      ? ` und ${duration(minutes, locale)} Rüstzeit`
      : ` und ${setups}-mal ${duration(minutes, locale)} Rüstzeit`;

const inCondition = (gradePercent: number | undefined, locale: string): string =>
  gradePercent === undefined ? "" : `; davon ${percent(gradePercent, locale)} bei diesem Zustand`;
