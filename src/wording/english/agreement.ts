import type { Cause } from "../../estimating/agreement/causes.js";
import type { FigureChange } from "../../estimating/agreement/changeList.js";
import type { FieldChange } from "../../estimating/agreement/difference.js";
import type { Mark } from "../../estimating/agreement/rowChanges.js";
import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import type { Payment } from "../../estimating/closeout/account/terms.js";
import type { PartState } from "../../estimating/closeout/log/workLog.js";
import type { AgreementProfile } from "../../estimating/law/profile.js";

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
  notAboveYourCeiling: "We do not charge more than the most you allowed without your agreement beforehand.",
  notAboveTheCeiling: "We do not charge more than the amount under 'Never more than' without your agreement beforehand.",
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

const basis: Readonly<Record<FinalAccount["basis"] | "declined unopened" | "declined after", string>> = {
  "fixed price": "Fixed price, as agreed",
  "time and parts": "Time and parts, up to the limit agreed",
  declined: "Declined: diagnosis and opening, no more than promised",
  "declined after": "Declined: diagnosis and opening, no more than promised, and the work done before, as agreed",
  "declined unopened": "Declined before it was opened: diagnosis, no more than promised",
  "taken back": "Taken back before an estimate was issued: diagnosis and opening, no more than was authorised",
  "nothing done": "Nothing that was agreed was done: diagnosis and opening, no more than declining would have cost",
};
const partState: Readonly<Record<PartState, string>> = {
  new: "new",
  "new old stock": "new old stock",
  used: "used",
  "donor pull": "used, from a donor unit",
  reproduction: "reproduction",
  reconditioned: "reconditioned",
};
const payment: Readonly<Record<Payment["for"], string>> = {
  deposit: "Deposit",
  balance: "Balance",
  "diagnosis fee": "Diagnosis fee",
  "decline fee": "Fee for declining",
  refund: "Refund",
  other: "Payment",
};

/** What the account says of its own accord. */
const paper = {
  finalAccount: "Final account",
  corrected: "Corrected final account",
  agreed: "Agreed",
  declined: "Declined",
  job: "Job",
  date: "Date",
  basis: "Basis",
  total: "Total, tax included",
  paid: "Paid already",
  paidBack: "To be paid back to you",
  stillToPay: "Still to pay",
  aboveAll: "Above the most for all together, not charged",
  aboveLimit: "Above the limit agreed, not charged",
  hours: "Hours and rate",
  labour: "Labour",
  labourWithin: "Labour within the price",
  ...{ time: "Time", timeWithin: "Time planned", ratePerHour: "Rate per hour", amount: "Amount" },
  worked: (attended: string, unattended: string | undefined, untimed: string | undefined) =>
    `Timed at the bench: ${attended} attended${unattended === undefined ? "" : `, and ${unattended} unattended`}.${untimed === undefined ? "" : ` Other work was done and not timed; it is reckoned at its planned time, ${untimed}.`}`,
  sinceAgreed: "From the agreed total to this one",
  what: "What changed, tax included",
  agreedTotal: "Agreed",
  notDone: (names: string) => (names ? `Not done: ${names}` : "Work as it was really done"),
  found: "Possible work that proved necessary",
  asItWas: "Time and parts as they really were",
  takenBack: "Work done while it was agreed, since taken back",
  partsFitted: "Parts fitted",
  ...{ part: "Part", state: "State", pieces: "Pieces" },
  inPlaceOf: (used: string, agreed: string) => `${used}, in place of ${agreed}`,
  beyond: "used beyond what was agreed and not charged",
  warrantyAndParts: "Warranty and parts",
  handedBack: "Handed back",
  abovePromised: "Above what was promised, not charged",
  nothingOwed: "Nothing is owed: no fee and no limit for finding the fault was agreed beforehand.",
  nothingDone: "Nothing is owed: the unit was taken back before anybody had opened it or looked for the fault.",
  lookingWaived: "Nothing is owed: finding the fault, opening and closing the unit are not charged.",
  goesBack: "Parts",
  yourRights: "Your rights under local consumer law stand beside what is said here.",
};

export const account = {
  ...{ basis, partState, payment, paper },
  received: (what: string, day: string) => `${what} received on ${day}`,
  givenBack: (day: string) => `Given back on ${day}`,
  how: { cash: "cash", card: "card", transfer: "bank transfer", other: "otherwise" } as Readonly<
    Record<"cash" | "card" | "transfer" | "other", string>
  >,
  receipt: {
    title: "Receipt",
    forWhat: "For",
    how: "How",
    by: "Received by",
    givenBy: "Given back by",
    amount: "Amount",
    toPay: "Still to pay",
  },
  limitPassed: (limit: string, by: string, reason: string, who: string) =>
    `The limit agreed, ${limit}, is passed by ${by}: ${reason} (${who}).`,
  limitHeld: (above: string, limit: string) => `${above} above the limit agreed, ${limit}, is not charged.`,
  promiseHeld: (above: string, promised: string) =>
    `Finding the fault took ${above} more than the ${promised} that were promised at most; that is not charged.`,
  noWarranty: "No warranty beyond what the law gives.",
  warranty: (days: number, until: string) => `Warranty: ${days} ${days === 1 ? "day" : "days"}, until ${until}.`,
  partsReturned: "The parts that were replaced are returned with the unit.",
  partsKept: (why: string) => `The parts that were replaced are not returned: ${why}.`,
  handedBackTo: (to: string, day: string) => `Handed back to ${to} on ${day}.`,
  handedBackWith: (things: string) => (things ? `With it: ${things}.` : "Nothing else went with it."),
  notOpened: "The unit was not opened, and nothing was taken out of it.",
  outReturned: "Parts that were taken out go back with the unit.",
  outKept: (why: string) => `Parts that were taken out do not go back: ${why}.`,
  agreedThen: (amount: string, beside: "declined" | "agreed" | "") =>
    `Work was done while it was agreed, before that was taken back. As agreed, it comes to ${amount}, tax included, and is ${beside ? `charged beside what ${beside === "declined" ? "was promised for declining" : "stands agreed"}` : "not charged"}. What was not ticked off stands by its time, at most as agreed.`,
  thenHeld: (over: string, most: string, rest: string) =>
    `${over} of it is not charged, as all together comes to no more than ${most}; so ${rest} is.`,
  notCharged: (worth: string) => `Work and parts worth ${worth} were not agreed and are not charged.`,
};

const marks: Readonly<Record<Mark, string>> = {
  added: "Added",
  dropped: "Dropped",
  corrected: "Corrected",
  "price changed": "Price changed",
  rounding: "Rounding",
};

const fields: Readonly<Record<Exclude<FieldChange["field"], "reason">, string>> = {
  assembly: "assembly",
  operation: "operation",
  part: "part",
  count: "count",
  certainty: "now",
  "time each": "time each",
  original: "what is fitted now",
  "part price": "the part's price",
  "part source": "where the part comes from",
  "fixed price": "price each",
  "labour class": "charged as",
  minutes: "time",
  "unit price": "each",
  amount: "amount",
};

const figures: Readonly<Record<Exclude<FigureChange["figure"], "days">, string>> = {
  total: "Total",
  ceiling: "Never more than",
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
  agreed: (what: string, after: string, before: string) => `${what} ${after} instead of the ${before} agreed`,
  reasonTakenOut: "reason taken out",
  reason: (text: string) => `reason: ${text}`,
  planned: "planned",
  ifFoundWith: (chance: string) => `if found (chance ${chance})`,
  chosen: "an option, chosen",
  notChosen: "an option, not chosen",
  refused: (revision: number) => `left out by the owner in revision ${revision}`,
  days: (after: number, before: number) => `About ${after} ${after === 1 ? "day" : "days"} to complete instead of ${before}`,
};

export const causes: Readonly<Record<Cause, string>> = {
  prices: "prices and rates that changed",
  condition: "the condition of the unit",
  access: "what has to be opened",
  dropped: "work dropped",
  found: "possible work that proved necessary",
  choice: "options taken up, or work left out",
  corrected: "work and counts corrected",
  "extra faults": "faults found since",
  terms: "discount, fees and terms",
};
