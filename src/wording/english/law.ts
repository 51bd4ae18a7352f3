import type { AgreementProfile } from "../../estimating/agreement/profile.js";

const partsReturned: Readonly<Record<AgreementProfile["partsReturned"], string>> = {
  returned: "Replaced parts are returned to you.",
  "in most cases": "Replaced parts are returned to you in most cases; tell us if you want them.",
  "on request": "Replaced parts are returned to you if you ask for them.",
  "not stated": "",
};

export const law = {
  partsReturned,
  /** Of a profile, which carries its English one. */
  name: ({ name }: Pick<AgreementProfile, "id" | "name">) => name,
  notAdvice: "Not legal advice; check your local law.",
  writtenFor: (name: string) => `Written for ${name}.`,
  notAboveYourCeiling: "We do not go above the ceiling you set without your agreement beforehand.",
  notAboveTheCeiling: "We do not go above the ceiling without your agreement beforehand.",
  notAbove: "We do not go above this estimate, and the possible work listed with it, without your agreement beforehand.",
  notMoreAbove: (percent: string) =>
    `We do not go more than ${percent} above this estimate, and the possible work listed with it, without your agreement beforehand.`,
  taxApart: "Sales tax is added to the estimate and is not part of it.",
  noStoredData: "You told us that this unit holds no data of yours. Repair may erase what it holds.",
  storedData: (held: string) => `This unit holds data of yours: ${held}. Repair may erase it; keep a copy.`,
  usedPartsMaybe: "Used or reconditioned parts may be fitted where new ones are not to be had; the bill names them.",
  usedParts: (names: string) => `Used or reconditioned parts are planned for: ${names}. The bill names every such part.`,
  warranty: (months: number) =>
    `Parts and labour carry a warranty of ${months} ${months === 1 ? "month" : "months"} from return of the unit.`,
  itemisedBill: (ask: number, give: number) =>
    `You may ask for an itemised bill within ${ask} days; you get it free of charge within ${give} days.`,
};
