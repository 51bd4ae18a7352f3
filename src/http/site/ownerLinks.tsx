/** The links to a job's owner's page: one more, or one withdrawn. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { LINK_DAYS } from "../../acts/settings.js";
import { line, number, reading } from "../../pages/form/reading.js";
import type { LinkOnceProps } from "../../pages/revise/linkOnce.js";
import { type LinkRow, LinksPage, WithdrawPage } from "../../pages/revise/linksPage.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { deadSince, type OwnerLink, ownerLinks as records } from "../../records/ownerLinks.js";
import { sendHook } from "../../records/sendHook.js";
import type { AppEnv } from "../bindings.js";
import { expiry, ownerAddress } from "../issuing.js";
import { refuse } from "../problems/refuse.js";
import { sendLink } from "../sending/sendLink.js";
import { copyScriptFor, frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";

export const ownerLinks = new Hono<AppEnv>();

const NO_LINK = { detail: "There is no such link." };

ownerLinks.get("/jobs/:id/links", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  return show(c, subject, { say: c.req.query("withdrawn") === undefined ? undefined : "The link is withdrawn." });
});

ownerLinks.post("/jobs/:id/links", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const current = currentOf(subject);
  if (!current) return refuse(c, "estimate not issued");
  const { fields } = sent;
  const at = await readerFor(c, subject, current);
  const by = line(at, "by", fields.get("by"), 200);
  const deliveredTo = line(at, "deliveredTo", fields.get("deliveredTo"), 200);
  const days = number(at, "days", fields.get("days")) ?? subject.settings.linkDays;
  const errors = errorsIn(at);
  if (!by) errors.set("by", "Type your name: it goes on record with the link.");
  if (!deliveredTo) errors.set("deliveredTo", "Say where the link goes; the answer's record tells it.");
  if (!Number.isInteger(days) || days < LINK_DAYS.least || days > LINK_DAYS.most)
    errors.set("days", `Days it opens: give a whole number from ${LINK_DAYS.least} to ${LINK_DAYS.most}.`);
  if (!by || !deliveredTo || errors.size > 0) return show(c, subject, { fields, errors });

  const now = c.var.clock();
  const expiresAt = expiry(now, days);
  const answer = await records.add(c.var.db, current.id, { by, deliveredTo, expiresAt }, now.toISOString());
  if (answer.is !== "made") return refuse(c, "estimate not issued");
  const { head, settings, owner, when } = subject;
  return show(c, subject, {
    made: await sendLink(c, fields, {
      job: head,
      shop: settings.name,
      revision: current.revision,
      owner: { name: owner?.name ?? "", ...(owner?.email && { email: owner.email }) },
      address: ownerAddress(c, answer.secret.fragment),
      code: answer.secret.code,
      until: when(expiresAt),
      deliveredTo,
    }),
  });
});

ownerLinks.get("/jobs/:id/links/:link/withdrawal", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const link = subject && (await linkOf(c, subject, c.req.param("link")));
  if (!subject || !link) return refuse(c, "not found", NO_LINK);
  return askToWithdraw(c, subject, link, new Map([["by", lastHand(subject)]]));
});

ownerLinks.post("/jobs/:id/links/:link/withdrawal", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  const link = subject && (await linkOf(c, subject, c.req.param("link")));
  if (!subject || !link) return refuse(c, "not found", NO_LINK);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const at = await readerFor(c, subject, currentOf(subject)!);
  const by = line(at, "by", sent.fields.get("by"), 200);
  const reason = line(at, "reason", sent.fields.get("reason"));
  const errors = errorsIn(at);
  if (!by) errors.set("by", "Type your name: it goes on record with the withdrawal.");
  if (!by || errors.size > 0) return askToWithdraw(c, subject, link, sent.fields, errors);
  await records.withdraw(c.var.db, link.id, uuidv7(), { by, ...(reason && { reason }) }, c.var.clock().toISOString());
  return c.redirect(`/jobs/${subject.job.id}/links?withdrawn`, 303);
});

const currentOf = ({ revisions }: JobSubject): Estimate | undefined => revisions.findLast(({ issuedAt }) => issuedAt);

async function readerFor(c: Context<AppEnv>, { tongue }: JobSubject, estimate: Estimate) {
  const { asOf, rateBook } = await estimates.inputOf(c.var.db, estimate);
  return reading(plainContext(asOf, tongue, rateBook));
}

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
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: ReadonlyMap<string, string>;
  readonly made?: LinkOnceProps;
  readonly say?: string | undefined;
}

async function show(c: Context<AppEnv>, subject: JobSubject, { fields, errors = new Map(), made, say }: Shown) {
  if (made) c.header("cache-control", "no-store");
  const { job, head, settings, owner } = subject;
  const links = await records.ofJob(c.var.db, job.id);
  const current = currentOf(subject);
  const blank = new Map([
    ["by", lastHand(subject)],
    ["deliveredTo", owner?.email ?? owner?.phone ?? ""],
    ["days", String(settings.linkDays)],
    ["send", owner?.email ? "yes" : ""],
  ]);
  return pageAnswer(
    c,
    <LinksPage
      frame={frameFor(c, settings.name)}
      script={copyScriptFor(c)}
      job={head}
      links={links.map((link) => rowOf(c, subject, link)).reverse()}
      fields={fields ?? blank}
      errors={errors}
      say={say}
      canSend={(await sendHook.find(c.var.db))?.url !== undefined}
      {...(current && { revision: current.revision })}
      {...(made && { made })}
    />,
    errors.size > 0 ? 422 : 200,
  );
}

const askToWithdraw = (
  c: Context<AppEnv>,
  subject: JobSubject,
  link: OwnerLink,
  fields: ReadonlyMap<string, string>,
  errors: ReadonlyMap<string, string> = new Map(),
) =>
  pageAnswer(
    c,
    <WithdrawPage
      frame={frameFor(c, subject.settings.name)}
      job={subject.head}
      link={rowOf(c, subject, link)}
      fields={fields}
      errors={errors}
    />,
    errors.size > 0 ? 422 : 200,
  );
