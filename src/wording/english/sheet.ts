/** English of a sheet, on pages and papers alike: all that the shop's script carries of the language. */
import type { BoardSize, Hazard, Mounting, OfferState, TaxRounding } from "../../estimating/input.js";
import type { Adjustment, Why } from "../../estimating/sheet.js";
import { detail, lists, rules, scarcity, sources, warnings, why } from "./reasons.js";

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

const lines = {
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
  beforeTax: (amount: string) => `${amount} before tax`,
  diagnosisFee: "Diagnosis fee",
  diagnosisFeeCredited: "Diagnosis fee credited",
};

const names: Readonly<Record<Adjustment["sort"], string>> = {
  discount: "Discount",
  sundries: "Sundries",
  freight: "Freight",
  rush: "Rush charge",
  "promised price": "Kept to the prices promised",
};

const adjustments = { names, of: (base: string) => `of ${base}` };

const level: Readonly<Record<TaxRounding["level"], string>> = {
  line: "Tax is worked out and rounded for each line",
  group: "Tax is worked out and rounded once for each tax category",
  document: "Tax is worked out exactly and rounded once for the whole document",
};
const mode: Readonly<Record<TaxRounding["mode"], string>> = {
  "half up": "halves are rounded away from zero",
  "half down": "halves are rounded towards zero",
  down: "fractions are dropped",
};

const taxRounding = {
  ...{ level, mode },
  moreDigits: (count: number) => ` to ${count} more ${count === 1 ? "digit" : "digits"} than the currency has`,
};

const hazards: Readonly<Record<Hazard, string>> = {
  "mains and stored charge": "mains with stored charge",
  "valve high tension": "valve high tension",
  "lithium cells": "lithium cells",
  "leaking cells": "leaking cells",
  "lead solder": "lead solder",
  "solvent vapour": "solvent vapour",
  mercury: "mercury",
  asbestos: "asbestos",
  selenium: "selenium",
  "picture tube": "picture tube",
};

/** General knowledge of the trade, not a standard quoted. */
const dangers = {
  names: hazards,
  atHome: (listed: string) =>
    `This unit may hold dangers inside: ${listed}. Some stay after it is unplugged. Do not open it, and do not switch it on until it ` +
    "has been repaired and tested. Follow local codes; leave mains and high-tension work to a qualified person.",
  memory: (held: string) =>
    `Work on its battery may erase what the unit remembers${held === "" ? ", such as sounds and settings of your own" : ` (${held})`}. We save it first wherever that is possible; ` +
    "keep a copy of your own, and tell us of anything that must not be lost.",
};

export const englishOfSheet = {
  ...{ adjustments, dangers, detail, lines, lists, rules, scarcity, sources, taxRounding, warnings, why },
};

/** The words of a sheet in some language; English ones when absent. */
export interface SpokenOfSheet {
  readonly words?: typeof englishOfSheet;
}
