/** 'What changed' between two revisions: rows, fields, figures and their causes. */

import type { CauseAmount } from "../estimating/agreement/causes.js";
import type { ChangeList, FigureChange } from "../estimating/agreement/changeList.js";
import type { Category } from "../estimating/agreement/changeSums.js";
import type { FieldChange } from "../estimating/agreement/difference.js";
import type { Mark, RowChange } from "../estimating/agreement/rowChanges.js";
import type { Certainty, EstimateInput, Minor } from "../estimating/input.js";
import { english } from "./english/index.js";
import { chance, money, unitPrice } from "./figures.js";
import { adjustmentTitle, lineTitle } from "./line.js";
import { capital, listed } from "./list.js";
import { spread } from "./reasons.js";
import { day, duration } from "./time.js";
import type { Spoken, Tongue } from "./tongue.js";

/** The word beside a row that changed since the revision before. */
export const markText = (mark: Mark, { words = english }: Spoken = {}): string => words.changes.marks[mark];

/** Money with its sign, so that a rise is told from a fall without colour. */
export const signedMoney = (amount: Minor, tongue: Tongue): string => `${amount > 0 ? "+" : ""}${money(amount, tongue)}`;

/** What a changed row is, with its assembly. */
export function rowTitle(row: RowChange, tongue: Tongue): string {
  if (row.is === "line") {
    const line = (row.after ?? row.before)!;
    return `${line.assembly && line.sort !== "access" ? `${line.assembly.name}: ` : ""}${lineTitle(line, tongue)}`;
  }
  if (row.is === "adjustment") return adjustmentTitle((row.after ?? row.before)!, tongue);
  const names = (row.after ?? row.before)!.names.join("; ");
  const { option, ifFound } = (tongue.words ?? english).changes;
  return row.is === "option" ? option(names) : ifFound(names);
}

/** One changed field: 'count 6 instead of 4'. */
export function fieldText(change: FieldChange, tongue: Tongue): string {
  const { locale } = tongue;
  const texts = (tongue.words ?? english).changes;
  if (change.field === "reason") return change.after === undefined ? texts.reasonTakenOut : texts.reason(change.after);
  const name = texts.fields[change.field];
  const both = <T>({ after, before }: { after?: T; before?: T }, as: (value: T) => string) =>
    texts.instead(name, after === undefined ? texts.none : as(after), before === undefined ? texts.none : as(before));
  switch (change.field) {
    case "assembly":
    case "operation":
    case "part":
    case "labour class":
    case "count":
      return both<string | number>(change, String);
    case "certainty":
      return both(change, (certainty: Certainty) => certaintyText(certainty, tongue));
    case "time each":
      return both(change, (time) => (time.low === time.high ? duration(time.likely, locale) : spread(time, locale, tongue)));
    case "original":
    case "part price":
    case "part source":
      return name;
    case "minutes":
      return both(change, (minutes) => duration(minutes, locale));
    case "unit price":
      return both(change, (price) => unitPrice(price, tongue));
    case "fixed price":
    case "amount":
      return both(change, (amount) => money(amount, tongue));
  }
}

function certaintyText(certainty: Certainty, { locale, words = english }: Tongue): string {
  const { planned, ifFoundWith, chosen, notChosen, refused } = words.changes;
  if (certainty.is === "planned") return planned;
  if (certainty.is === "if found") return ifFoundWith(chance(certainty.probability, locale));
  if (certainty.chosen) return chosen;
  return certainty.refused === undefined ? notChosen : refused(certainty.refused);
}

/** 'Total £300.00 instead of £250.00', or of what was agreed. */
export function figureText(change: FigureChange, tongue: Tongue, agreed = false): string {
  const { figures, instead, days, agreed: asAgreed } = (tongue.words ?? english).changes;
  if (change.figure === "days") return days(change.after, change.before);
  const name = figures[change.figure];
  return change.figure === "valid until"
    ? instead(name, day(change.after, tongue.locale), day(change.before, tongue.locale))
    : agreed && change.figure === "total"
      ? asAgreed(name, money(change.after, tongue), money(change.before, tongue))
      : instead(name, money(change.after, tongue), money(change.before, tongue));
}

/** 'revision 1', or 'what was agreed in revision 1'. */
export const sinceText = ({ since: { revision = 0, agreed } }: Pick<ChangeList, "since">): string =>
  agreed ? `what was agreed in revision ${revision}` : `revision ${revision}`;

const SIGN: Readonly<Record<Mark, string>> = {
  added: "+",
  dropped: "\u2212",
  corrected: "\u2260",
  "price changed": "\u00b1",
  rounding: "~",
};

/** '+ Added': told without colour, and without reading. */
export const signedMark = (mark: Mark, spoken?: Spoken): string => `${SIGN[mark]}\u00a0${markText(mark, spoken)}`;

const CATEGORY: Readonly<Record<Category, string>> = {
  access: "Opening and refitting",
  labour: "Labour",
  parts: "Parts",
  "scarcity margin": "Scarcity margin",
  fees: "Fees",
  "allowances and charges": "Discount, sundries and charges",
  tax: "Tax",
};

/** The cause of an amount, with those it could not be told apart from. */
export const causesText = ({ cause, together = [] }: CauseAmount, { words = english }: Spoken = {}): string =>
  capital(
    listed(
      [cause, ...together].map((each) => words.causes[each]),
      words.lists.and,
    ),
  );

export const categoryText = (category: Category): string => CATEGORY[category];

type UnitDetail = keyof EstimateInput["unit"];

export const UNIT_DETAILS = Object.keys(english.unitDetails) as UnitDetail[];

/** A detail of the unit that was written otherwise before, for a list. */
export const unitDetailText = (detail: UnitDetail, { words = english }: Spoken = {}): string => words.unitDetails[detail];
