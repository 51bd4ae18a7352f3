import type { BoardSize, Mounting, OfferState } from "../../estimating/input.js";
import type { Why } from "../../estimating/sheet.js";

export type AllowanceRule = Extract<Why["rule"], `${string} allowance`>;

const allowances: Readonly<Record<AllowanceRule, string>> = {
  "labour allowance": "Allowance for work that takes longer",
  "sourcing allowance": "Allowance for parts that are hard to get",
  "if-found allowance": "Allowance for work that may prove necessary",
  "margin allowance": "Margin over the expected cost",
};

/** Of a part that is not simply new. */
const states: Readonly<Partial<Record<OfferState, string>>> = {
  "new old stock": "new old stock: unused, but made long ago",
  used: "used part",
  "donor pull": "used part, from a donor unit",
  reproduction: "reproduction",
};

const headings = {
  access: "Opening and refitting, charged once",
  parts: "Parts",
  hardToGet: "Parts that are hard to get",
  billedTime: "Billed time",
  allowances: "For what cannot be known beforehand",
  fees: "Fees",
  wholeUnit: "The unit as a whole",
};

export const lines = {
  ...{ allowances, states, headings },
  openAndRefit: (what: string) => `Open and refit ${what}`,
  theUnit: "the unit",
  boards: (size: BoardSize, mounting: Mounting, count: number) =>
    `${count} ${size} ${count === 1 ? "board" : "boards"} ${mounting}`,
  rounding: "Rounding to billed time",
  donorPull: (part: string) => `Pull from a donor unit: ${part}`,
  aPart: "part",
  minimumCharge: "Up to the minimum charge",
  scarcityMargin: (part: string) => `Scarcity margin: ${part}`,
  allowance: "Allowance",
  part: "Part",
  work: "Work",
  storage: "Storage",
  diagnosisFee: "Diagnosis fee",
  diagnosisFeeCredited: "Diagnosis fee credited",
};
