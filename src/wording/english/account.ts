import type { FinalAccount } from "../../estimating/closeout/account/finalAccount.js";
import type { Payment } from "../../estimating/closeout/account/terms.js";
import type { PartState } from "../../estimating/closeout/log/workLog.js";

const basis: Readonly<Record<FinalAccount["basis"], string>> = {
  "fixed price": "Fixed price, as agreed",
  "time and parts": "Time and parts, up to the limit agreed",
};
const partState: Readonly<Record<PartState, string>> = { new: "new", used: "used", reconditioned: "reconditioned" };
const payment: Readonly<Record<Payment["for"], string>> = {
  deposit: "Deposit",
  "diagnosis fee": "Diagnosis fee",
  other: "Payment",
};

/** What the account says of its own accord. */
const paper = {
  finalAccount: "Final account",
  corrected: "Corrected final account",
  agreed: "Agreed",
  date: "Date",
  basis: "Basis",
  total: "Total, tax included",
  paid: "Paid already",
  paidBack: "To be paid back to you",
  stillToPay: "Still to pay",
  aboveLimit: "Above the limit agreed, not charged",
  hours: "Hours and rate",
  labour: "Labour",
  labourWithin: "Labour within the price",
  ...{ time: "Time", ratePerHour: "Rate per hour", amount: "Amount" },
  worked: (attended: string, unattended: string | undefined) =>
    `Each line is rounded by itself. Really worked: ${attended} attended${unattended === undefined ? "" : `, and ${unattended} unattended`}.`,
  partsFitted: "Parts fitted",
  ...{ part: "Part", state: "State", pieces: "Pieces" },
  warrantyAndParts: "Warranty and parts",
  yourRights: "Your rights under local consumer law stand beside what is said here.",
};

export const account = {
  ...{ basis, partState, payment, paper },
  received: (what: string, day: string) => `${what} received on ${day}`,
  beforeTax: (amount: string) => `${amount} before tax`,
  limitPassed: (limit: string, by: string, reason: string, who: string) =>
    `The limit agreed, ${limit}, is passed by ${by}: ${reason} (${who}).`,
  limitHeld: (above: string, limit: string) => `${above} above the limit agreed, ${limit}, is not charged.`,
  noWarranty: "No warranty beyond what the law gives.",
  warranty: (days: number, until: string) => `Warranty: ${days} ${days === 1 ? "day" : "days"}, until ${until}.`,
  partsReturned: "The parts that were replaced are returned with the unit.",
  partsKept: (why: string) => `The parts that were replaced are not returned: ${why}.`,
  notCharged: (worth: string) => `Work and parts worth ${worth} were not agreed and are not charged.`,
};
