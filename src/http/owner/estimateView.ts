/** Puts together what the owner's page shows of one revision, for one set of options and work. */

import type { Context } from "hono";
import { agreedThen } from "../../acts/agreedThen.js";
import { answerTongue, answerWords, asIssued, isBegun } from "../../acts/answered.js";
import { heldAgainst } from "../../acts/compared.js";
import type { JobAsItStands } from "../../acts/job.js";
import { partsFitted } from "../../acts/logWork.js";
import { depositSettled, owed } from "../../acts/owed.js";
import { accountDeclined, besideAgreed, declinedIn, promisedIn } from "../../acts/reckoning.js";
import { today } from "../../acts/today.js";
import { strikeable } from "../../estimating/agreement/choices.js";
import { isSet, packagePrices } from "../../estimating/agreement/packages.js";
import { chargesLooking, nothingAgreed } from "../../estimating/closeout/account/terms.js";
import { addDays } from "../../estimating/day.js";
import type { EstimateInput } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import { neverMore } from "../../estimating/sheet/terms.js";
import type { Sheet } from "../../estimating/sheet.js";
import {
  type EstimateView,
  OWNER_PATHS,
  type OwnerAnswer,
  type OwnerChoice,
  type OwnerQuestion,
  type OwnerState,
  type PricedView,
} from "../../pages/owner/view.js";
import type { Agreement, AnswerGiven } from "../../records/agreements.js";
import type { CloseOutRecord } from "../../records/closeOuts.js";
import type { Issue } from "../../records/issues.js";
import type { Question } from "../../records/questions.js";
import { eventsOf, type JobEvent, shortHead } from "../../records/trail.js";
import { workLeft } from "../../wording/account.js";
import { givenText, termsTexts } from "../../wording/agreement.js";
import { ownerSafetyText } from "../../wording/caution.js";
import { workTitle } from "../../wording/line.js";
import { listed } from "../../wording/list.js";
import { bookIn, namesIn } from "../../wording/names.js";
import { profileNotices } from "../../wording/profile.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { choiceIn } from "./fields.js";
import { ownerChanges } from "./ownerChanges.js";
import { ownerSheet, ownerWork } from "./ownerSheet.js";
import { estimateOf, ownerShop, type Visit } from "./visit.js";

export type Extras = Pick<EstimateView, "say" | "typed"> & { readonly wrong?: EstimateView["wrong"] };

/** What was answered; before that `choice`, as ticked, or what the estimate itself has chosen. */
export async function estimateView(
  c: Context<AppEnv>,
  visit: Visit,
  issue: Issue,
  choice: OwnerChoice | undefined,
  { wrong = [], ...extras }: Extras = {},
): Promise<EstimateView> {
  const { job } = visit;
  const estimate = estimateOf(visit, issue);
  const tongue = answerTongue(job, job.inputOf(estimate));
  const input = bookIn(job.inputOf(estimate), tongue.words.tag);
  const own = input.paperwork?.names;
  const sheet = namesIn(estimate.sheet, tongue.words.tag, own);
  const standing = job.answerTo(issue.id);
  const events = standing ? await eventsOf(c.var.db, job.id) : [];
  const set =
    standing && standing.answer !== "declined" ? standing : ((standing ? undefined : choice) ?? asIssued(job, issue.id));
  const { timeZone } = visit.settings;
  const when = (at: string) => moment(at, tongue.locale, timeZone);
  const before = heldAgainst(job, issue.revision);
  const earlier = standing?.answer === "declined" ? job.agreed() : job.agreed(issue.revision);
  const { tag } = tongue.words;
  const changes =
    before &&
    ownerChanges(
      { ...before, input: bookIn(before.input, tag, own), sheet: namesIn(before.sheet, tag, own) },
      { input, sheet },
      tongue,
      job.payments.some(({ withdrawal }) => !withdrawal),
    );
  const shown = pricedView(visit, issue, { chosen: set.chosen, struck: set.struck });
  const agreedOn = standing && standing.answer !== "declined" && today(new Date(standing.at), timeZone);
  const declined = declinedIn(job);
  const then = job.closeOut ? undefined : declined ? accountDeclined(job)?.agreedThen?.amount : besideAgreed(job)?.total;
  // Repaired and tested, it may be switched on again.
  const done = job.closeOut && !chargesLooking(job.closeOut.result.account.basis);
  const caution = done ? undefined : ownerSafetyText(sheet, input.unit, tongue);
  const { maker, model, serial, reported, found } = input.unit;
  const terms = termsTexts(input, estimate.sheet, tongue);

  return {
    is: "estimate",
    language: tongue.words.tag,
    shop: ownerShop(visit.settings),
    tongue: { locale: tongue.locale, currency: tongue.currency },
    ...(input.paperwork?.summary && { summary: input.paperwork.summary }),
    owner: input.paperwork?.owner?.name ?? "",
    unit: { maker, model, ...(serial && { serial }), ...(reported && { reported }), ...(found && { found }) },
    paper: {
      number: job.job.number,
      revision: issue.revision,
      date: input.paperwork?.date ?? input.asOf,
      validUntil: estimate.sheet.validUntil,
      pdf: `${OWNER_PATHS.pdf}?revision=${issue.revision}`,
      contentHash: issue.contentHash,
      pdfHash: issue.pdfHash,
    },
    ...shown,
    // Of the revision that the whole job was declined by.
    ...(declined && { sheet: { ...shown.sheet, ifDeclined: promisedIn(job, declined.issue) } }),
    ...(then && { agreedThen: { amount: then, upTo: agreedThen(job)!.upTo } }),
    work: ownerWork(input, sheet),
    ...(earlier && {
      earlier: {
        revision: earlier.agreement.revision,
        total: earlier.sheet.totals.total,
        ceiling: earlier.agreement.ceiling ?? neverMore(earlier.sheet),
      },
    }),
    ...(terms && { terms }),
    notices: profileNotices(profileOf(input.policy?.profile), input, sheet, tongue),
    ...(caution && { caution }),
    ...(changes && { changes }),
    photos: (input.paperwork?.photos ?? []).map(({ id, caption }) => ({
      href: `${OWNER_PATHS.photo}?revision=${issue.revision}&id=${encodeURIComponent(id)}`,
      ...(caption && { caption }),
    })),
    begun: isBegun(job),
    state: stateOf(visit, issue, standing, estimate.sheet, today(c.var.clock(), timeZone)),
    ...(standing && { answer: ownerAnswer(standing, input, sheet, events, tongue.locale) }),
    // What that says stands may be taken back too.
    takenBack: job.answers
      .filter(
        ({ revision, answer, at }) =>
          revision < issue.revision && answer === "declined" && standing?.answer === answer && at > standing.at,
      )
      .filter((each) => job.answerTo(each.estimateId) === each)
      .map((each) => ownerAnswer(each, input, sheet, events, tongue.locale)),
    ...(job.closeOut && { account: { ...ownerAccount(job, job.closeOut, tag), due: owed(job).due! } }),
    ...(agreedOn && !job.closeOut && { ready: addDays(agreedOn, shown.sheet.days) }),
    paid: { ...owed(job), begun: depositSettled(job) },
    questions: job.questions.map((question) => ownerQuestion(question, when)),
    wrong,
    ...extras,
  };
}

/** The parts that follow the choice. Throws on ids the revision does not have: see `knownChoice`. */
export function pricedView({ job }: Visit, { id }: Issue, choice: OwnerChoice): PricedView {
  const priced = job.priced(id, choice);
  if ("is" in priced) throw new Error(`The choice names '${priced.id}', which the revision does not have.`);
  const kept = job.inputOf(job.revision(id)!);
  const tongue = answerTongue(job, kept);
  const [input, sheet] = [bookIn(kept, tongue.words.tag), namesIn(priced.sheet, tongue.words.tag, kept.paperwork?.names)];
  const words = (answer: AnswerGiven) => answerWords(job, id, answer, choice);
  return {
    choice,
    packages: packagePrices(kept, job.revision(id)!.sheet!).map((set) => ({
      ...set,
      names: sheet.options.filter((option) => set.options.includes(option.id)).map(({ names }) => names.join("; ")),
      chosen: isSet(set.options, choice.chosen),
    })),
    // A refusal is of the revision as it was issued, and so is what it costs.
    sheet: { ...ownerSheet(sheet, input, tongue, partsFitted(job)), ifDeclined: job.revision(id)!.sheet!.ifDeclined.amount },
    texts: {
      agreed: words("agreed"),
      ...(choice.struck.length > 0 && { "part agreed": words("part agreed") }),
      declined: words("declined"),
    },
  };
}

/** What was chosen, of what the revision has. */
export function knownChoice(visit: Visit, issue: Issue, fields: URLSearchParams): OwnerChoice {
  const { sheet, input } = estimateOf(visit, issue);
  const work = strikeable(input);
  const said = choiceIn(fields, work);
  const picked = fields.has("package") ? input.paperwork?.packages?.[Number(fields.get("package"))] : undefined;
  const [chosen, struck] = [picked?.options ?? said.chosen, said.struck];
  const options = new Set(sheet.options.map(({ id }) => id));
  const known = new Set(work.map(({ id }) => id));
  return { chosen: chosen.filter((id) => options.has(id)), struck: struck.filter((id) => known.has(id)) };
}

function stateOf({ job }: Visit, issue: Issue, standing: Agreement | undefined, { validUntil }: Sheet, day: string): OwnerState {
  const current = job.issues.at(-1)!;
  const leading = (revision: number) => ({ revision, href: `${OWNER_PATHS.estimate}?revision=${revision}` });
  const declined = job.answerTo(current.id)?.answer === "declined";
  const agreed = job.agreed()?.agreement;
  // One that is declined, or waits for its answer, takes the place of nothing.
  if (current.id !== issue.id && agreed?.estimateId === issue.id)
    return { is: "answered", since: { is: declined ? "declined" : "offered", ...leading(current.revision) } };
  // All of it is declined: this one was answered so too, and nothing has taken its place.
  if (current.id !== issue.id && declined && !agreed && standing?.answer === "declined") return { is: "answered" };
  if (current.id !== issue.id)
    return {
      is: "superseded",
      ...leading(declined && agreed && agreed.revision > issue.revision ? agreed.revision : current.revision),
    };
  if (standing) return { is: "answered" };
  return { is: day > validUntil ? "lapsed" : "open" };
}

function ownerAnswer(
  record: Agreement,
  input: EstimateInput,
  sheet: Sheet,
  events: readonly JobEvent[],
  locale: string,
): OwnerAnswer {
  const { answer, by, channel, wording, amount, ceiling, chosen, struck, corrects, id } = record;
  const event = events.find(({ content }) => (content as { record?: { id?: string } }).record?.id === id);
  return {
    ...{ answer, by, channel, wording, at: givenText(record, locale) },
    ...(amount !== undefined && { amount }),
    ...(ceiling !== undefined && { ceiling }),
    options: sheet.options.filter((option) => chosen.includes(option.id)).map(({ names }) => listed(names)),
    struck: input.items.filter((item) => struck.includes(item.id)).map((item) => workTitle(item, input)),
    receipt: event ? shortHead(event) : "",
    correction: corrects !== undefined,
  };
}

/** Nothing of what it cost the shop. */
function ownerAccount(job: JobAsItStands, record: CloseOutRecord, tag: string): EstimateView["account"] & {} {
  const { basis, on, since, totals } = record.result.account;
  const agreed = job.agreed();
  const input = agreed && bookIn(agreed.input, tag);
  return {
    on,
    is: nothingAgreed(basis) ? "handed back" : basis === "nothing done" ? basis : "done",
    corrected: record.corrects !== undefined,
    notDone: input ? workLeft(since, input) : [],
    total: totals.total,
    due: totals.due,
  };
}

const ownerQuestion = ({ at, text, replies }: Question, when: (at: string) => string): OwnerQuestion => ({
  at: when(at),
  text,
  replies: replies.map((reply) => ({ at: when(reply.at), by: reply.by, text: reply.text })),
});
