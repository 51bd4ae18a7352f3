import type { FigureChange } from "../estimating/agreement/changeList.js";
import type { FieldChange } from "../estimating/agreement/itemFields.js";
import type { Mark, RowChange } from "../estimating/agreement/rowChanges.js";
import type { Certainty, Minor } from "../estimating/input.js";
import { adjustmentTitle } from "./adjustment.js";
import { day } from "./day.js";
import { duration, spread } from "./duration.js";
import { lineTitle } from "./line.js";
import { counted } from "./list.js";
import { money, unitPrice } from "./money.js";
import { chance } from "./percent.js";
import type { Tongue } from "./tongue.js";

const MARK: Readonly<Record<Mark, string>> = {
  added: "Added",
  dropped: "Dropped",
  corrected: "Corrected",
  "price changed": "Price changed",
};

/** The word beside a row that changed since the revision before. */
export const markText = (mark: Mark): string => MARK[mark];

/** Money with its sign, so that a rise is told from a fall without colour. */
export const signedMoney = (amount: Minor, tongue: Tongue): string => `${amount > 0 ? "+" : ""}${money(amount, tongue)}`;

/** What a changed row is, with its assembly. */
export function rowTitle(row: RowChange, tongue: Tongue): string {
  if (row.is === "line") {
    const line = (row.after ?? row.before)!;
    return `${line.assembly && line.sort !== "access" ? `${line.assembly.name}: ` : ""}${lineTitle(line)}`;
  }
  if (row.is === "adjustment") return adjustmentTitle((row.after ?? row.before)!, tongue);
  const names = (row.after ?? row.before)!.names.join("; ");
  return row.is === "option" ? `Option: ${names}` : `If found: ${names}`;
}

const NONE = "none";

/** One changed field: 'count 6 instead of 4'. */
export function fieldText(change: FieldChange, tongue: Tongue): string {
  const { locale } = tongue;
  const instead = (what: string, after: string | undefined, before: string | undefined) =>
    `${what} ${after ?? NONE} instead of ${before ?? NONE}`;
  const both = <T>(what: string, { after, before }: { after?: T; before?: T }, say: (value: T) => string) =>
    instead(what, after === undefined ? undefined : say(after), before === undefined ? undefined : say(before));
  switch (change.field) {
    case "assembly":
    case "operation":
    case "part":
      return instead(change.field, change.after, change.before);
    case "reason":
      return change.after === undefined ? "reason taken out" : `reason: ${change.after}`;
    case "count":
      return both("count", change, String);
    case "certainty":
      return both("now", change, (certainty: Certainty) => certaintyText(certainty, locale));
    case "time each":
      return both("time each", change, (time) => spread(time, locale));
    case "original":
      return "what is fitted now";
    case "minutes":
      return both("time", change, (minutes) => duration(minutes, locale));
    case "unit price":
      return both("each", change, (price) => unitPrice(price, tongue));
    case "amount":
      return both("amount", change, (amount) => money(amount, tongue));
  }
}

function certaintyText(certainty: Certainty, locale: string): string {
  if (certainty.is === "planned") return "planned";
  if (certainty.is === "if found") return `if found (chance ${chance(certainty.probability, locale)})`;
  return certainty.chosen ? "an option, chosen" : "an option, not chosen";
}

const FIGURE: Readonly<Record<FigureChange["figure"], string>> = {
  total: "Total",
  ceiling: "Ceiling",
  "if declined": "If declined after opening",
  deposit: "Deposit",
  "paid already": "Paid already",
  due: "Due",
  days: "Days to complete",
  "valid until": "Valid until",
};

/** 'Total £300.00 instead of £250.00'. */
export function figureText(change: FigureChange, tongue: Tongue): string {
  const name = FIGURE[change.figure];
  if (change.figure === "valid until")
    return `${name} ${day(change.after, tongue.locale)} instead of ${day(change.before, tongue.locale)}`;
  if (change.figure === "days") return `About ${counted(change.after, "day")} to complete instead of ${change.before}`;
  return `${name} ${money(change.after, tongue)} instead of ${money(change.before, tongue)}`;
}
