/** What an owner gets: in which language, and what a draft says first, in how much detail, on which paper. */
import { type Context, Hono } from "hono";
import { choosePapers } from "../../acts/choosePapers.js";
import { saysOf } from "../../acts/field.js";
import { type JobAsItStands, jobAsItStands } from "../../acts/job.js";
import { paperworkOf } from "../../acts/paperwork.js";
import type { Package } from "../../estimating/input.js";
import { PapersPage } from "../../pages/revise/papersPage.js";
import { namesWithout } from "../../wording/names.js";
import { inEnglish, LANGUAGES, languageName, languageOf } from "../../wording/tongue.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { pageDoor } from "../doors/page.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { headOf, NO_JOB } from "./jobSubject.js";

const ENGLISH = "en";

export const papers = new Hono<AppEnv>();

papers.get("/jobs/:id/papers", async (c) => {
  const job = await deskOf(c).job(c.req.param("id"));
  if (!job) return refuse(c, "not found", NO_JOB);
  const say = c.req.query("saved") === undefined ? undefined : "Saved.";
  return show(c, job, {
    fields: new Map([...stands(job), ...setNames(setsOf(job)), ...named(c, job), ...drawn(job)]),
    errors: new Map(),
    say,
  });
});

papers.post("/jobs/:id/papers", async (c) => {
  const desk = deskOf(c);
  const job = await desk.job(c.req.param("id"));
  if (!job) return refuse(c, "not found", NO_JOB);
  return pageDoor(c, choosePapers, {
    ...{ on: { job: job.id }, tongue: job.tongue, desk },
    done: () => `/jobs/${job.id}/papers?saved`,
    show: async ({ typed, fields, errors }) => {
      const now = (await jobAsItStands(c.var.db, job.id)) ?? job;
      // Saving again keeps what stands in the form, and only there.
      const old = (name: string) => !errors.has(name) && fields.get(name) === fields.get(`was.${name}`);
      const left = stands(now).filter(([name]) => old(name));
      const packages = [0, 1, 2].map((row) => ({
        name: typed.get(`packages.${row}.name`) ?? "",
        options: typed.all(`packages.${row}.options`),
      }));
      return show(c, now, { fields: new Map([...fields, ...left, ...drawn(now)]), errors, packages });
    },
  });
});

function stands({ owner: { language = "", locale = "" }, draft }: JobAsItStands): [string, string][] {
  const { summary = "", detail = "", paper = "" } = draft?.input.paperwork ?? {};
  return Object.entries({ language, locale, summary, detail, paper });
}

/** The language an owner reads and the names that are in another: those that have one in it are there to be changed. */
function naming(c: Context<AppEnv>, { owner, settings, draft, ...job }: JobAsItStands) {
  const language = languageOf(owner.language ?? settings.language);
  if (!draft?.sheet || language === ENGLISH) return undefined;
  const input = { ...job.inputOf(draft), paperwork: paperworkOf({ owner, settings, draft, ...job }, draft, c.var.clock()) };
  return { language, said: settings.names?.[language] ?? {}, texts: namesWithout(draft.sheet, input, language) };
}

const named = (c: Context<AppEnv>, job: JobAsItStands): [string, string][] => {
  const { texts = [], said = {} } = naming(c, job) ?? {};
  return texts.map((text, row) => [`names.${row}.said`, said[text] ?? ""]);
};

const setsOf = ({ draft }: JobAsItStands) => draft?.input.paperwork?.packages ?? [];
const drawn = (job: JobAsItStands): [string, string][] => stands(job).map(([name, text]) => [`was.${name}`, text]);

const setNames = (sets: readonly Package[]): [string, string][] => sets.map(({ name }, row) => [`packages.${row}.name`, name]);

function show(
  c: Context<AppEnv>,
  job: JobAsItStands,
  shown: {
    readonly fields: ReadonlyMap<string, string>;
    readonly errors: ReadonlyMap<string, string>;
    readonly say?: string | undefined;
    readonly packages?: readonly Package[];
  },
) {
  const { settings, owner, draft } = job;
  const { say, packages: _, ...form } = shown;
  const names = naming(c, job);
  const issued = job.current && job.revision(job.current.id);
  return pageAnswer(
    c,
    <PapersPage
      frame={frameFor(c, settings.name)}
      job={headOf(job)}
      owner={owner.name}
      {...form}
      says={saysOf(choosePapers.fields)}
      languages={LANGUAGES.map((language) => [language, languageName(language)] as const)}
      usual={{ language: languageName(languageOf(settings.language)), paper: settings.paper, detail: settings.detail }}
      {...(draft && { draft: draft.id })}
      options={(draft?.sheet?.options ?? []).map(({ id, names }) => ({ id, name: names.join("; ") }))}
      packages={shown.packages ?? setsOf(job)}
      {...(issued && {
        issued: { revision: issued.revision, language: inEnglish(languageOf(issued.input.paperwork?.language)) },
      })}
      {...(names && { naming: { language: inEnglish(names.language), texts: names.texts } })}
      {...(say && { say })}
    />,
    form.errors.size > 0 ? 422 : 200,
  );
}
