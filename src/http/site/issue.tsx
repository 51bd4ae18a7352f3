/** Issuing a draft from its job: what is still missing, then the link, shown once. */
import { type Context, Hono } from "hono";
import { LINK_DAYS } from "../../acts/settings.js";
import { same } from "../../estimating/agreement/canonical.js";
import { changeList } from "../../estimating/agreement/changeList.js";
import { estimate as compute } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import { unready } from "../../estimating/law/unready.js";
import type { Sheet } from "../../estimating/sheet.js";
import { LENGTHS, line, number, reading } from "../../pages/form/reading.js";
import { IssuedPage, IssuePage } from "../../pages/revise/issuePage.js";
import { changedWork, reasonField } from "../../pages/revise/reasonBoxes.js";
import { errorsIn, plainContext } from "../../pages/revise/smallForm.js";
import { whereToFill } from "../../pages/revise/whereToFill.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import type { IssueAnswer } from "../../records/issue.js";
import { sendHook } from "../../records/sendHook.js";
import { profileSourceText, unreadyText } from "../../wording/profile.js";
import { day } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { issueDraft, ON_PAPER, ownerAddress, type PhotosUnfit } from "../issuing.js";
import { paperworkOf } from "../paperwork.js";
import { refuse } from "../problems/refuse.js";
import { sendLink } from "../sending/sendLink.js";
import { copyScriptFor, frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, lastHand, NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";

export const issue = new Hono<AppEnv>();

issue.get("/jobs/:id/issue", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const draft = draftOf(subject);
  if (!draft) return c.redirect(`/jobs/${subject.job.id}`, 303);
  const fields = new Map([
    ["by", lastHand(subject)],
    ["deliveredTo", subject.owner?.email ?? subject.owner?.phone ?? ""],
    ["linkDays", String(subject.settings.linkDays)],
    ["send", subject.owner?.email ? "yes" : ""],
    ...(await workOf(c, subject, draft)).map(({ id, reason = "" }): [string, string] => [reasonField(id), reason]),
  ]);
  return show(c, subject, draft, fields);
});

issue.post("/jobs/:id/issue", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const { fields } = sent;
  const seen = subject.revisions.find(({ id }) => id === fields.get("estimate"));
  if (!seen) return refuse(c, "not found", { detail: "There is no such estimate." });
  if (seen.issuedAt) return refuse(c, "estimate issued", issuedAlready(seen));

  const input = await estimates.inputOf(c.var.db, seen);
  const at = reading(plainContext(input.asOf, subject.tongue, input.rateBook));
  const by = line(at, "by", fields.get("by"), 200);
  const deliveredTo = line(at, "deliveredTo", fields.get("deliveredTo"), 200);
  const days = number(at, "linkDays", fields.get("linkDays")) ?? subject.settings.linkDays;
  const errors = errorsIn(at);
  if (!by && !errors.has("by")) errors.set("by", "Type your name: it goes on record with the issue.");
  if (days < LINK_DAYS.least || days > LINK_DAYS.most || !Number.isInteger(days))
    errors.set("linkDays", `Days the link opens: give a whole number from ${LINK_DAYS.least} to ${LINK_DAYS.most}.`);
  if (errors.size > 0 || !by) return show(c, subject, seen, fields, { errors });

  const draft = await withReasons(c, subject, { ...seen, version: Number(fields.get("version")) }, fields);
  if ("is" in draft) return held(c, subject, seen, fields, draft);
  const answer = await issueDraft(c, draft, { by, linkDays: days, ...(deliveredTo && { deliveredTo }) });
  return answer.is === "issued"
    ? issuedPage(c, subject, answer, deliveredTo ?? ON_PAPER, days, fields)
    : held(c, subject, draft, fields, answer);
});

/** The draft with the reasons that were typed, kept as part of its paperwork. */
async function withReasons(
  c: Context<AppEnv>,
  subject: JobSubject,
  draft: Estimate,
  fields: ReadonlyMap<string, string>,
): Promise<Estimate | Extract<IssueAnswer, { is: "moved" | "missing" | "issued already" }>> {
  const typed = (await workOf(c, subject, draft)).flatMap(({ id }): [string, string][] => {
    const reason = fields.get(reasonField(id))?.trim();
    return reason ? [[id, reason.slice(0, LENGTHS.line)]] : [];
  });
  const whyChanged = Object.fromEntries(typed);
  const { paperwork, ...input } = draft.input;
  const { whyChanged: old = {}, ...rest } = paperwork ?? {};
  if (same(whyChanged, old)) return draft;
  const value = { ...draft, input: { ...input, paperwork: { ...rest, ...(typed.length > 0 && { whyChanged }) } } };
  const answer = await estimates.replace(c.var.db, draft.id, draft.version, value, c.var.clock().toISOString());
  if (answer.is === "replaced") return answer.record;
  if (answer.is === "issued") return { is: "issued already", current: answer.current };
  if (answer.is === "moved" || answer.is === "missing") return answer;
  throw new Error(`Draft ${draft.id} could not be given its reasons: ${answer.is}.`);
}

async function workOf(c: Context<AppEnv>, { revisions }: JobSubject, draft: Estimate) {
  const before = revisions.findLast(({ issuedAt }) => issuedAt);
  return before ? changedWork(await estimates.inputOf(c.var.db, before), await estimates.inputOf(c.var.db, draft)) : [];
}

const draftOf = ({ revisions }: JobSubject): Estimate | undefined => revisions.find(({ issuedAt }) => !issuedAt);

const issuedAlready = ({ revision, jobId }: Estimate) => ({
  detail:
    `Revision ${revision} is issued already; the button may have been pressed twice. Its PDF carries the owner's link, and ` +
    `another can be made at /jobs/${jobId}/links.`,
});

/** Nothing was issued: why, with what was typed. */
async function held(
  c: Context<AppEnv>,
  subject: JobSubject,
  seen: Estimate,
  fields: ReadonlyMap<string, string>,
  answer: Exclude<IssueAnswer, { is: "issued" }> | PhotosUnfit,
) {
  switch (answer.is) {
    case "missing":
      return refuse(c, "not found", { detail: "There is no such estimate." });
    case "issued already":
      return refuse(c, "estimate issued", issuedAlready(answer.current));
    case "moved":
      return show(c, subject, answer.current, fields, {
        say: "Someone else changed the draft meanwhile. This is how it stands now; nothing is issued yet.",
        status: 409,
      });
    case "photos unfit":
      return show(c, subject, seen, fields, { say: `${answer.detail} Nothing is issued yet.`, status: 409 });
    case "closed":
      return refuse(c, "job closed", { detail: "A new fault of this unit is a new job." });
    case "owner answered":
      return show(c, subject, seen, fields, {
        say: "The owner answered the revision before while this was being issued. Read the answer first; nothing is issued yet.",
        status: 409,
      });
    default:
      return show(c, subject, seen, fields, { status: 422 });
  }
}

async function issuedPage(
  c: Context<AppEnv>,
  { head, settings, owner, when }: JobSubject,
  { record, issue, secret }: Extract<IssueAnswer, { is: "issued" }>,
  deliveredTo: string,
  days: number,
  fields: ReadonlyMap<string, string>,
) {
  c.header("cache-control", "no-store");
  const until = new Date(Date.parse(issue.at) + days * 24 * 3_600_000).toISOString();
  const link = await sendLink(c, fields, {
    job: head,
    shop: settings.name,
    revision: record.revision,
    owner: { name: owner?.name ?? "", ...(owner?.email && { email: owner.email }) },
    address: ownerAddress(c, secret.fragment),
    code: secret.code,
    until: when(until),
    deliveredTo,
  });
  return pageAnswer(
    c,
    <IssuedPage
      frame={frameFor(c, settings.name)}
      script={copyScriptFor(c)}
      estimateId={record.id}
      pdfHash={issue.pdfHash}
      link={link}
    />,
  );
}

interface Shown {
  readonly errors?: ReadonlyMap<string, string>;
  readonly say?: string;
  readonly status?: 200 | 409 | 422;
}

async function show(
  c: Context<AppEnv>,
  subject: JobSubject,
  draft: Estimate,
  fields: ReadonlyMap<string, string>,
  { errors = new Map(), say, status = errors.size > 0 ? 422 : 200 }: Shown = {},
) {
  const { db } = c.var;
  const { head, settings, tongue, revisions } = subject;
  const paperwork = await paperworkOf(db, draft, c.var.clock());
  const input = { ...(await estimates.inputOf(db, draft)), paperwork };
  const outcome = compute(input);
  const profile = profileOf(outcome.ok ? input.policy?.profile : undefined);
  const lacks = outcome.ok ? [...lapsing(outcome.sheet, input, draft, tongue.locale), ...unmet(input, outcome.sheet, draft)] : [];
  const before = revisions.findLast(({ issuedAt }) => issuedAt);
  const changes = before && changeList(await estimates.inputOf(db, before), input);
  return pageAnswer(
    c,
    <IssuePage
      frame={frameFor(c, settings.name)}
      job={head}
      tongue={tongue}
      draft={{ id: draft.id, revision: draft.revision, version: draft.version }}
      profile={{ name: profile.name, source: profileSourceText(profile) }}
      lacks={lacks}
      work={await workOf(c, subject, draft)}
      fields={fields}
      errors={errors}
      canSend={(await sendHook.find(db))?.url !== undefined}
      {...(say && { say })}
      {...(before && changes && { since: before.revision, changes })}
      {...(outcome.ok && {
        figures: {
          total: outcome.sheet.totals.total,
          ceiling: outcome.sheet.ceiling.amount,
          validUntil: outcome.sheet.validUntil,
          days: outcome.sheet.days.total,
        },
      })}
    />,
    status,
  );
}

type Lacks = readonly { readonly text: string; readonly href: string }[];

/** An offer that has ended cannot be agreed to, whatever the profile says. */
const lapsing = ({ validUntil }: Sheet, { paperwork }: EstimateInput, { id }: Estimate, locale: string): Lacks =>
  validUntil < (paperwork?.date ?? "")
    ? [
        {
          text: `It would end on ${day(validUntil, locale)}, before it is issued; read the prices as of today.`,
          href: `/estimates/${id}#meta.asOf`,
        },
      ]
    : [];

function unmet(input: EstimateInput, sheet: Sheet, { id }: Estimate): Lacks {
  const { name } = profileOf(input.policy?.profile);
  const locale = input.paperwork?.locale ?? "en-GB";
  return unready(input, sheet).map((lack) => ({ text: unreadyText(lack, name, locale), href: whereToFill(lack, id) }));
}
