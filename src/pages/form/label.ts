/** What a person calls a field: used beside it, in the list of problems, and where two versions are compared. */
import { columnsOf, type FormContext } from "./context.js";
import { type Draft, WHOLE_UNIT } from "./draft.js";
import { idOf } from "./fields.js";
import { UNIT_TEXT_NAMES, UNIT_TEXTS } from "./unitTexts.js";

const PLAIN: Readonly<Record<string, string>> = {
  "owner.id": "Owner on record",
  "owner.name": "Owner's name",
  "owner.address": "Owner's address",
  "owner.phone": "Owner's telephone",
  "owner.email": "Owner's e-mail",
  "owner.language": "Language the owner reads",
  "unit.maker": "Maker",
  "unit.model": "Model",
  "unit.value": "Declared value",
  "next.what": "Next line",
  "next.list": "Several lines",
  "unit.grade": "Condition grade",
  ...Object.fromEntries(UNIT_TEXT_NAMES.map((name) => [`unit.${name}`, UNIT_TEXTS[name].label])),
  "unit.dataHeld": "Owner's data in the unit",
  "unit.storedData": "What the unit holds",
  "unit.power": "What it runs on",
  "terms.discount": "Discount",
  "terms.discountBy": "Discount in percent or as an amount",
  "terms.discountReason": "Reason for the discount",
  "terms.rush": "Rush",
  "terms.storageDays": "Days of storage",
  "terms.diagnosis": "Charge the diagnosis fee",
  "terms.diagnosisLimit": "Most owed if declined",
  "terms.prepaid": "Paid already",
  "terms.queue": "Days until the bench is free",
  "terms.ceiling": "Ceiling set by the owner",
  "terms.profile": "Agreement profile",
  "terms.pricing": "Pricing",
  "terms.confidence": "Jobs in 100 to cover",
  "terms.margin": "Margin on the expected cost, %",
  "terms.leastMargin": "Least margin, % of the price",
  "meta.asOf": "Prices as of",
  "model.notes": "Notes on this model",
};

const ASSEMBLY: Readonly<Record<string, string>> = {
  name: "name",
  sort: "sort",
  by: "how access is timed",
  size: "size",
  mounting: "mounting",
  removeLow: "shortest minutes to remove",
  removeLikely: "likely minutes to remove",
  removeHigh: "longest minutes to remove",
  refitLow: "shortest minutes to refit",
  refitLikely: "likely minutes to refit",
  refitHigh: "longest minutes to refit",
  behind: "is behind",
  joined: "comes out together with",
  notes: "notes",
  open: "opening",
  wanted: "open in any case",
};

const LINE: Readonly<Record<string, string>> = {
  operation: "work",
  assembly: "where",
  part: "part",
  count: "count",
  certainty: "certainty",
  probability: "chance of being needed",
  chosen: "chosen",
  group: "group",
  reason: "reason",
  low: "shortest minutes each",
  likely: "likely minutes each",
  high: "longest minutes each",
  originalType: "original part type",
  originalValue: "original value",
  originalVolts: "original's rated volts",
  price: "fixed price each",
  labour: "labour class",
  ownHazards: "its danger",
  cost: "what one part costs",
  why: "why that price",
  brought: "the owner brings the part",
  like: "part type it is like",
  source: "bought from",
  state: "state of the part",
  days: "days to arrive",
  pack: "pieces in a pack",
  minPacks: "fewest packs",
  good: "share good, %",
  keep: "keep for next time",
  workingVolts: "working volts",
  tolerance: "original's tolerance",
  audio: "original is audio grade",
};

/** Fields of a hard concept -> where the help tells of it; a row's id is `*`. */
const HELP: Readonly<Record<string, string>> = {
  "unit.grade": "intake#condition",
  "unit.power": "intake#hazards",
  "terms.profile": "taxes#law-profile",
  "terms.prepaid": "payments#deposit",
  "terms.diagnosisLimit": "pricing#declined",
  "terms.ceiling": "pricing#ceiling",
  "terms.pricing": "pricing#pricing",
  "terms.confidence": "pricing#pricing",
  "terms.margin": "pricing#pricing",
  "terms.leastMargin": "pricing#pricing",
  "assembly.*.by": "counting#access",
  "line.*.likely": "counting#expected",
  "line.*.certainty": "possible-work#certainty",
  "line.*.probability": "possible-work#certainty",
  "line.*.group": "possible-work#options",
  "line.*.good": "scarce-parts#share-good",
};
export const helpOfField = (field: string): string | undefined => HELP[field.replace(/\.[^.]+\./, ".*.")];

export function labelOf(field: string, draft: Draft, { rateBook }: FormContext): string {
  const plain = PLAIN[field];
  if (plain) return plain;
  const [head = "", row = "", leaf = ""] = field.split(".");
  switch (head) {
    case "cells":
      return `${columnsOf(rateBook).find(({ id }) => id === idOf(leaf))?.name ?? idOf(leaf)}, ${assemblyName(row, draft)}`;
    case "usual":
      return `Usual count of ${columnsOf(rateBook).find(({ id }) => id === idOf(leaf))?.name ?? idOf(leaf)}, ${assemblyName(row, draft)}`;
    case "fasteners":
      return `${assemblyName(row, draft)}, ${idOf(leaf)}s`;
    case "hazards":
      return `${assemblyName(row, draft)}, hazard: ${idOf(leaf)}`;
    case "assembly":
      return `${assemblyName(row, draft)}, ${ASSEMBLY[leaf] ?? leaf}`;
    case "line":
      return `Line ${place(row, draft.line)}, ${LINE[leaf] ?? leaf}`;
    case "fit":
      return `Refit order ${place(row, draft.fit)}, ${leaf === "why" ? "reason" : leaf === "first" ? "goes back first" : "goes back after"}`;
    case "worth":
      return `Worth doing ${place(row, draft.worth)}, ${LINE[leaf] ?? leaf}`;
    case "boards":
      return `${row[0]?.toUpperCase() ?? ""}${row.slice(1)} boards ${idOf(leaf)}`;
    case "caution":
      return `Hazard: ${idOf(row)}`;
    case "scarcity":
      return `How hard to get: ${rateBook.partTypes.find(({ id }) => id === idOf(row))?.name ?? idOf(row)}`;
    default:
      return field;
  }
}

export function assemblyName(row: string, draft: Draft): string {
  if (row === WHOLE_UNIT) return "whole unit";
  return draft.assembly[row]?.name?.trim() || `Assembly ${place(row, draft.assembly)}`;
}

const place = (row: string, rows: Readonly<Record<string, unknown>>): number => Object.keys(rows).indexOf(row) + 1;
