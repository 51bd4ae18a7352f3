/** What was agreed, how the owner says so, and why an entry or a record does not hold against it. */
import type { ChainFault } from "../estimating/agreement/chain.js";
import type { LogVerdict } from "../estimating/agreement/workLog.js";
import { usualBasis } from "../estimating/closeout/account/terms.js";
import type { EstimateInput, Minor } from "../estimating/input.js";
import type { SpokenField } from "../estimating/law/spoken.js";
import type { Unagreed } from "../estimating/problems.js";
import { neverMore, storageADay } from "../estimating/sheet/terms.js";
import type { GroupPrice, Sheet } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import { money } from "./figures.js";
import { workTitle } from "./line.js";
import { listed } from "./list.js";
import { bookIn, namesIn } from "./names.js";
import { ownersPageIn } from "./ownersPage.js";
import { day, moment, onTheWall } from "./time.js";
import type { Tongue } from "./tongue.js";
import { isUntaxed, untaxed } from "./untaxed.js";

const SPOKEN: Readonly<Record<SpokenField, string>> = {
  date: "Date of the answer",
  time: "Time of the answer",
  authoriser: "Name of the person who agreed",
  numberCalled: "Number called",
  receiver: "Name of the person who took the agreement",
  conditions: "Conditions, or 'none'",
  extraPartsAndLabour: "The extra parts and labour",
  additionalCost: "Total additional cost",
};

/** A field of a spoken agreement, as its label. */
export const spokenFieldText = (field: SpokenField): string => SPOKEN[field];

const UNAGREED: Readonly<Record<Unagreed["why"], string>> = {
  "nothing agreed": "Not agreed: the owner has not answered yet.",
  "not in what was agreed": "Not agreed: it is not in the revision the owner agreed to.",
  "left out by the owner": "Not agreed: the owner left it out.",
  "option not chosen": "Not agreed: the owner left this option.",
  "changed since": "Not agreed: it has changed since the owner agreed.",
  "more than agreed": "Not agreed in full: the count is higher than the owner agreed to.",
};

/** Why an item is marked on the bench sheet. */
export const unagreedText = (why: Unagreed["why"]): string => UNAGREED[why];

/** Why a work log entry was refused and what to do; undefined when it was not. */
export function logRefusalText(verdict: LogVerdict, withTax: boolean, tongue: Tongue): string | undefined {
  if (verdict.is === "within") return undefined;
  const then = "Ask the owner first, or record an override with your name and the reason.";
  if (verdict.is === "not agreed") return `${unagreedText(verdict.why)} ${then}`;
  return `This would pass what the owner agreed to by ${money(verdict.by, tongue)}, ${withTax ? "tax included" : "before tax"}. ${then}`;
}

/** Before a revision is issued that would do work for nothing. `titles`: of agreed work that is done. */
export const doneLeftOutText = (titles: readonly string[]): string =>
  `${listed(titles)}: agreed and done, and not in the total of this revision, so it would not be charged. Put it in as planned, unless you mean to give it.`;

/** The first thing in an event list that does not match. */
export function chainFaultText(fault: ChainFault): string {
  switch (fault.is) {
    case "number":
      return `Event ${fault.number} stands where event ${fault.expected} should; one was removed, put in or moved.`;
    case "job":
      return `Event ${fault.number} belongs to job ${fault.job}, not to ${fault.expected}.`;
    case "hash":
      return `Event ${fault.number} does not match its hash; it or what came before was changed.`;
    case "head":
      return fault.found === undefined
        ? `Event ${fault.number} is gone, though a document with its hash left the shop.`
        : `Event ${fault.number} is not the one whose hash left the shop on a document; the list was rewritten.`;
  }
}

interface Given {
  /** When it was put on record: ISO 8601, with time and zone where they are known. */
  readonly at: string;
  /** IANA name of the shop's time zone; UTC unless given. */
  readonly zone?: string;
  /** When it was said, by the shop's clock. */
  readonly spoken?: { readonly date?: string; readonly time?: string } | undefined;
}

/** When an answer was given: as it was said, where it was spoken; otherwise as it was put on record. */
export function givenText({ at, zone = "UTC", spoken: { date, time } = {} }: Given, locale: string): string {
  if (date !== undefined) return time === undefined ? day(date, locale) : onTheWall(date, time, locale);
  return HAS_TIME.test(at) ? moment(at, locale, zone) : day(at, locale);
}

/** The owner's answer as the shop has it on record. */
export interface Answered extends Given {
  readonly by: string;
  readonly channel: "page" | "in person" | "telephone" | "e-mail";
}

const CHANNEL: Readonly<Record<Answered["channel"], string>> = {
  page: "on the owner's page",
  "in person": "in person",
  telephone: "by telephone",
  "e-mail": "by e-mail",
};

/** 'Ada Fenwick, 25 November 2026 at 10:14 GMT, by telephone': the time of day as pages have it. */
export const answeredText = ({ by, channel, ...given }: Answered, locale: string): string =>
  [by, givenText(given, locale), CHANNEL[channel]].join(", ");

const HAS_TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d[\d:.]*(Z|[+-]\d\d:\d\d)$/;

interface AnswerSubject {
  readonly answer: "agreed" | "part agreed" | "declined";
  /** The issued input, whole. */
  readonly input: EstimateInput;
  /** Of the set that is agreed to. */
  readonly sheet: Sheet;
  /** Ids of work items struck out. */
  readonly struck: readonly string[];
  /** An earlier revision that stays agreed when this one is declined. */
  readonly earlier?: number | undefined;
  /** Something was logged on it: it may be open. */
  readonly begun: boolean;
  /** Work was done as agreed before that is taken back with this answer, or was before: the most that it and the looking come to. */
  readonly agreedThen?: Minor | undefined;
}

/** What is agreed to besides the price, on paper and owner's page alike: the shop's terms, and under them what storage costs and whose rights stand; undefined where there are none. */
export function termsTexts(
  { rateBook, paperwork }: EstimateInput,
  { totals }: Sheet,
  tongue: Tongue,
): { readonly heading: string; readonly terms: readonly string[]; readonly beside: string } | undefined {
  const { agreement: texts } = (isUntaxed(totals) ? untaxed(tongue.words ?? english) : (tongue.words ?? english)).paper;
  const terms = paperwork?.terms ?? [];
  const daily = storageADay(rateBook);
  if (terms.length === 0 && daily === 0) return undefined;
  const storage = daily === 0 ? [] : [texts.storage(money(daily, tongue))];
  return { heading: texts.terms, terms, beside: [...storage, texts.yourRights].join(" ") };
}

/** Of a price by time: what is charged is told wherever the price and its ceiling are agreed to. */
export function billedText(input: EstimateInput, sheet: Sheet, tongue: Tongue): string {
  if (usualBasis(input) === "fixed price") return "";
  const flat = sheet.lines.some(({ why }) => why?.rule === "fixed price");
  return (tongue.words ?? english).paper.agreement.billed(money(neverMore(sheet), tongue), flat);
}

/** The exact text that an owner agrees to or declines by, put on record word for word. */
export function ownerAnswerText({ input, ...given }: AnswerSubject, tongue: Tongue): string {
  const { tag, lists } = tongue.words ?? english;
  const { answer, earlier } = given;
  const sheet = namesIn(given.sheet, tag);
  const subject = { ...given, sheet, input: bookIn(input, tag) };
  const said = ownersPageIn(tag).words;
  const texts = isUntaxed(sheet.totals) ? untaxed(said) : said;
  const document = documentName(subject.input, tongue);
  if (answer === "declined") {
    const declining = given.begun ? texts.decline : texts.declineUnopened;
    if (earlier !== undefined) return texts.declineRevision(document, earlier);
    const { agreedThen: most } = given;
    const owed = sheet.ifDeclined.amount;
    const after = most === undefined ? [] : [texts.declineAfter(money(Math.max(most, owed), tongue))];
    return [declining(document, money(owed, tongue)), ...after].join(" ");
  }
  const what = answer === "agreed" ? texts.agree(document) : texts.agreeInPart(document, listed(titlesOf(subject), lists.and));
  const upTo = texts.upTo(money(sheet.totals.total, tongue), money(neverMore(sheet), tongue));
  const billed = billedText(subject.input, sheet, tongue);
  return [what, optionsText(sheet.options, tongue), ifFoundText(sheet, tongue), upTo, billed].filter(Boolean).join(" ");
}

/** In minor units, read from a refusal that says it. */
export function mostWorded(wording: string, { tag }: Required<Tongue>["words"]): Minor | undefined {
  const [before] = ownersPageIn(tag).words.declineAfter("\n").split("\n");
  const [, most] = wording.split(before!);
  return most === undefined ? undefined : Number(most.replaceAll(/\D/g, ""));
}

function documentName({ paperwork = {} }: EstimateInput, { locale, words = english }: Tongue): string {
  const texts = ownersPageIn(words.tag).words;
  const { number, revision, date } = paperwork;
  return [
    texts.estimate(number),
    revision === undefined ? "" : texts.revision(revision),
    date === undefined ? "" : texts.of(day(date, locale)),
  ]
    .filter(Boolean)
    .join(", ");
}

function optionsText(options: readonly GroupPrice[], { words = english }: Tongue): string {
  const texts = ownersPageIn(words.tag).words;
  if (options.length === 0) return "";
  const chosen = options.filter((option) => option.chosen);
  if (chosen.length === 0) return texts.noOptions;
  return texts.options(chosen.length, chosen.map(({ names }) => listed(names, words.lists.and)).join("; "));
}

function ifFoundText({ ifFound }: Sheet, { words = english }: Tongue): string {
  const texts = ownersPageIn(words.tag).words;
  if (ifFound.length === 0) return "";
  return ifFound.every(({ covered }) => covered) ? texts.covered : texts.possible;
}

function titlesOf({ input, struck }: AnswerSubject): string[] {
  const out = new Set(struck);
  return input.items.filter(({ id }) => out.has(id)).map((item) => workTitle(item, input));
}
