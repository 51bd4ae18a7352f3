/** In which language an owner's papers are written, and on which paper a draft is printed. What is issued already stays as it is. */
import { type Context, Hono } from "hono";
import { shapeFaults } from "../../acts/fault.js";
import { papersChoice } from "../../acts/shapes/resources.js";
import { PapersPage } from "../../pages/revise/papersPage.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { type Owner, owners } from "../../records/owners.js";
import { LANGUAGES, languageName, languageOf } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { frameFor, pageAnswer } from "./frame.js";
import { type JobSubject, jobSubject, NO_JOB } from "./jobSubject.js";
import { NOT_A_FORM, sentForm } from "./sentForm.js";

export const papers = new Hono<AppEnv>();

papers.get("/jobs/:id/papers", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  return show(c, subject, fieldsOf(subject), { ...(c.req.query("saved") !== undefined && { say: "Saved." }) });
});

papers.post("/jobs/:id/papers", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", NO_JOB);
  const sent = await sentForm(c);
  if (!sent) return refuse(c, "media type unsupported", NOT_A_FORM);
  const given = ["language", "locale", "paper"].flatMap((name) => {
    const value = sent.fields.get(name)?.trim();
    return value ? [[name, value] as const] : [];
  });
  const choice = Object.fromEntries(given);
  const read = papersChoice.safeParse(choice);
  if (!read.success) {
    const faults = shapeFaults(read.error.issues, choice);
    return show(c, subject, sent.fields, {
      errors: new Map(faults.map(({ pointer, detail }) => [pointer.slice(1), detail])),
    });
  }
  const { paper, ...tongue } = read.data as { paper?: "A4" | "Letter"; language?: string; locale?: string };
  const kept =
    (await keepTongue(c, subject, Number(sent.fields.get("ownerVersion")), tongue)) &&
    (await keepPaper(c, draftOf(subject), Number(sent.fields.get("draftVersion")), paper));
  if (kept) return c.redirect(`/jobs/${subject.job.id}/papers?saved`, 303);
  const now = (await jobSubject(c, subject.job.id)) ?? subject;
  const fields = new Map([...sent.fields, ...versionsOf(now)]);
  const errors = new Map([["", "Someone else saved meanwhile. Save again to keep what stands here."]]);
  return show(c, now, fields, { errors });
});

const draftOf = ({ revisions }: JobSubject): Estimate | undefined => revisions.find(({ issuedAt }) => !issuedAt);

const versionsOf = (subject: JobSubject): [string, string][] => [
  ["ownerVersion", String(subject.owner?.version ?? "")],
  ["draftVersion", String(draftOf(subject)?.version ?? "")],
];

function fieldsOf(subject: JobSubject): Map<string, string> {
  const { language = "", locale = "" } = subject.owner ?? {};
  const paper = draftOf(subject)?.input.paperwork?.paper ?? "";
  return new Map([...versionsOf(subject), ["language", language], ["locale", locale], ["paper", paper]]);
}

/** False where someone else was first. */
async function keepTongue(
  c: Context<AppEnv>,
  { owner, job }: JobSubject,
  version: number,
  chosen: Pick<Owner, "language" | "locale">,
): Promise<boolean> {
  if (!owner || (owner.language === chosen.language && owner.locale === chosen.locale)) return true;
  const { id: _, version: __, createdAt: ___, updatedAt: ____, language: _____, locale: ______, ...rest } = owner;
  const at = c.var.clock().toISOString();
  return (await owners.replace(c.var.db, job.ownerId, version, { ...rest, ...chosen }, at)).is === "replaced";
}

async function keepPaper(
  c: Context<AppEnv>,
  draft: Estimate | undefined,
  version: number,
  paper: "A4" | "Letter" | undefined,
): Promise<boolean> {
  if (!draft || draft.input.paperwork?.paper === paper) return true;
  const { paper: _, ...paperwork } = draft.input.paperwork ?? {};
  const value = { ...draft, input: { ...draft.input, paperwork: { ...paperwork, ...(paper && { paper }) } } };
  return (await estimates.replace(c.var.db, draft.id, version, value, c.var.clock().toISOString())).is === "replaced";
}

function show(
  c: Context<AppEnv>,
  subject: JobSubject,
  fields: ReadonlyMap<string, string>,
  { errors = new Map(), say }: { readonly errors?: ReadonlyMap<string, string>; readonly say?: string } = {},
) {
  const { settings, head, owner } = subject;
  return pageAnswer(
    c,
    <PapersPage
      frame={frameFor(c, settings.name)}
      job={head}
      owner={owner?.name ?? "the owner"}
      fields={fields}
      errors={errors}
      languages={LANGUAGES.map((language) => [language, languageName(language)] as const)}
      usual={{ language: languageName(languageOf(settings.language)), paper: settings.paper }}
      draft={draftOf(subject) !== undefined}
      {...(say && { say })}
    />,
    errors.size > 0 ? 422 : 200,
  );
}
