import type { AgreementProfile } from "../estimating/agreement/profile.js";
import { usedParts } from "../estimating/agreement/usedParts.js";
import type { EstimateInput } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { english } from "./english/index.js";
import { listed } from "./list.js";
import { percent } from "./percent.js";
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
