/** The links to a job's owner's page: one more, or one withdrawn. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { makeOwnerLink } from "../../acts/makeOwnerLink.js";
import { withdrawOwnerLink } from "../../acts/withdrawOwnerLink.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { OWNER_PATHS } from "../../pages/owner/view.js";
import type { LinkOnceProps } from "../../pages/revise/linkOnce.js";
import { type LinkRow, LinksPage, WithdrawPage } from "../../pages/revise/linksPage.js";
import type { Estimate } from "../../records/estimates.js";
import { ownerEntries } from "../../records/ownerEntries.js";
import { deadSince, type OwnerLink, ownerLinks as records } from "../../records/ownerLinks.js";
import { sendHook } from "../../records/sendHook.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { fieldsOf, fresh, type PageStatus, pageDoor } from "../doors/page.js";
import { copyScriptFor, frameFor, pageAnswer } from "../frame/frame.js";
import { giveEntry } from "../owner/cookie.js";
import { ownerAddress } from "../papers/issuing.js";
import { refuse } from "../problems/refuse.js";
import { sendLink } from "../sending/sendLink.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";

export const ownerLinks = new Hono<AppEnv>();

const NO_LINK = { detail: "There is no such link." };

ownerLinks.get("/jobs/:id/links", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  return show(c, subject, { say: c.req.query("withdrawn") === undefined ? undefined : "The link is withdrawn." });
});

ownerLinks.post("/jobs/:id/links", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const current = subject && currentOf(subject);
  if (!subject) return refuse(c, "not found", NO_JOB);
  if (!current) return refuse(c, "estimate not issued");
  const { head, settings, owner, when } = subject;
  return pageDoor(c, makeOwnerLink, {
    on: { estimate: current.id, reachable: c.var.publicOrigin !== undefined },
    tongue: subject.tongue,
    done: () => `/jobs/${subject.job.id}/links`,
    once: async ({ secret, expiresAt, deliveredTo }, typed) =>
      show(c, subject, {
        made: await sendLink(c, fieldsOf(typed), {
          job: head,
          shop: settings.name,
          revision: current.revision,
          owner: {
            name: owner?.name ?? "",
            ...(owner?.email && { email: owner.email }),
            language: owner?.language ?? settings.language,
          },
          address: ownerAddress(c, secret.fragment),
          code: secret.code,
          until: when(expiresAt),
          deliveredTo,
        }),
      }),
    show: (again) => show(c, subject, { form: again, status: again.status }),
  });
});

/** The job of the demo shop's year that stands with its owner (fixtures/demo/year.json). */
export const DEMO_JOB = "01a20c91-a000-7c4d-8d0e-5b7f2c31a1d0";

/** The owner's page as its owner has it, in this browser: a link like any other, made and followed at once. */
ownerLinks.post("/demo/owners-page", async (c) => {
  const desk = deskOf(c);
  const current = (await desk.job(DEMO_JOB))?.current;
  if (!current) return refuse(c, "not found", NO_JOB);
  const made = { by: "The demo shop", deliveredTo: "this browser", days: 1 };
  const done = await carryOut(makeOwnerLink, desk, made, { estimate: current.id, reachable: true });
  if (!done.ok || "replayed" in done) return refuse(c, "not found", NO_LINK);
  giveEntry(c, await ownerEntries.add(c.var.db, done.answer, "link", desk.at), 24 * 3600);
  return c.redirect(OWNER_PATHS.estimate, 303);
});

ownerLinks.get("/jobs/:id/links/:link/withdrawal", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const link = subject && (await linkOf(c, subject, c.req.param("link")));
  if (!subject || !link) return refuse(c, "not found", NO_LINK);
  return askToWithdraw(c, subject, link, fresh(withdrawOwnerLink, { by: lastHand(subject) }));
});

ownerLinks.post("/jobs/:id/links/:link/withdrawal", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const link = subject && (await linkOf(c, subject, c.req.param("link")));
  if (!subject || !link) return refuse(c, "not found", NO_LINK);
  return pageDoor(c, withdrawOwnerLink, {
    on: { link: link.id, job: subject.job.id },
    tongue: subject.tongue,
    done: () => `/jobs/${subject.job.id}/links?withdrawn`,
    show: (again) => askToWithdraw(c, subject, link, again, again.status),
  });
});

const currentOf = ({ revisions }: JobSubject): Estimate | undefined => revisions.findLast(({ issuedAt }) => issuedAt);

async function linkOf(c: Context<AppEnv>, { job }: JobSubject, id: string): Promise<OwnerLink | undefined> {
  const found = await records.find(c.var.db, id);
  return found?.jobId === job.id ? found : undefined;
}

function rowOf(c: Context<AppEnv>, { revisions, when }: JobSubject, link: OwnerLink): LinkRow {
  const dead = deadSince(link, c.var.clock().toISOString());
  const by = link.withdrawal ? ` by ${link.withdrawal.by}` : "";
  return {
    id: link.id,
    revision: revisions.find(({ id }) => id === link.estimateId)?.revision ?? 0,
    made: when(link.at),
    by: link.by,
    deliveredTo: link.deliveredTo,
    until: when(link.expiresAt),
    ...(dead && { dead: `${dead.why} ${when(dead.since)}${by}` }),
  };
}

interface Shown {
  readonly form?: AskedForm;
  readonly made?: LinkOnceProps;
  readonly say?: string | undefined;
  readonly status?: PageStatus;
}

async function show(c: Context<AppEnv>, subject: JobSubject, { form, made, say, status = 200 }: Shown) {
  if (made) c.header("cache-control", "no-store");
  const { job, head, settings, owner } = subject;
  const links = await records.ofJob(c.var.db, job.id);
  const current = currentOf(subject);
  const blank = fresh(makeOwnerLink, {
    by: lastHand(subject),
    deliveredTo: owner?.email ?? owner?.phone ?? "",
    send: owner?.email ? "yes" : "",
  });
  return pageAnswer(
    c,
    <LinksPage
      frame={frameFor(c, settings.name)}
      script={copyScriptFor(c)}
      job={head}
      links={links.map((link) => rowOf(c, subject, link)).reverse()}
      {...(form ?? blank)}
      say={say}
      reachable={c.var.publicOrigin !== undefined}
      canSend={(await sendHook.find(c.var.db))?.url !== undefined}
      {...(current && { revision: current.revision })}
      {...(made && { made })}
    />,
    status,
  );
}

const askToWithdraw = (c: Context<AppEnv>, subject: JobSubject, link: OwnerLink, form: AskedForm, status: PageStatus = 200) =>
  pageAnswer(
    c,
    <WithdrawPage frame={frameFor(c, subject.settings.name)} job={subject.head} link={rowOf(c, subject, link)} {...form} />,
    status,
  );
