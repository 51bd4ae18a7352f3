/** Withdrawing a draft on its page, which asks first. */
import { type Context, Hono } from "hono";
import { withdrawDraft as act } from "../../acts/withdrawDraft.js";
import { WithdrawDraftPage } from "../../pages/revise/withdrawDraftPage.js";
import type { Estimate } from "../../records/estimates.js";
import type { AppEnv } from "../bindings.js";
import { type Again, fresh, type PageStatus, pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";

export const withdrawDraft = new Hono<AppEnv>();
const at = "/jobs/:id/draft/withdrawal";

withdrawDraft.get(at, async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { draft } = subject.stands;
  return draft ? ask(c, subject, draft, fresh(act, { by: lastHand(subject) })) : c.redirect(`/jobs/${subject.job.id}`, 303);
});

withdrawDraft.post(at, async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const { job, tongue } = subject;
  return pageDoor(c, act, {
    on: (typed) => ({ id: typed.get("estimate") ?? "", seen: Number(typed.get("version")) }),
    tongue,
    done: () => `/jobs/${job.id}?withdrawn`,
    show: async (again) => {
      const now = (await jobSubject(c, job.id)) ?? subject;
      const { draft } = now.stands;
      if (!draft || again.refusal?.is === "estimate issued") return refuse(c, "estimate issued", again.refusal);
      const moved = again.refusal && {
        say: "Someone else changed the draft meanwhile, so it is still there. Look at it, then withdraw it.",
        errors: new Map<string, string>(),
      };
      return ask(c, now, draft, { ...again, ...moved });
    },
  });
});

type Asked = Pick<Again, "fields" | "errors" | "says"> & { readonly status?: PageStatus; readonly say?: string };

function ask(c: Context<AppEnv>, { head, settings }: JobSubject, draft: Estimate, { status = 200, ...form }: Asked) {
  const { fields, errors, says, say } = form;
  return pageAnswer(
    c,
    <WithdrawDraftPage frame={frameFor(c, settings.name)} job={head} draft={draft} {...{ fields, errors, says, say }} />,
    status,
  );
}
