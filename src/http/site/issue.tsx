/** Issuing a draft from its job: what is still missing, then the link, shown once. */
import { type Context, Hono } from "hono";
import { doneLeftOut } from "../../acts/draftFinding.js";
import { saysOf } from "../../acts/field.js";
import { beforeOf, type IssuedDraft, issueEstimate, linkEnd, ON_PAPER } from "../../acts/issue.js";
import { type JobAsItStands, jobAsItStands } from "../../acts/job.js";
import { paperworkOf } from "../../acts/paperwork.js";
import { changesBetween } from "../../estimating/agreement/changeList.js";
import { estimate as compute } from "../../estimating/estimate.js";
import type { EstimateInput } from "../../estimating/input.js";
import { profileOf } from "../../estimating/law/profiles.js";
import { unready } from "../../estimating/law/unready.js";
import { neverMore } from "../../estimating/sheet/terms.js";
import type { Sheet } from "../../estimating/sheet.js";
import type { AskedForm } from "../../pages/frame/ask.js";
import { IssuedPage, IssuePage } from "../../pages/revise/issuePage.js";
import { changedWork, reasonFields, reasonsTyped } from "../../pages/revise/reasonBoxes.js";
import { inEstimate, whereToFill } from "../../pages/revise/whereToFill.js";
import type { Estimate } from "../../records/estimates.js";
import { sendHook } from "../../records/sendHook.js";
import { placeText, unprintableText } from "../../wording/letters.js";
import { belowCostText, belowDecliningText, unknownDeliveryText } from "../../wording/line.js";
import { namesWithout } from "../../wording/names.js";
import { profileSourceText, unreadyText } from "../../wording/profile.js";
import { warningText } from "../../wording/reasons.js";
import { day, moment } from "../../wording/time.js";
import { inEnglish, languageOf } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { pageDoor } from "../doors/page.js";
import { copyScriptFor, frameFor, pageAnswer } from "../frame/frame.js";
import { ownerAddress, press } from "../papers/issuing.js";
import { refuse } from "../problems/refuse.js";
import { sendLink } from "../sending/sendLink.js";
import { headOf, NO_JOB } from "./jobSubject.js";
import { soFar } from "./soFar.js";

export const issue = new Hono<AppEnv>();

issue.get("/jobs/:id/issue", async (c) => {
  const job = await deskOf(c).job(c.req.param("id"));
  if (!job) return refuse(c, "not found", NO_JOB);
  const { draft, owner, revisions } = job;
  if (!draft) return c.redirect(`/jobs/${job.id}`, 303);
  const fields = new Map([
    ["by", c.var.staff?.name ?? revisions.findLast(({ issuedBy }) => issuedBy)?.issuedBy ?? ""],
    ["deliveredTo", owner.email ?? owner.phone ?? ""],
    ["linkDays", String(job.settings.linkDays)],
    ["send", owner.email ? "yes" : ""],
    ...reasonFields(workOf(job, draft)),
  ]);
  return show(c, job, draft, { fields, errors: new Map(), says: saysOf(issueEstimate.fields) });
});

issue.post("/jobs/:id/issue", async (c) => {
  const desk = deskOf(c);
  const job = await desk.job(c.req.param("id"));
  if (!job) return refuse(c, "not found", NO_JOB);
  const sent = new URLSearchParams(await c.req.text());
  const seen = job.revision(sent.get("estimate") ?? "");
  if (!seen) return refuse(c, "not found", { detail: "There is no such estimate." });
  return pageDoor(c, issueEstimate, {
    on: { id: seen.id, seen: [Number(sent.get("version"))], ...press(c) },
    ...{ tongue: job.tongue, desk },
    once: (answer) => issuedPage(c, job, answer, new Map(sent)),
    show: async ({ refusal, ...form }) => {
      if (refusal?.is === "estimate issued" || refusal?.is === "job closed") return refuse(c, refusal.is, refusal);
      const now = (await jobAsItStands(c.var.db, job.id)) ?? job;
      const draft = now.revision(seen.id) ?? seen;
      const say = refusal && (HELD[refusal.is] ?? `${refusal.detail ?? ""} Nothing is issued yet.`);
      return show(c, now, draft, { ...form, ...(say && { say, errors: new Map() }) });
    },
  });
});

const HELD: Readonly<Record<string, string>> = {
  "version moved": "Someone else changed the draft meanwhile. This is how it stands now; nothing is issued yet.",
  "owner answered":
    "The owner answered the revision before while this was being issued. Read the answer first; nothing is issued yet.",
};

function workOf(job: JobAsItStands, draft: Estimate) {
  const before = job.current && job.revision(job.current.id);
  return before ? changedWork(job.inputOf(before), job.inputOf(draft)) : [];
}

async function issuedPage(
  c: Context<AppEnv>,
  job: JobAsItStands,
  { record, issue, secret }: IssuedDraft,
  fields: ReadonlyMap<string, string>,
) {
  const { owner, settings } = job;
  c.header("cache-control", "no-store");
  const until = linkEnd(new Date(issue.at), Number(fields.get("linkDays")) || settings.linkDays);
  const link =
    secret &&
    (await sendLink(c, fields, {
      job: headOf(job),
      shop: settings.name,
      revision: record.revision,
      owner: {
        name: owner.name,
        ...(owner.email && { email: owner.email }),
        language: record.input.paperwork?.language,
      },
      address: ownerAddress(c, secret.fragment),
      code: secret.code,
      until: moment(until, settings.locale, settings.timeZone),
      deliveredTo: fields.get("deliveredTo")?.trim() || ON_PAPER,
    }));
  return pageAnswer(
    c,
    <IssuedPage
      frame={frameFor(c, settings.name)}
      script={copyScriptFor(c)}
      job={headOf(job)}
      estimate={{ id: record.id, revision: record.revision }}
      pdfHash={issue.pdfHash}
      {...(link && { link })}
    />,
  );
}

interface Shown extends AskedForm {
  readonly say?: string;
  readonly status?: 200 | 404 | 409 | 422;
}

async function show(c: Context<AppEnv>, job: JobAsItStands, draft: Estimate, { status = 200, ...form }: Shown) {
  const { settings, tongue } = job;
  const input = { ...job.inputOf(draft), paperwork: { ...paperworkOf(job, draft, c.var.clock()), ...reasonsTyped(form.fields) } };
  const outcome = compute(input);
  const profile = profileOf(outcome.ok ? input.policy?.profile : undefined);
  const lacks = outcome.ok ? [...lapsing(outcome.sheet, input, draft, tongue.locale), ...unmet(input, outcome.sheet, draft)] : [];
  // As it will be printed: what changes, and why, stands on a revision alone, and captions under photos.
  const before = beforeOf(job, draft.revision);
  const printed = outcome.ok && (await press(c).print(outcome.sheet, input, before, job.photos));
  const letters = (printed && "bytes" in printed && printed.unprintable) || [];
  const reads = languageOf(input.paperwork.language);
  const unnamed = outcome.ok ? namesWithout(outcome.sheet, input, reads).filter((text) => !input.paperwork.names?.[text]) : [];
  const boxes = new Map(letters.map(({ pointer }, row) => [`input${pointer.replaceAll("/", ".")}`, `spellings.${row}.latin`]));
  const changes = before && outcome.ok ? changesBetween(before, { input, sheet: outcome.sheet }) : undefined;
  return pageAnswer(
    c,
    <IssuePage
      frame={frameFor(c, settings.name)}
      job={headOf(job)}
      tongue={tongue}
      draft={{ id: draft.id, revision: draft.revision, version: draft.version }}
      profile={{ name: profile.name, source: profileSourceText(profile) }}
      lacks={lacks}
      work={workOf(job, draft)}
      letters={letters.map(({ pointer, text, characters }) => ({
        text,
        place: placeText(pointer),
        said: unprintableText(pointer, text, characters),
      }))}
      {...(unnamed.length > 0 && { unnamed: { language: inEnglish(reads), texts: unnamed } })}
      inWords={input.paperwork.summary !== undefined}
      reachable={c.var.publicOrigin !== undefined}
      canSend={(await sendHook.find(c.var.db))?.url !== undefined}
      {...form}
      errors={new Map([...form.errors].map(([name, text]) => [boxes.get(name) ?? name, text]))}
      {...(changes && { changes })}
      {...(outcome.ok && {
        figures: {
          total: outcome.sheet.totals.total,
          ceiling: neverMore(outcome.sheet),
          leftOut: doneLeftOut(job),
          above: outcome.sheet.warnings
            .filter((each) => each.is === "above ceiling" && each.total > (soFar(job, draft.revision).allowed ?? 0))
            .map((each) => warningText(each, tongue))[0],
          validUntil: outcome.sheet.validUntil,
          days: outcome.sheet.days.total,
          // Nothing is owed for declining a revision while an earlier one stands agreed.
          below: changes?.since.agreed ? undefined : belowDecliningText(outcome.sheet, tongue),
          belowCost: belowCostText(outcome.sheet, tongue),
          unknownDelivery: unknownDeliveryText(input, outcome.sheet, before?.fitted),
        },
      })}
    />,
    status === 404 ? 409 : status,
  );
}

type Lacks = readonly { readonly text: string; readonly href: string }[];

/** An offer that has ended cannot be agreed to, whatever the profile says. */
const lapsing = ({ validUntil }: Sheet, { paperwork }: EstimateInput, { id }: Estimate, locale: string): Lacks =>
  validUntil < (paperwork?.date ?? "")
    ? [
        {
          text: `It would end on ${day(validUntil, locale)}, before it is issued; read the prices as of today.`,
          href: inEstimate(id, "meta.asOf"),
        },
      ]
    : [];

function unmet(input: EstimateInput, sheet: Sheet, { id }: Estimate): Lacks {
  const { name } = profileOf(input.policy?.profile);
  const locale = input.paperwork?.locale ?? "en-GB";
  return unready(input, sheet).map((lack) => ({ text: unreadyText(lack, name, locale), href: whereToFill(lack, id) }));
}
