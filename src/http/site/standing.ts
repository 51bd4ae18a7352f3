/** Where a job stands, as its page shows it. */

import type { Context } from "hono";
import { agreedThen } from "../../acts/agreedThen.js";
import { workOf } from "../../acts/asWork.js";
import type { JobAsItStands } from "../../acts/job.js";
import { owed, spentOf } from "../../acts/owed.js";
import { besideAgreed, neverIssued } from "../../acts/reckoning.js";
import { type JobState, type NextStep, type Standing, standingOfJob } from "../../acts/standing.js";
import { today } from "../../acts/today.js";
import { lookingLimit } from "../../estimating/agreement/workLog.js";
import type { AgreedProps, StandingProps } from "../../pages/revise/standingCard.js";
import { deadSince } from "../../records/ownerLinks.js";
import { standing } from "../../records/payments.js";
import type { OwedShown } from "../../wording/account.js";
import { givenText } from "../../wording/agreement.js";
import { money } from "../../wording/figures.js";
import { workTitle } from "../../wording/line.js";
import { day } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import type { JobSubject } from "./jobSubject.js";

/** Undefined where the job has no estimate yet. */
export async function standingProps(
  c: Context<AppEnv>,
  { stands, head, tongue, when }: JobSubject,
): Promise<StandingProps | undefined> {
  const { draft, current, closedOn, questions, links } = stands;
  if (!stands.latest) return undefined;
  const now = c.var.clock();
  const issued = current && stands.revision(current.id);
  const answer = current && stands.answerTo(current.id);
  const agreed = agreedProps(stands);
  return {
    job: head,
    tongue,
    now: await nowOf(c, stands),
    neverIssued: neverIssued(stands),
    mayLook: draft !== undefined && lookingLimit(stands.inputOf(draft)) > 0,
    counts: { payments: standing(stands.payments).length, photos: stands.photos.length, log: stands.entries.length },
    logChanged: stands.changedAfterClosing,
    ...unagreedTitles(stands),
    openQuestions: questions.filter(({ replies }) => replies.length === 0).length,
    liveLinks: links.filter((link) => !deadSince(link, now.toISOString())).length,
    ...(draft && { draft: { id: draft.id, revision: draft.revision, ready: draft.sheet !== undefined } }),
    ...(current &&
      issued?.sheet && {
        current: {
          ...{ revision: current.revision, by: current.by, at: when(current.at), validUntil: issued.sheet.validUntil },
          lapsed: today(now, stands.settings.timeZone) > issued.sheet.validUntil,
          ...(answer && {
            answer: { answer: answer.answer, by: answer.by, text: `${answer.by}, ${givenText(answer, tongue.locale)}` },
          }),
        },
      }),
    ...(agreed && { agreed }),
    ...(closedOn && { closedOn }),
    owed: owedShown(stands),
  };
}

/** With what of it is for work of a later agreement that was taken back. */
export function owedShown(stands: JobAsItStands): OwedShown {
  const then = besideAgreed(stands);
  return { ...owed(stands), ...(then && { beside: then.total }) };
}

/** By the rule of the list of jobs: what the list says is next is what the page's one button does. */
async function nowOf(c: Context<AppEnv>, stands: JobAsItStands): Promise<StandingProps["now"]> {
  const { id, draft, latest, tongue } = stands;
  const own = await standingOfJob(c.var.db, stands, c.var.clock());
  const { state, next, amount, deposit } = own;
  const says = DOES[next];
  const href = HERE[next] === undefined ? hrefOfNext(next, id, latest?.id) : `/jobs/${id}${HERE[next]}`;
  const total = amount ?? (state === "declined" ? owed(stands).total : latest?.sheet?.totals.total);
  const by = next === "take the deposit" ? deposit && money(deposit, tongue) : dayOfNext(own, tongue.locale);
  return {
    state,
    ...(total !== undefined && {
      amount: { total, is: AMOUNT[state] ?? (amount !== undefined ? "agreed" : draft ? "so far" : "offered") },
    }),
    ...(says && {
      does: {
        says: next === "issue the estimate" ? `${says} ${draft?.revision}` : says,
        ...(next !== "renew the offer" && href && { href }),
      },
    }),
    ...(by && { by }),
  };
}

/** Where a question waits for its reply, the day is that of the whole job. */
export const dayIs = ({ next, state }: Standing): string =>
  next !== "reply to a question" ? "by" : state === "with the owner" ? "the offer ends" : "promised for";

const dayOfNext = (standing: Standing, locale: string): string | undefined =>
  standing.by && `${dayIs(standing)} ${day(standing.by, locale)}`;

const AMOUNT: Partial<Record<JobState, string>> = { closed: "billed", declined: "in all" };

/** What the list says is next, as the button that does it. */
const DOES: Readonly<Record<NextStep, string | undefined>> = {
  "reply to a question": "Reply to the question",
  "put the estimate right": "Correct the estimate",
  "count the work": "Count the work",
  "issue the estimate": "Issue revision",
  "await the answer": "Record an answer",
  "renew the offer": "Start a new revision",
  "read the answer": "To the bench",
  "begin, parts are in": "To the bench",
  "take the deposit": "Take the deposit",
  "order parts": "Order parts",
  "await parts": "Parts on the way",
  "go on with the work": "To the bench",
  "finish today": "To the bench",
  "finish, it is late": "To the bench",
  "close and hand back": "Close out",
  "hand back": "Close and hand back",
  "take what is unpaid": "Take what is unpaid",
  "pay back what is over": "Pay back what is over",
  nothing: undefined,
};

/** The job's page has the answer on it, so that what comes after it is next. */
const HERE: Partial<Record<NextStep, string>> = {
  "reply to a question": "/answers#questions",
  "await the answer": "/answers#record",
  "read the answer": "/bench",
};

/** Where it is done. */
export function hrefOfNext(next: NextStep, job: string, estimate: string | undefined): string | undefined {
  const at: Partial<Record<NextStep, string>> = {
    "reply to a question": "/answers",
    "read the answer": "/answers",
    "issue the estimate": "/issue",
    "begin, parts are in": "/bench",
    "go on with the work": "/bench",
    "finish today": "/bench",
    "finish, it is late": "/bench",
    "order parts": "/parts",
    "await parts": "/parts",
    "close and hand back": "/close-out",
    "hand back": "/hand-back",
    "take the deposit": "/payments",
    "take what is unpaid": "/payments",
    "pay back what is over": "/payments",
  };
  if (next === "put the estimate right" || next === "count the work") return estimate ? `/estimates/${estimate}` : `/jobs/${job}`;
  const path = at[next];
  return path && `/jobs/${job}${path}`;
}

export function agreedProps(job: JobAsItStands): AgreedProps | undefined {
  const [agreed, limit, spent] = [job.agreed(), job.limit(), spentOf(job)];
  const bill = job.closeOut?.result.account.totals ?? job.bill()?.totals;
  const { basis } = job.closeOut?.result.account ?? {};
  const measured = ({ total, withoutTax }: NonNullable<typeof spent>) => (limit?.withTax ? total : withoutTax);
  return (
    agreed &&
    limit &&
    spent && {
      revision: agreed.agreement.revision,
      amount: limit.agreed,
      upTo: limit.upTo,
      overridden: job.entries.some(({ overrideId }) => overrideId !== undefined),
      withTax: limit.withTax,
      // Of nothing done the log has looking alone, and its account what that is owed.
      spent: measured(basis === "nothing done" ? bill! : spent),
      ...(bill && job.agreedWork()?.asAgreed && { billed: measured(bill) }),
    }
  );
}

/** Told apart by whether it was worked on all the same. */
function unagreedTitles(job: JobAsItStands): Pick<StandingProps, "unagreed" | "unagreedDone"> {
  const input = job.input();
  const named = new Map(input?.items.map((item) => [item.id, item]));
  const logged = new Set(job.entries.map(workOf).flatMap((work) => (work.is === "item" ? [work.id] : [])));
  const then = agreedThen(job);
  const ownOf = new Set([
    ...Object.keys(then?.done ?? {}),
    ...job.entries.flatMap(({ id, item }) => (then?.entries.includes(id) && item) || []),
  ]);
  const titles = (worked: boolean) =>
    job.unagreed().flatMap(({ id }) => {
      const item = named.get(id);
      return item && input && item.count > 0 && !ownOf.has(id) && logged.has(id) === worked ? [workTitle(item, input)] : [];
    });
  return { unagreed: titles(false), unagreedDone: titles(true) };
}
