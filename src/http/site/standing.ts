/** Where a job stands, as its page shows it. */
import type { Context } from "hono";
import { today } from "../../acts/today.js";
import type { StandingProps } from "../../pages/revise/standingCard.js";
import { answersOf, standingAnswer } from "../../records/agreements.js";
import { changedAfterClosing, closedOn } from "../../records/closed.js";
import { estimates } from "../../records/estimates.js";
import { deadSince, ownerLinks } from "../../records/ownerLinks.js";
import { questions } from "../../records/questions.js";
import { type Agreed, type Standing, standingOf } from "../../records/standing.js";
import { workTitle } from "../../wording/line.js";
import type { AppEnv } from "../bindings.js";
import type { JobSubject } from "./jobSubject.js";

/** Undefined where the job has no estimate yet. */
export async function standingProps(c: Context<AppEnv>, subject: JobSubject): Promise<StandingProps | undefined> {
  const { db } = c.var;
  const { job, head, tongue } = subject;
  const standing = await standingOf(db, job.id);
  if (!standing) return undefined;
  const { draft, agreed } = standing;
  const [links, asked, current, closed, logChanged] = await Promise.all([
    ownerLinks.ofJob(db, job.id),
    questions.ofJob(db, job.id),
    currentOf(c, subject, standing),
    closedOn(db, job.id),
    changedAfterClosing(db, job.id),
  ]);
  const now = c.var.clock().toISOString();
  return {
    job: head,
    tongue,
    logChanged,
    unagreed: unagreedTitles(standing),
    openQuestions: asked.filter(({ replies }) => replies.length === 0).length,
    liveLinks: links.filter((link) => !deadSince(link, now)).length,
    ...(draft && { draft: { id: draft.id, revision: draft.revision, ready: draft.sheet !== undefined } }),
    ...(current && { current }),
    ...(agreed && { agreed: agreedProps(agreed) }),
    ...(closed && { closedOn: closed }),
  };
}

async function currentOf(
  c: Context<AppEnv>,
  { job, settings, when }: JobSubject,
  { current }: Standing,
): Promise<StandingProps["current"]> {
  const issued = current && (await estimates.find(c.var.db, current.id));
  if (!current || !issued?.sheet) return undefined;
  const answer = standingAnswer(await answersOf(c.var.db, job.id), current.id);
  const { validUntil } = issued.sheet;
  return {
    revision: current.revision,
    by: current.by,
    at: when(current.at),
    validUntil,
    lapsed: today(c.var.clock(), settings.timeZone) > validUntil,
    ...(answer && { answer: { answer: answer.answer, by: answer.by, text: `${answer.by}, ${when(answer.at)}` } }),
  };
}

export const agreedProps = ({ agreement, limit, spent }: Agreed) => ({
  revision: agreement.revision,
  amount: limit.agreed,
  upTo: limit.upTo,
  withTax: limit.withTax,
  spent: limit.withTax ? spent.total : spent.withoutTax,
});

function unagreedTitles({ unagreed, input }: Standing): readonly string[] {
  const named = new Map(input?.items.map((item) => [item.id, item]));
  return unagreed.flatMap(({ id }) => {
    const item = named.get(id);
    return item && input && item.count > 0 ? [workTitle(item, input)] : [];
  });
}
