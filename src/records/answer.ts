/** Puts an owner's answer on record. Only what is current can be agreed to; the same answer again is harmless; another one is a correction. */
import { measured } from "../estimating/agreement/limit.js";
import { profileOf } from "../estimating/agreement/profile.js";
import { missingSpokenFields, type SpokenAgreement, type SpokenField } from "../estimating/agreement/spoken.js";
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput, IsoDate, Minor, WorkItem } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { agreedInput, unknownIn } from "./agreedInput.js";
import {
  type AgreedSet,
  type Agreement,
  type AnswerGiven,
  agreedTo,
  agreementsTable,
  answersOf,
  type Channel,
  standingAnswer,
} from "./agreements.js";
import type { Database, Instant } from "./database.js";
import { estimates } from "./estimates.js";
import { type Issue, issues } from "./issues.js";
import { told } from "./keptOnce.js";
import type { OwnerLink } from "./ownerLinks.js";
import { type Decided, recorded } from "./trail.js";

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

/** An agreed set, priced by the engine as a whole. */
export interface PricedSet {
  readonly input: EstimateInput;
  readonly sheet: Sheet;
}

export type AnswerRefusal =
  | { readonly is: "missing" }
  | { readonly is: "not issued" }
  | { readonly is: "other content" }
  | { readonly is: "superseded"; readonly current: Issue }
  | { readonly is: "lapsed"; readonly until: IsoDate }
  | { readonly is: "answered already"; readonly current: Agreement }
  | { readonly is: "nothing to correct"; readonly current?: Agreement }
  | { readonly is: "unknown"; readonly field: "chosen" | "struck"; readonly id: string }
  /** Agreed with work struck out, in part with none, or everything struck out. */
  | { readonly is: "answer and set differ"; readonly left: "all" | "some" | "none" }
  | { readonly is: "price differs"; readonly shown: Minor; readonly total: Minor }
  | { readonly is: "spoken items missing"; readonly fields: readonly SpokenField[] }
  | { readonly is: "writing missing" }
  | { readonly is: "additional cost differs"; readonly expected: Minor };

export type AnswerOutcome = { readonly is: "recorded"; readonly record: Agreement; readonly again: boolean } | AnswerRefusal;

/** `id` is the record's, chosen by the caller. */
export async function answer(db: Database, id: string, given: Given, at: Instant): Promise<AnswerOutcome> {
  const { estimateId } = given;
  const estimate = await estimates.find(db, estimateId);
  if (!estimate) return { is: "missing" };
  const issue = await issues.find(db, estimateId);
  if (!issue) return { is: "not issued" };
  if (issue.contentHash !== given.contentHash) return { is: "other content" };
  // What was issued never changes, so the set can be priced before the job's turn comes.
  const input = await estimates.inputOf(db, estimate);
  const set = setOf(given);
  const priced = pricedSet(input, set);
  if ("is" in priced) return priced;

  return recorded(db, issue.jobId, at, async (): Promise<Decided<AnswerOutcome>> => {
    const [all, before] = [await issues.ofJob(db, issue.jobId), await answersOf(db, issue.jobId)];
    const standing = standingAnswer(before, estimateId);
    if (standing && given.corrects === undefined) {
      if (isSame(standing, given)) return { answer: { is: "recorded", record: standing, again: true } };
      return { answer: { is: "answered already", current: standing } };
    }
    if (given.corrects !== standing?.id) return { answer: { is: "nothing to correct", ...(standing && { current: standing }) } };
    const current = all.at(-1)!;
    if (current.id !== estimateId && !(given.corrects !== undefined && given.answer === "declined"))
      return { answer: { is: "superseded", current } };
    const earlier = agreedTo(before, issue.revision);
    const refusal = refusalOf(given, set, priced, input, await pricedAgreement(db, earlier));
    if (refusal) return { answer: refusal };

    const record = recordOf(id, given, set, issue, priced, earlier, at);
    return {
      answer: { is: "recorded", record, again: false },
      writes: [db.insert(agreementsTable).values(record)],
      events: [
        {
          is: given.corrects === undefined ? "answered" : "answer corrected",
          content: { revision: issue.revision, answer: given.answer, by: given.by, record: await told("agreements", record) },
        },
      ],
    };
  });
}

/** Ids each once, in the order of the alphabet; a refusal chooses nothing. */
function setOf({ answer, chosen, struck }: Given): AgreedSet {
  const ids = (list: readonly string[]) => (answer === "declined" ? [] : [...new Set(list)].sort());
  return { chosen: ids(chosen), struck: ids(struck) };
}

export function pricedSet(input: EstimateInput, set: AgreedSet): PricedSet | Extract<AnswerRefusal, { is: "unknown" }> {
  const [unknown] = Object.entries(unknownIn(input, set));
  if (unknown) return { is: "unknown", field: unknown[0] as "chosen" | "struck", id: unknown[1] };
  const agreed = agreedInput(input, set);
  const outcome = compute(agreed);
  if (!outcome.ok) throw new Error("An issued estimate without some of its work has problems.");
  return { input: agreed, sheet: outcome.sheet };
}

/** A standing agreement's own set. */
export async function pricedAgreement(db: Database, agreement: Agreement | undefined): Promise<PricedSet | undefined> {
  const estimate = agreement && (await estimates.find(db, agreement.estimateId));
  if (!estimate) return undefined;
  const priced = pricedSet(await estimates.inputOf(db, estimate), agreement);
  if ("is" in priced) throw new Error(`Agreement ${agreement.id} names what its revision does not have.`);
  return priced;
}

function refusalOf(
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

function recordOf(
  id: string,
  given: Given,
  set: AgreedSet,
  { jobId, revision, contentHash, pdfHash }: Issue,
  priced: PricedSet,
  earlier: Agreement | undefined,
  at: Instant,
): Agreement {
  const { estimateId, answer, by, channel, zone, link, address, agent, recordedBy, spoken, writing, corrects, reason } = given;
  const { currency, totals, ceiling } = priced.sheet;
  return {
    ...{ id, jobId, at, zone, estimateId, revision, contentHash, pdfHash, answer, by, channel, currency, ...set },
    wording: given.wording(priced, earlier?.revision),
    ...(answer !== "declined" && { amount: totals.total, ceiling: ceiling.amount }),
    ...(link && { linkId: link.id, deliveredTo: link.deliveredTo }),
    ...(address && { address }),
    ...(agent && { agent }),
    ...(recordedBy && { recordedBy }),
    ...(spoken && { spoken: spoken as SpokenAgreement }),
    ...(writing && { writing }),
    ...(corrects !== undefined && { corrects }),
    ...(reason && { reason }),
  };
}

const isSame = (standing: Agreement, given: Given): boolean => {
  const { chosen, struck } = setOf(given);
  return (
    standing.answer === given.answer && JSON.stringify([standing.chosen, standing.struck]) === JSON.stringify([chosen, struck])
  );
};
