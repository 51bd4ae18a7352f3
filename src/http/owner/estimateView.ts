/** Puts together what the owner's page shows of one revision, for one set of options and work. */
import type { Context } from "hono";
import { today } from "../../acts/today.js";
import { type PricedSet, pricedSet } from "../../estimating/agreement/choices.js";
import type { EstimateInput } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import type { Sheet } from "../../estimating/sheet.js";
import {
  type AnswerTexts,
  type EstimateView,
  OWNER_PATHS,
  type OwnerAnswer,
  type OwnerChoice,
  type OwnerQuestion,
  type OwnerState,
  type PricedView,
} from "../../pages/owner/view.js";
import { type Agreement, agreedTo, answersOf, standingAnswer } from "../../records/agreements.js";
import { type CloseOutRecord, closeOuts } from "../../records/closeOuts.js";
import { estimates } from "../../records/estimates.js";
import type { Issue } from "../../records/issues.js";
import { type Question, questions } from "../../records/questions.js";
import { eventsOf, type JobEvent, shortHead } from "../../records/trail.js";
import { ownerAnswerText } from "../../wording/agreement.js";
import { workTitle } from "../../wording/line.js";
import { listed } from "../../wording/list.js";
import { profileNotices } from "../../wording/profile.js";
import { moment } from "../../wording/time.js";
import type { Tongue } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { ownerChanges } from "./ownerChanges.js";
import { ownerSheet, ownerWork } from "./ownerSheet.js";
import { estimateOf, ownerShop, type Visit } from "./visit.js";

export type Extras = Pick<EstimateView, "say" | "typed"> & { readonly wrong?: EstimateView["wrong"] };

/** `choice`: as ticked; without one, what was answered, or what the estimate itself has chosen. */
export async function estimateView(
  c: Context<AppEnv>,
  visit: Visit,
  issue: Issue,
  choice: OwnerChoice | undefined,
  { wrong = [], ...extras }: Extras = {},
): Promise<EstimateView> {
  const { db } = c.var;
  const estimate = await estimateOf(c, issue);
  const input = await estimates.inputOf(db, estimate);
  const [answers, asked, events, closed] = await Promise.all([
    answersOf(db, issue.jobId),
    questions.ofJob(db, issue.jobId),
    eventsOf(db, issue.jobId),
    closeOuts.standing(db, issue.jobId),
  ]);
  const standing = standingAnswer(answers, issue.id);
  const set = choice ?? choiceOf(standing, estimate.sheet!);
  const { locale, timeZone } = visit.settings;
  const tongue = { locale: input.paperwork?.locale ?? locale, currency: input.currency };
  const when = (at: string) => moment(at, tongue.locale, timeZone);
  const before = visit.issued.find(({ revision }) => revision === issue.revision - 1);
  const changes = before && ownerChanges(await estimates.inputOf(db, await estimateOf(c, before)), input, tongue);
  const { maker, model, serial, reported } = input.unit;

  return {
    is: "estimate",
    shop: ownerShop(visit.settings),
    tongue,
    owner: input.paperwork?.owner?.name ?? "",
    unit: { maker, model, ...(serial && { serial }), ...(reported && { reported }) },
    paper: {
      number: visit.number,
      revision: issue.revision,
      date: input.paperwork?.date ?? input.asOf,
      validUntil: estimate.sheet!.validUntil,
      pdf: `${OWNER_PATHS.pdf}?revision=${issue.revision}`,
      contentHash: issue.contentHash,
      pdfHash: issue.pdfHash,
    },
    ...pricedView(input, set, agreedTo(answers, issue.revision)?.revision, tongue),
    work: ownerWork(input),
    notices: profileNotices(profileOf(input.policy?.profile), input, estimate.sheet!, tongue),
    ...(changes && { changes }),
    photos: (input.paperwork?.photos ?? []).map(({ id, caption }) => ({
      href: `${OWNER_PATHS.photo}?revision=${issue.revision}&id=${encodeURIComponent(id)}`,
      ...(caption && { caption }),
    })),
    state: stateOf(visit, issue, standing, estimate.sheet!, today(c.var.clock(), timeZone)),
    ...(standing && { answer: ownerAnswer(standing, input, estimate.sheet!, events, when) }),
    ...(closed && { account: ownerAccount(closed) }),
    questions: asked.map((question) => ownerQuestion(question, when)),
    wrong,
    ...extras,
  };
}

/** The parts that follow the choice. Throws on ids the revision does not have: see `knownChoice`. */
export function pricedView(input: EstimateInput, choice: OwnerChoice, earlier: number | undefined, tongue: Tongue): PricedView {
  const priced = pricedSet(input, choice);
  if ("is" in priced) throw new Error(`The choice names '${priced.id}', which the revision does not have.`);
  return { choice, sheet: ownerSheet(priced.sheet, input, tongue), texts: texts(input, priced, choice, earlier, tongue) };
}

/** What of a choice the revision has. */
export function knownChoice(input: EstimateInput, sheet: Sheet, { chosen, struck }: OwnerChoice): OwnerChoice {
  const [options, work] = [new Set(sheet.options.map(({ id }) => id)), new Set(ownerWork(input).map(({ id }) => id))];
  return { chosen: chosen.filter((id) => options.has(id)), struck: struck.filter((id) => work.has(id)) };
}

function texts(
  input: EstimateInput,
  { sheet }: PricedSet,
  { struck }: OwnerChoice,
  earlier: number | undefined,
  tongue: Tongue,
): AnswerTexts {
  const text = (answer: "agreed" | "part agreed" | "declined") =>
    ownerAnswerText({ answer, input, sheet, struck, earlier }, tongue);
  return {
    agreed: text("agreed"),
    ...(struck.length > 0 && { "part agreed": text("part agreed") }),
    declined: text("declined"),
  };
}

const choiceOf = (standing: Agreement | undefined, { options }: Sheet): OwnerChoice =>
  standing && standing.answer !== "declined"
    ? { chosen: standing.chosen, struck: standing.struck }
    : { chosen: options.filter(({ chosen }) => chosen).map(({ id }) => id), struck: [] };

function stateOf(
  { issued }: Visit,
  issue: Issue,
  standing: Agreement | undefined,
  { validUntil }: Sheet,
  day: string,
): OwnerState {
  const current = issued.at(-1)!;
  if (current.id !== issue.id)
    return { is: "superseded", revision: current.revision, href: `${OWNER_PATHS.estimate}?revision=${current.revision}` };
  if (standing) return { is: "answered" };
  return { is: day > validUntil ? "lapsed" : "open" };
}

function ownerAnswer(
  record: Agreement,
  input: EstimateInput,
  sheet: Sheet,
  events: readonly JobEvent[],
  when: (at: string) => string,
): OwnerAnswer {
  const { answer, by, at, channel, wording, amount, ceiling, chosen, struck, corrects, id } = record;
  const event = events.find(({ content }) => (content as { record?: { id?: string } }).record?.id === id);
  return {
    ...{ answer, by, channel, wording, at: when(at) },
    ...(amount !== undefined && { amount }),
    ...(ceiling !== undefined && { ceiling }),
    options: sheet.options.filter((option) => chosen.includes(option.id)).map(({ names }) => listed(names)),
    struck: input.items.filter((item) => struck.includes(item.id)).map((item) => workTitle(item, input)),
    receipt: event ? shortHead(event) : "",
    correction: corrects !== undefined,
  };
}

/** Nothing of what it cost the shop. */
const ownerAccount = ({ result: { account } }: CloseOutRecord): EstimateView["account"] & {} => ({
  on: account.on,
  total: account.totals.total,
  due: account.totals.due,
});

const ownerQuestion = ({ at, text, replies }: Question, when: (at: string) => string): OwnerQuestion => ({
  at: when(at),
  text,
  replies: replies.map((reply) => ({ at: when(reply.at), by: reply.by, text: reply.text })),
});
