import type { AgreementProfile } from "../estimating/agreement/profile.js";
import { english } from "./english/index.js";
import type { Spoken } from "./tongue.js";

/** What an agreement profile has the bill tell the owner; empty for the shop's own terms. */
export function accountNotices(profile: AgreementProfile, { words: { law } = english }: Spoken = {}): string[] {
  const { id, partsReturned, warrantyMonths, itemisedBill } = profile;
  if (id === "plain") return [];
  return [
    ...(law.partsReturned[partsReturned] ? [law.partsReturned[partsReturned]] : []),
    ...(warrantyMonths ? [law.warranty(warrantyMonths)] : []),
    ...(itemisedBill ? [law.itemisedBill(itemisedBill.askWithinDays, itemisedBill.giveWithinDays)] : []),
    `${law.writtenFor(law.name(profile))} ${law.notAdvice}`,
  ];
}
