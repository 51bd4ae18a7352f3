import type { EstimateInput } from "../estimating/input.js";
import type { GroupPrice, Sheet } from "../estimating/sheet.js";
import { day } from "./day.js";
import { listed } from "./list.js";
import { money } from "./money.js";
import type { Tongue } from "./tongue.js";
import { workTitle } from "./workTitle.js";

export interface AnswerSubject {
  readonly answer: "agreed" | "part agreed" | "declined";
  /** The issued input, whole. */
  readonly input: EstimateInput;
  /** Of the set that is agreed to. */
  readonly sheet: Sheet;
  /** Ids of work items struck out. */
  readonly struck: readonly string[];
  /** An earlier revision that stays agreed when this one is declined. */
  readonly earlier?: number | undefined;
}

/** The exact text that an owner agrees to or declines by, put on record word for word. */
export function ownerAnswerText(subject: AnswerSubject, tongue: Tongue): string {
  const { answer, sheet } = subject;
  const document = documentName(subject.input, tongue);
  if (answer === "declined") return declinedText(subject, document, tongue);
  const upTo = `I agree that it comes to ${money(sheet.totals.total, tongue)}, tax included, and goes above the ceiling of ${money(sheet.ceiling.amount, tongue)} only with a new agreement.`;
  const what =
    answer === "agreed"
      ? `I agree to ${document}: do the work listed.`
      : `I agree to ${document} in part: do the work listed, but not ${listed(titlesOf(subject))}.`;
  return [what, optionsText(sheet.options), ifFoundText(sheet), upTo].filter(Boolean).join(" ");
}

function declinedText({ sheet, earlier }: AnswerSubject, document: string, tongue: Tongue): string {
  if (earlier !== undefined) return `I decline ${document}. What I agreed to in revision ${earlier} stands.`;
  const owed = money(sheet.ifDeclined.amount, tongue);
  return `I decline ${document}. Refit the unit and return it. For opening and diagnosis already done I owe no more than ${owed}, tax included.`;
}

function documentName({ paperwork = {} }: EstimateInput, { locale }: Tongue): string {
  const { number, revision, date } = paperwork;
  return [
    `estimate ${number ?? ""}`.trim(),
    revision === undefined ? "" : `revision ${revision}`,
    date === undefined ? "" : `of ${day(date, locale)}`,
  ]
    .filter(Boolean)
    .join(", ");
}

function optionsText(options: readonly GroupPrice[]): string {
  if (options.length === 0) return "";
  const chosen = options.filter((option) => option.chosen);
  if (chosen.length === 0) return "I take none of the options.";
  return `I take the ${chosen.length === 1 ? "option" : "options"}: ${chosen.map(({ names }) => listed(names)).join("; ")}.`;
}

const ifFoundText = ({ ifFound }: Sheet): string =>
  ifFound.length === 0
    ? ""
    : ifFound.every(({ covered }) => covered)
      ? "The possible work listed may be done when it proves necessary; the price covers it."
      : "The possible work listed may be done when it proves necessary, at its price and within the ceiling.";

function titlesOf({ input, struck }: AnswerSubject): string[] {
  const out = new Set(struck);
  return input.items.filter(({ id }) => out.has(id)).map((item) => workTitle(item, input));
}
