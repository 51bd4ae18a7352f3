import type { AgreementProfile } from "../estimating/agreement/profile.js";
import { usedParts } from "../estimating/agreement/usedParts.js";
import type { EstimateInput } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { counted, listed } from "./list.js";
import { percent } from "./percent.js";

export const LOCAL_LAW = "Not legal advice; check your local law.";

/** Where a profile comes from and how far that was read, for the shop. */
export function profileSourceText({ source, basis, readOn, notFromSource }: AgreementProfile): string {
  const how = basis === "shop's own" ? source : `${source}; ${basis}, ${readOn}`;
  return [`Source: ${how}.`, ...notFromSource, LOCAL_LAW].join(" ");
}

/** What the document must tell the owner under its profile, one sentence or two each; empty for the shop's own terms. */
export function profileNotices(profile: AgreementProfile, input: EstimateInput, sheet: Sheet, locale: string): string[] {
  const { id, name, requires, warrantyMonths, itemisedBill, taxCounts } = profile;
  if (id === "plain") return [];
  return [
    toleranceText(profile, input.policy?.ceiling !== undefined, locale),
    ...(taxCounts ? [] : ["Sales tax is added to the estimate and is not part of it."]),
    ...partsText(profile),
    ...(requires.includes("stored data notice") ? [storedDataText(input.unit.storedData ?? "")] : []),
    ...(requires.includes("used parts notice") ? [usedPartsText(usedParts(input, sheet))] : []),
    ...(warrantyMonths
      ? [`Parts and labour carry a warranty of ${counted(warrantyMonths, "month")} from return of the unit.`]
      : []),
    ...(itemisedBill
      ? [
          `You may ask for an itemised bill within ${itemisedBill.askWithinDays} days; you get it free of charge within ${itemisedBill.giveWithinDays} days.`,
        ]
      : []),
    `Written for ${name}. ${LOCAL_LAW}`,
  ];
}

function toleranceText({ toleranceOn, tolerancePercent }: AgreementProfile, ownersCeiling: boolean, locale: string): string {
  if (ownersCeiling) return "We do not go above the ceiling you set without your agreement beforehand.";
  if (toleranceOn === "highest price" || tolerancePercent === null)
    return "We do not go above the ceiling without your agreement beforehand.";
  return tolerancePercent === 0
    ? "We do not go above this estimate, and the possible work listed with it, without your agreement beforehand."
    : `We do not go more than ${percent(tolerancePercent, locale)} above this estimate, and the possible work listed with it, without your agreement beforehand.`;
}

const partsText = ({ partsReturned }: AgreementProfile): string[] =>
  partsReturned === "returned"
    ? ["Replaced parts are returned to you."]
    : partsReturned === "in most cases"
      ? ["Replaced parts are returned to you in most cases; tell us if you want them."]
      : partsReturned === "on request"
        ? ["Replaced parts are returned to you if you ask for them."]
        : [];

const storedDataText = (held: string): string =>
  held.trim() === ""
    ? "You told us that this unit holds no data of yours. Repair may erase what it holds."
    : `This unit holds data of yours: ${held.trim().replace(/[.]+$/, "")}. Repair may erase it; keep a copy.`;

const usedPartsText = (names: readonly string[]): string =>
  names.length === 0
    ? "Used or reconditioned parts may be fitted where new ones are not to be had; the bill names them."
    : `Used or reconditioned parts are planned for: ${listed(names)}. The bill names every such part.`;
