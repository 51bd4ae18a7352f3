import type { ChainFault } from "../estimating/agreement/chain.js";
import type { SpokenField } from "../estimating/agreement/spoken.js";
import type { Unagreed } from "../estimating/agreement/unagreed.js";
import type { LogVerdict } from "../estimating/agreement/workLog.js";
import { money } from "./money.js";
import type { Tongue } from "./tongue.js";

const SPOKEN: Readonly<Record<SpokenField, string>> = {
  date: "Date of the agreement",
  time: "Time of the agreement",
  authoriser: "Name of the person who agreed",
  numberCalled: "Number called",
  receiver: "Name of the person who took the agreement",
  conditions: "Conditions, or 'none'",
  extraPartsAndLabour: "The extra parts and labour",
  additionalCost: "Total additional cost",
};

/** A field of a spoken agreement, as its label. */
export const spokenFieldText = (field: SpokenField): string => SPOKEN[field];

const UNAGREED: Readonly<Record<Unagreed["why"], string>> = {
  "nothing agreed": "Not agreed: the owner has not answered yet.",
  "not in what was agreed": "Not agreed: it is not in the revision the owner agreed to.",
  "option not chosen": "Not agreed: the owner left this option.",
  "changed since": "Not agreed: it has changed since the owner agreed.",
  "more than agreed": "Not agreed in full: the count is higher than the owner agreed to.",
};

/** Why an item is marked on the bench sheet. */
export const unagreedText = (why: Unagreed["why"]): string => UNAGREED[why];

/** Why a work log entry was refused and what to do; undefined when it was not. */
export function logRefusalText(verdict: LogVerdict, withTax: boolean, tongue: Tongue): string | undefined {
  if (verdict.is === "within") return undefined;
  const then = "Ask the owner first, or record an override with your name and the reason.";
  if (verdict.is === "not agreed") return `${unagreedText(verdict.why)} ${then}`;
  return `This would pass what the owner agreed to by ${money(verdict.by, tongue)}, ${withTax ? "tax included" : "before tax"}. ${then}`;
}

/** The first thing in an event list that does not match. */
export function chainFaultText(fault: ChainFault): string {
  switch (fault.is) {
    case "number":
      return `Event ${fault.number} stands where event ${fault.expected} should; one was removed, put in or moved.`;
    case "job":
      return `Event ${fault.number} belongs to job ${fault.job}, not to ${fault.expected}.`;
    case "hash":
      return `Event ${fault.number} does not match its hash; it or what came before was changed.`;
    case "head":
      return fault.found === undefined
        ? `Event ${fault.number} is gone, though a document with its hash left the shop.`
        : `Event ${fault.number} is not the one whose hash left the shop on a document; the list was rewritten.`;
  }
}
