/** Puts an owner's answer on record. Only what is current can be agreed to; the same answer again is harmless; another one is a correction. */
import { type AgreedSet, type PricedSet, pricedSet } from "../estimating/agreement/choices.js";
import type { SpokenAgreement } from "../estimating/agreement/spoken.js";
import { type Agreement, agreedTo, agreementsTable, answersOf, standingAnswer } from "./agreements.js";
import { type AnswerRefusal, type Given, refusalOf } from "./answerRefusal.js";
import { closedOn } from "./closed.js";
import type { Database, Instant } from "./database.js";
import { estimates } from "./estimates.js";
import { type Issue, issues } from "./issues.js";
import { tellingOf } from "./keptOnce.js";
import { pricedAgreement } from "./pricedSet.js";
import { type Decided, recorded } from "./trail.js";

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
    const on = await closedOn(db, issue.jobId);
    if (on) return { answer: { is: "closed", on } };
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
          content: {
            revision: issue.revision,
            answer: given.answer,
            by: given.by,
            record: await tellingOf("agreements", record),
          },
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
