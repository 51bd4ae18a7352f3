/** Where a job stands, as its page shows it. */
import type { Context } from "hono";
import type { JobAsItStands } from "../../acts/job.js";
import { owed } from "../../acts/owed.js";
import { today } from "../../acts/today.js";
import type { AgreedProps, StandingProps } from "../../pages/revise/standingCard.js";
import { deadSince } from "../../records/ownerLinks.js";
import { workTitle } from "../../wording/line.js";
import type { AppEnv } from "../bindings.js";
import type { JobSubject } from "./jobSubject.js";

/** Undefined where the job has no estimate yet. */
export function standingProps(c: Context<AppEnv>, { stands, head, tongue, when }: JobSubject): StandingProps | undefined {
  const { draft, current, closedOn, questions, links } = stands;
  if (!stands.latest) return undefined;
  const now = c.var.clock();
  const issued = current && stands.revision(current.id);
  const answer = current && stands.answerTo(current.id);
  const agreed = agreedProps(stands);
  return {
    job: head,
    tongue,
    logChanged: stands.changedAfterClosing,
    unagreed: unagreedTitles(stands),
    openQuestions: questions.filter(({ replies }) => replies.length === 0).length,
    liveLinks: links.filter((link) => !deadSince(link, now.toISOString())).length,
    ...(draft && { draft: { id: draft.id, revision: draft.revision, ready: draft.sheet !== undefined } }),
    ...(current &&
      issued?.sheet && {
        current: {
          ...{ revision: current.revision, by: current.by, at: when(current.at), validUntil: issued.sheet.validUntil },
          lapsed: today(now, stands.settings.timeZone) > issued.sheet.validUntil,
          ...(answer && { answer: { answer: answer.answer, by: answer.by, text: `${answer.by}, ${when(answer.at)}` } }),
        },
      }),
    ...(agreed && { agreed }),
    ...(closedOn && { closedOn }),
    owed: owed(stands),
  };
}

export function agreedProps(job: JobAsItStands): AgreedProps | undefined {
  const [agreed, limit, spent] = [job.agreed(), job.limit(), job.spent()];
  return (
    agreed &&
    limit &&
    spent && {
      revision: agreed.agreement.revision,
      amount: limit.agreed,
      upTo: limit.upTo,
      withTax: limit.withTax,
      spent: limit.withTax ? spent.total : spent.withoutTax,
    }
  );
}

function unagreedTitles(job: JobAsItStands): readonly string[] {
  const input = job.input();
  const named = new Map(input?.items.map((item) => [item.id, item]));
  return job.unagreed().flatMap(({ id }) => {
    const item = named.get(id);
    return item && input && item.count > 0 ? [workTitle(item, input)] : [];
  });
}
