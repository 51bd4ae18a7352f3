import type { FigureChange } from "../../estimating/agreement/changeList.js";
import type { FieldChange } from "../../estimating/agreement/itemFields.js";
import type { Mark } from "../../estimating/agreement/rowChanges.js";

const marks: Readonly<Record<Mark, string>> = {
  added: "Added",
  dropped: "Dropped",
  corrected: "Corrected",
  "price changed": "Price changed",
};

const fields: Readonly<Record<Exclude<FieldChange["field"], "reason">, string>> = {
  assembly: "assembly",
  operation: "operation",
  part: "part",
  count: "count",
  certainty: "now",
  "time each": "time each",
  original: "what is fitted now",
  minutes: "time",
  "unit price": "each",
  amount: "amount",
};

const figures: Readonly<Record<Exclude<FigureChange["figure"], "days">, string>> = {
  total: "Total",
  ceiling: "Ceiling",
  "if declined": "If declined after opening",
  deposit: "Deposit",
  "paid already": "Paid already",
  due: "Due",
  "valid until": "Valid until",
};

export const changes = {
  ...{ marks, fields, figures },
  option: (names: string) => `Option: ${names}`,
  ifFound: (names: string) => `If found: ${names}`,
  none: "none",
  instead: (what: string, after: string, before: string) => `${what} ${after} instead of ${before}`,
  reasonTakenOut: "reason taken out",
  reason: (text: string) => `reason: ${text}`,
  planned: "planned",
  ifFoundWith: (chance: string) => `if found (chance ${chance})`,
  chosen: "an option, chosen",
  notChosen: "an option, not chosen",
  days: (after: number, before: number) => `About ${after} ${after === 1 ? "day" : "days"} to complete instead of ${before}`,
};
