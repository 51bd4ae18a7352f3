/** What an agreement profile has a document say, and why an estimate is not ready under it. */

import type { EstimateInput } from "../estimating/input.js";
import type { AgreementProfile, DocumentField } from "../estimating/law/profile.js";
import { type Unready, usedParts } from "../estimating/law/unready.js";
import type { Sheet } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import { percent } from "./figures.js";
import { listed } from "./list.js";
import { day } from "./time.js";
import type { Spoken, Tongue } from "./tongue.js";

export const LOCAL_LAW = english.law.notAdvice;

/** Where a profile comes from and how far that was read, for the shop. */
export function profileSourceText({ source, basis, readOn, notFromSource }: AgreementProfile): string {
  const how = basis === "shop's own" ? source : `${source}; ${basis}, ${readOn}`;
  return [`Source: ${how}.`, ...notFromSource, LOCAL_LAW].join(" ");
}

/** What the document must tell the owner under its profile, one sentence or two each; empty for the shop's own terms. */
export function profileNotices(
  profile: AgreementProfile,
  input: EstimateInput,
  sheet: Sheet,
  tongue: Pick<Tongue, "locale" | "words">,
): string[] {
  const { id, requires, warrantyMonths, itemisedBill, taxCounts, partsReturned } = profile;
  if (id === "plain") return [];
  const { law, lists } = tongue.words ?? english;
  const used = usedParts(input, sheet);
  return [
    tolerance(profile, input.policy?.ceiling !== undefined, tongue),
    ...(taxCounts ? [] : [law.taxApart]),
    ...(law.partsReturned[partsReturned] ? [law.partsReturned[partsReturned]] : []),
    ...(requires.includes("stored data notice") ? [storedData(input.unit.storedData ?? "", tongue)] : []),
    ...(requires.includes("used parts notice")
      ? [used.length === 0 ? law.usedPartsMaybe : law.usedParts(listed(used, lists.and))]
      : []),
    ...(warrantyMonths ? [law.warranty(warrantyMonths)] : []),
    ...(itemisedBill ? [law.itemisedBill(itemisedBill.askWithinDays, itemisedBill.giveWithinDays)] : []),
    `${law.writtenFor(law.name(profile))} ${law.notAdvice}`,
  ];
}

function tolerance(
  { toleranceOn, tolerancePercent }: AgreementProfile,
  ownersCeiling: boolean,
  { locale, words = english }: Pick<Tongue, "locale" | "words">,
): string {
  const { law } = words;
  if (ownersCeiling) return law.notAboveYourCeiling;
  if (toleranceOn === "highest price" || tolerancePercent === null) return law.notAboveTheCeiling;
  return tolerancePercent === 0 ? law.notAbove : law.notMoreAbove(percent(tolerancePercent, locale));
}

const storedData = (held: string, { words = english }: Spoken): string =>
  held.trim() === "" ? words.law.noStoredData : words.law.storedData(held.trim().replace(/[.]+$/, ""));

const FIELD: Readonly<Record<DocumentField, string>> = {
  "shop name": "the shop's name: fill it in under the shop's settings",
  "shop address": "the shop's address: fill it in under the shop's settings",
  "shop phone": "the shop's telephone number: fill it in under the shop's settings",
  "shop e-mail": "the shop's e-mail address: fill it in under the shop's settings",
  "shop registration": "the shop's registration number: fill it in under the shop's settings",
  "owner name": "the owner's name: fill it in with the owner",
  "owner address": "the owner's address: fill it in with the owner",
  date: "the date: it is set when the estimate is issued",
  "maker and model": "the unit's maker and model: fill them in with the unit",
  serial: "the unit's serial number: fill it in with the unit, or write that it has none",
  "reported fault": "the fault as the owner reported it: fill it in with the unit",
  "work described": "the work: add at least one line",
  total: "the total",
  "highest price": "a highest price that holds: the ceiling is below the total, so agree a higher one or drop work",
  validity: "how long it is good for",
  "days to complete": "the days to complete",
  "price of diagnosis": "the price of diagnosis",
  "price of teardown and reassembly": "the price of opening and refitting",
  "stored data notice": "what the unit holds of the owner's data: ask, and fill it in with the unit, even if it is nothing",
  "used parts notice": "the notice of used parts",
};

/** Why an estimate cannot be issued under its profile, and what to do. */
export function unreadyText(unready: Unready, profileName: string, locale: string): string {
  switch (unready.is) {
    case "field missing":
      return `${profileName} asks for ${FIELD[unready.field]}.`;
    case "word not allowed":
      return `${profileName} does not let an estimate be called a '${unready.word}'; reword '${unready.sentence.replace(/[.!?;]+$/, "")}'.`;
    case "validity too short":
      return (
        `${profileName} wants it to hold for ${unready.days} days, until ${day(unready.atLeast, locale)}, but it ends on ${day(unready.until, locale)}; ` +
        `read the prices as of ${day(unready.asOfFrom, locale)} or later.`
      );
  }
}
