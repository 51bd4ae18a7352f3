/**
 * An owner's answer put on record: by the owner through a link, or by the shop for one given elsewhere. Only what is current can be agreed
 * to; the same answer again is harmless; another one is a correction. The words on record are those that were shown: both are
 * `answerWords` of the same set.
 */
import { type AgreedSet, afterAnswer, afterFinding, draftAfterAnswer, type PricedSet } from "../estimating/agreement/choices.js";
import { measured } from "../estimating/agreement/limit.js";
import type { EstimateInput, IsoDate, Minor } from "../estimating/input.js";
import type { AgreementProfile } from "../estimating/law/profile.js";
import { profileOf } from "../estimating/law/profiles.js";
import { missingSpokenFields, type SpokenAgreement, type SpokenField } from "../estimating/law/spoken.js";
import { neverMore } from "../estimating/sheet/terms.js";
import type { Sheet } from "../estimating/sheet.js";
import { type Agreement, type AnswerGiven, addAgreement, type Channel } from "../records/agreements.js";
import { estimates, priced } from "../records/estimates.js";
import { tellingOf } from "../records/keptOnce.js";
import type { OwnerLink } from "../records/ownerLinks.js";
import type { Write } from "../records/trail.js";
import { givenText, ownerAnswerText, spokenFieldText } from "../wording/agreement.js";
import { money } from "../wording/figures.js";
import { bookIn, namesIn } from "../wording/names.js";
import { clock, day, spokenIn } from "../wording/time.js";
import { type Spoken, type Tongue, wordsIn } from "../wording/tongue.js";
import { type Decided, type Desk, refused, wrongField } from "./act.js";
import { agreedThen } from "./agreedThen.js";
import type { JobAsItStands } from "./job.js";
import { owedDeclined } from "./reckoning.js";
import { today } from "./today.js";

export interface Given extends AgreedSet {
  readonly estimateId: string;
  /** Content hash of the revision that was seen; absent: whatever it is. */
  readonly contentHash?: string | undefined;
  readonly answer: AnswerGiven;
  readonly by: string;
  readonly channel: Channel;
  /** The total that was shown or told for the set. */
  readonly shown?: Minor | undefined;
  readonly link?: OwnerLink | undefined;
  readonly address?: string | undefined;
  readonly agent?: string | undefined;
  readonly recordedBy?: string | undefined;
  readonly spoken?: Partial<SpokenAgreement> | undefined;
  readonly writing?: string | undefined;
  /** The shop keeps its word, though the offer had ended. */
  readonly afterEnd?: boolean | undefined;
  readonly corrects?: string | undefined;
  readonly reason?: string | undefined;
}

type Refused = ReturnType<typeof refused>;

/** The owner's language and figures, where the paper has them. */
export function answerTongue({ settings }: JobAsItStands, { paperwork, currency }: EstimateInput): Tongue & Required<Spoken> {
  const { words } = wordsIn(paperwork?.language);
  return { words, locale: spokenIn(paperwork?.locale ?? settings.locale, words.tag), currency };
}

/** A refusal is of the revision as it was issued, whatever was ticked meanwhile. */
export const setOf = (answer: AnswerGiven, { chosen, struck }: AgreedSet, issued: AgreedSet): AgreedSet =>
  answer === "declined" ? issued : { chosen: [...new Set(chosen)].sort(), struck: [...new Set(struck)].sort() };

/** The options that the revision itself has chosen. */
export const asIssued = (job: JobAsItStands, estimateId: string): AgreedSet => ({
  chosen: (job.revision(estimateId)?.sheet?.options ?? []).flatMap(({ id, chosen }) => (chosen ? [id] : [])).sort(),
  struck: [],
});

/** Something is logged on it. Until then nobody is told that it is refitted. */
export const isBegun = (job: JobAsItStands): boolean => job.entries.length > 0;

/** As it would stand if what was agreed to of that revision were taken back. */
function asDeclined(job: JobAsItStands, estimateId: string): JobAsItStands {
  const standing = job.answerTo(estimateId);
  if (!standing) return job;
  const back = { id: `${standing.id} taken back`, at: "9999-12-31T00:00:00.000Z", corrects: standing.id };
  const { ceiling: _, ...agreed } = standing;
  const answer: Agreement = { ...agreed, ...back, answer: "declined" };
  const declined = job.asAnswered([...job.answers, answer]);
  const most = agreedThen(declined, true)?.upTo;
  return most === undefined ? declined : job.asAnswered([...job.answers, { ...answer, ceiling: most }]);
}

/** Of work done as agreed and the looking together, once this is declined: it is worded so, and nothing raises it afterwards. */
function mostDeclined(job: JobAsItStands, estimateId: string, { ifDeclined }: Pick<Sheet, "ifDeclined">): Minor | undefined {
  if (job.agreed(job.revision(estimateId)!.revision)) return undefined;
  const most = agreedThen(asDeclined(job, estimateId))?.upTo;
  return most ? Math.max(most, ifDeclined.amount) : undefined;
}

/** What is owed as the log and the ticks stand, once the answer to this revision is taken back; undefined where something stays agreed. */
export const owedTakenBack = (job: JobAsItStands, estimateId: string) => owedDeclined(asDeclined(job, estimateId));

/** The exact text of an answer to a set: shown before it is sent, and put on record. */
export function answerWords(job: JobAsItStands, estimateId: string, answer: AnswerGiven, set: AgreedSet): string {
  const revision = job.revision(estimateId)!;
  const input = job.inputOf(revision);
  const asked = setOf(answer, set, asIssued(job, estimateId));
  const priced = job.priced(estimateId, asked);
  if ("is" in priced) throw new Error(`The set names '${priced.id}', which the revision does not have.`);
  const earlier = job.agreed(revision.revision)?.agreement.revision;
  const tongue = answerTongue(job, input);
  const { tag } = tongue.words;
  const told = { input: bookIn(input, tag), sheet: namesIn(priced.sheet, tag, input.paperwork?.names) };
  const then = answer === "declined" ? mostDeclined(job, estimateId, priced.sheet) : undefined;
  return ownerAnswerText({ answer, ...told, struck: asked.struck, earlier, begun: isBegun(job), agreedThen: then }, tongue);
}

type Asked = Pick<Given, "estimateId" | "contentHash" | "answer" | "chosen" | "struck">;

/** The revision that an answer is to, the set it names, and what that comes to. */
function askedOf(job: JobAsItStands, given: Asked) {
  const { estimateId, answer } = given;
  const revision = job.revision(estimateId);
  if (!revision) return refused("not found", { detail: "There is no such estimate." });
  const issue = job.issueOf(estimateId);
  if (!issue) return refused("estimate not issued");
  if (given.contentHash !== undefined && issue.contentHash !== given.contentHash) return refused("content differs");
  const input = job.inputOf(revision);
  const tongue = answerTongue(job, input);
  const set = setOf(answer, given, asIssued(job, estimateId));
  const priced = job.priced(estimateId, set);
  if ("is" in priced)
    return wrongField(
      `/${priced.field}`,
      "record unknown",
      `'${priced.id}' is not ${priced.field === "chosen" ? "an option" : "work that can be left out"} of this revision.`,
    );
  // A refusal chooses nothing.
  const kept = answer === "declined" ? { chosen: [], struck: [] } : set;
  const { currency, totals, deposit } = priced.sheet;
  const most = answer === "declined" ? mostDeclined(job, estimateId, priced.sheet) : neverMore(priced.sheet);
  const told = {
    ...{ estimateId, revision: issue.revision, contentHash: issue.contentHash, answer, currency, ...kept },
    wording: answerWords(job, estimateId, answer, set),
    ...(answer !== "declined" && { amount: totals.total, deposit: deposit.amount }),
    ...(most !== undefined && { ceiling: most }),
  };
  return { issue, input, tongue, set, priced, told };
}

/** What would stand on record: the words and the amount that are shown before an answer is given. */
export function previewed(job: JobAsItStands, given: Asked) {
  const asked = askedOf(job, given);
  if ("refused" in asked) return asked;
  return setRefusal(given.answer, asked.set, asked.priced.input) ?? { answer: asked.told };
}

export async function answered(
  desk: Desk,
  job: JobAsItStands,
  given: Given,
): Promise<Decided<Agreement & { readonly again?: true }>> {
  const { estimateId, answer } = given;
  const asked = askedOf(job, given);
  if ("refused" in asked) return asked;
  const { issue, input, tongue, set, priced } = asked;
  const standing = job.answerTo(estimateId);
  if (standing && given.corrects === undefined) {
    if (isSame(standing, answer, set)) return { answer: { ...standing, again: true } };
    const when = givenText(standing, tongue.locale);
    const then = given.link === undefined ? "Correct that answer on its record." : "Ask the shop to put a correction on record.";
    const detail = `${standing.by}, ${when}: ${standing.answer}. ${then}`;
    return refused("answered already", { detail, current: standing });
  }
  if (job.closedOn)
    return refused("job closed", {
      detail: `The job was closed on ${day(job.closedOn, tongue.locale)}, and its account is final.`,
    });
  if (given.corrects !== standing?.id) return refused("nothing to correct", standing ? { current: standing } : {});
  if (given.corrects !== undefined && !given.reason)
    return wrongField("/reason", "reason missing", "Why the record is corrected is missing; say it in a few words.");
  const current = job.current!;
  if (current.id !== estimateId && !(given.corrects !== undefined && answer === "declined"))
    return refused("revision superseded", { detail: `Revision ${current.revision} is current; answer that one.`, current });
  const earlier = job.agreed(issue.revision);
  const refusal = refusalOf(desk, job, given, set, priced, input, earlier, tongue);
  if (refusal) return refusal;

  const { by, channel, link, address, agent, recordedBy, spoken, writing, corrects, reason } = given;
  const { jobId, pdfHash } = issue;
  const record: Agreement = {
    ...{ id: desk.newId(), jobId, at: desk.at, zone: job.settings.timeZone, pdfHash, by, channel },
    ...asked.told,
    ...(link && { linkId: link.id, deliveredTo: link.deliveredTo }),
    ...(address && { address }),
    ...(agent && { agent }),
    ...(recordedBy && { recordedBy }),
    ...(spoken && { spoken: spoken as SpokenAgreement }),
    ...(writing && { writing }),
    ...(corrects !== undefined && { corrects }),
    ...(reason && { reason }),
  };
  const kept = afterEndOf(record, job, priced.sheet) && priced.sheet.validUntil;
  const told = {
    ...{ revision: issue.revision, answer, by, record: await tellingOf("agreements", record) },
    // Taken knowingly.
    ...(kept && { afterOfferEnded: kept }),
  };
  return {
    answer: record,
    writes: [addAgreement(desk.db, record), ...(await draftTaking(desk, job, record))],
    trail: {
      job: jobId,
      head: job.head,
      events: [{ is: corrects === undefined ? "answered" : "answer corrected", content: told }],
    },
  };
}

/** A draft of the next revision was begun before this answer to the newest one: what is refused stays refused in it too. */
async function draftTaking({ db, at }: Desk, job: JobAsItStands, record: Agreement): Promise<Write[]> {
  const { draft, current } = job;
  const revision = current && job.revision(current.id);
  if (!draft || !revision || current.id !== record.estimateId) return [];
  const { items } = revision.input;
  const before = job.agreedAsSaid(current.revision)?.input.items;
  const stands = job.agreedAsSaid()?.input;
  // The draft has what was found as planned (`draftFinding.ts`): that is nothing the shop has said otherwise.
  const answeredAs = (answer?: Agreement) => {
    const taken = answer ? afterAnswer(items, { ...answer, declined: answer.answer === "declined" }, before) : items;
    return stands ? afterFinding(taken, stands, job.found()) : taken;
  };
  const taken = draftAfterAnswer(draft.input.items, answeredAs(job.answerTo(current.id)), answeredAs(record));
  if (taken === draft.input.items) return [];
  const input = { ...draft.input, items: taken };
  const { problems: _, ...made } = await priced(job.inputOf({ ...draft, input }));
  return [estimates.changed(db, draft, { input, ...made }, at).write];
}

const isSame = (standing: Agreement, answer: AnswerGiven, { chosen, struck }: AgreedSet): boolean =>
  standing.answer === answer &&
  (answer === "declined" || JSON.stringify([standing.chosen, standing.struck]) === JSON.stringify([chosen, struck]));

const SET_DIFFERS = {
  all: "Nothing is left out; say which work is not to be done, or agree to all of it.",
  some: "Some work is left out; that is agreeing in part.",
  none: "All work is left out; that is declining.",
} as const;

function setRefusal(answer: AnswerGiven, { struck }: AgreedSet, agreed: EstimateInput): Refused | undefined {
  if (answer === "declined") return undefined;
  const some = agreed.items.some(({ count, certainty }) => count > 0 && (certainty.is !== "optional" || certainty.chosen));
  const left = struck.length === 0 ? "all" : some ? "some" : "none";
  const wanted = { agreed: "all", "part agreed": "some" }[answer];
  return left === wanted ? undefined : wrongField("/answer", "answer and set differ", SET_DIFFERS[left]);
}

/** Of an answer to what is current: its set, its price, its channel. `earlier` is what was agreed before. */
function refusalOf(
  desk: Desk,
  job: JobAsItStands,
  given: Given,
  set: AgreedSet,
  { input: agreed, sheet }: PricedSet,
  whole: EstimateInput,
  earlier: PricedSet | undefined,
  tongue: Tongue,
): Refused | undefined {
  const issued = today(new Date(job.issueOf(given.estimateId)!.at), job.settings.timeZone);
  const now = today(desk.now, job.settings.timeZone);
  // The clock may have been put back since.
  const [from = now] = [issued, now].sort();
  const { at } = job.issueOf(given.estimateId)!;
  const days = { from, to: now, ...(at <= desk.at && { at: clock(at, "en-GB", job.settings.timeZone) }) };
  if (given.answer === "declined") {
    const { spoken = {} } = given;
    const unreadable = missingSpokenFields(spoken, []).filter((field) => spoken[field] !== undefined);
    return unsaid(spoken, unreadable) ?? saidOnNoSuchDay(spoken, days, tongue);
  }
  const differs = setRefusal(given.answer, set, agreed);
  if (differs) return differs;
  if (given.channel === "page" && now > sheet.validUntil) {
    const detail = `It was good until ${day(sheet.validUntil, tongue.locale)}. Ask the shop for a new one.`;
    return refused("revision lapsed", { detail });
  }
  const dated = { ...given, ...set, at: desk.at, zone: job.settings.timeZone };
  const ended = given.afterEnd ? undefined : saidAfterEnd(dated, job, sheet, tongue);
  if (ended) return wrongField("/afterEnd", "offer ended", ended);
  const { total } = sheet.totals;
  if (given.shown !== undefined && given.shown !== total && given.channel !== "page") {
    const detail = `What is ticked comes to ${money(total, tongue)}, tax included, and ${money(given.shown, tongue)} was given; tick what the owner agreed to, or give the amount that was told.`;
    return wrongField("/amount", "price differs", detail);
  }
  if (given.shown !== undefined && given.shown !== total) {
    const detail = `It comes to ${money(total, tongue)}, tax included, and ${money(given.shown, tongue)} was shown. Look at it again, then answer.`;
    return refused("price differs", { detail });
  }
  const profile = profileOf(whole.policy?.profile);
  const before = earlier ? measured(profile, earlier.sheet.totals) : 0;
  return channelRefusal(given, profile, Math.max(0, measured(profile, sheet.totals) - before), days, tongue);
}

type Dated = Pick<Given, "answer" | "channel" | "spoken" | "chosen" | "struck" | "corrects"> & Pick<Agreement, "at" | "zone">;
type Answers = Pick<JobAsItStands, "answers">;

/** What was said has a day of its own; what only corrects how an agreement to the same was written down has the day of that one. */
function givenOn(given: Dated, { answers }: Answers): IsoDate {
  const recorded = today(new Date(given.at), given.zone);
  const said = given.spoken?.date;
  if (said && said < recorded) return said;
  const before = said ? undefined : answers.find(({ id }) => id === given.corrects);
  return before && isSame(before, given.answer, given) ? givenOn(before, { answers }) : recorded;
}

/** The day that an agreement given elsewhere counts as of, where that is after the offer ended. */
export const afterEndOf = (given: Dated, job: Answers, { validUntil }: Pick<Sheet, "validUntil">): IsoDate | undefined => {
  const on = givenOn(given, job);
  return given.answer !== "declined" && given.channel !== "page" && on > validUntil ? on : undefined;
};

function saidAfterEnd(given: Dated, job: Answers, sheet: Pick<Sheet, "validUntil">, tongue: Tongue): string | undefined {
  if (afterEndOf(given, job, sheet) === undefined) return undefined;
  const since = given.spoken ? "The answer was given after that" : "A writing has no day of its own here";
  return `The offer ended on ${day(sheet.validUntil, tongue.locale)}. ${since}: tick the box if the shop keeps its word all the same, or issue a new revision.`;
}

const UNREADABLE: Readonly<Record<string, string>> = {
  date: "a day as year, month, day, such as 2026-11-25",
  time: "hours and minutes, such as 14:30",
};

/**
 * A spoken agreement is recorded with its particulars and the amount that was told; one in writing says which. `additional` is what it
 * agrees to on top; `days` are those on which it can have been given.
 */
function channelRefusal(
  { channel, spoken, writing, shown }: Given,
  { spokenFields }: AgreementProfile,
  additional: Minor,
  days: Days,
  tongue: Tongue,
): Refused | undefined {
  if (channel === "page") return undefined;
  if (channel === "e-mail" || (channel === "in person" && !spoken)) {
    const which =
      "Say which writing the answer rests on, such as the paper signed at the counter, or give the particulars of a spoken one.";
    return writing?.trim() ? undefined : wrongField("/writing", "writing missing", which);
  }
  const missing = missingSpokenFields(spoken ?? {}, spokenFields);
  const amiss = unsaid(spoken, missing, channel === "in person") ?? saidOnNoSuchDay(spoken!, days, tongue);
  if (amiss) return amiss;
  const told = spoken?.additionalCost;
  if (told === undefined && shown === undefined)
    return wrongField("/amount", "key missing", "The amount the owner agreed to is missing; type the total that was told.");
  if (told === undefined || told === additional) return undefined;
  const detail = `This answer agrees to ${money(additional, tongue)} more; the owner must have been told that amount.`;
  return wrongField("/spoken/additionalCost", "additional cost differs", detail);
}

const unsaid = (
  spoken: Partial<SpokenAgreement> | undefined,
  missing: readonly SpokenField[],
  orWritten = false,
): Refused | undefined =>
  missing.length === 0
    ? undefined
    : refused("input refused", {
        errors: missing.map((field) => ({
          pointer: `/spoken/${field}`,
          name: "spoken item missing",
          detail: spoken?.[field]
            ? `${spokenFieldText(field)}: '${spoken[field]}' is none; write ${UNREADABLE[field]}.`
            : `${spokenFieldText(field)} is missing; a spoken agreement is recorded with it${orWritten && field === "date" ? ", and one in writing with the writing it rests on" : ""}.`,
        })),
      });

/** On which it can have been said; `at`: the first from this hour on, such as 10:30. */
interface Days {
  readonly from: IsoDate;
  readonly to: IsoDate;
  readonly at?: string;
}

function saidOnNoSuchDay({ date: said, time }: Pick<Partial<SpokenAgreement>, "date" | "time">, days: Days, tongue: Tongue) {
  if (said === undefined) return undefined;
  if (said >= days.from && said <= days.to) {
    const { at } = days;
    if (said !== days.from || time === undefined || at === undefined || time >= at) return undefined;
    const detail = `${spokenFieldText("time")} is ${time}, which is before the revision was issued that day, ${at}; give the time it was said.`;
    return wrongField("/spoken/time", "said on no such day", detail);
  }
  const why =
    said > days.to
      ? `after today, ${day(days.to, tongue.locale)}`
      : `before the revision was issued, ${day(days.from, tongue.locale)}`;
  const detail = `${spokenFieldText("date")} is ${day(said, tongue.locale)}, which is ${why}; give the day it was said.`;
  return wrongField("/spoken/date", "said on no such day", detail);
}
