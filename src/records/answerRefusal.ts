/** What is said with an answer, and why it may not be put on record. */

import type { AgreedSet, PricedSet, UnknownInSet } from "../estimating/agreement/choices.js";
import { measured } from "../estimating/agreement/limit.js";
import { missingSpokenFields, type SpokenAgreement, type SpokenField } from "../estimating/agreement/spoken.js";
import type { EstimateInput, IsoDate, Minor, WorkItem } from "../estimating/input.js";
import { profileOf } from "../estimating/law/profiles.js";
import type { Agreement, AnswerGiven, Channel } from "./agreements.js";
import type { Issue } from "./issues.js";
import type { OwnerLink } from "./ownerLinks.js";

export interface Given extends AgreedSet {
  readonly estimateId: string;
  /** Content hash of the revision that was seen. */
  readonly contentHash: string;
  readonly answer: AnswerGiven;
  readonly by: string;
  readonly channel: Channel;
  /** The total that was shown for the set, where it was shown beside the answer. */
  readonly shown?: Minor | undefined;
  readonly link?: OwnerLink | undefined;
  readonly address?: string | undefined;
  readonly agent?: string | undefined;
  readonly recordedBy?: string | undefined;
  readonly spoken?: Partial<SpokenAgreement> | undefined;
  readonly writing?: string | undefined;
  readonly corrects?: string | undefined;
  readonly reason?: string | undefined;
  /** IANA name. */
  readonly zone: string;
  /** The day it is at the shop. */
  readonly today: IsoDate;
  /** The exact text for a set; `earlier` is the revision that stays agreed when this one is declined. */
  readonly wording: (set: PricedSet, earlier: number | undefined) => string;
}

export type AnswerRefusal =
  | { readonly is: "missing" }
  | { readonly is: "not issued" }
  | { readonly is: "closed"; readonly on: IsoDate }
  | { readonly is: "other content" }
  | { readonly is: "superseded"; readonly current: Issue }
  | { readonly is: "lapsed"; readonly until: IsoDate }
  | { readonly is: "answered already"; readonly current: Agreement }
  | { readonly is: "nothing to correct"; readonly current?: Agreement }
  | UnknownInSet
  /** Agreed with work struck out, in part with none, or everything struck out. */
  | { readonly is: "answer and set differ"; readonly left: "all" | "some" | "none" }
  | { readonly is: "price differs"; readonly shown: Minor; readonly total: Minor }
  | { readonly is: "spoken items missing"; readonly fields: readonly SpokenField[] }
  | { readonly is: "writing missing" }
  | { readonly is: "additional cost differs"; readonly expected: Minor };

/** Of an answer to what is current: its set, its price, its channel. `earlier` is what was agreed before. */
export function refusalOf(
  given: Given,
  { struck }: AgreedSet,
  { input: agreed, sheet }: PricedSet,
  whole: EstimateInput,
  earlier: PricedSet | undefined,
): AnswerRefusal | undefined {
  const left = struck.length === 0 ? "all" : agreed.items.some(mayBeDone) ? "some" : "none";
  const wanted = { agreed: "all", "part agreed": "some", declined: "all" }[given.answer];
  if (left !== wanted) return { is: "answer and set differ", left };
  if (given.answer === "declined") return channelRefusal(given, undefined);
  if (given.channel === "page" && given.today > sheet.validUntil) return { is: "lapsed", until: sheet.validUntil };
  const { total } = sheet.totals;
  if (given.shown !== undefined && given.shown !== total) return { is: "price differs", shown: given.shown, total };
  const profile = profileOf(whole.policy?.profile);
  const before = earlier ? measured(profile, earlier.sheet.totals) : 0;
  return channelRefusal(given, Math.max(0, measured(profile, sheet.totals) - before));
}

const mayBeDone = ({ count, certainty }: WorkItem): boolean => count > 0 && (certainty.is !== "optional" || certainty.chosen);

/** A spoken agreement is recorded with all its particulars; one in writing says which. `additional` is what it agrees to on top. */
function channelRefusal({ channel, spoken, writing, answer }: Given, additional: Minor | undefined): AnswerRefusal | undefined {
  if (channel === "page" || answer === "declined") return undefined;
  if (channel === "e-mail" || (channel === "in person" && !spoken))
    return writing?.trim() ? undefined : { is: "writing missing" };
  const fields = missingSpokenFields(spoken ?? {});
  if (fields.length > 0) return { is: "spoken items missing", fields };
  return additional !== undefined && spoken?.additionalCost !== additional
    ? { is: "additional cost differs", expected: additional }
    : undefined;
}
