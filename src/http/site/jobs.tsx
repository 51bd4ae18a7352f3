/** The list of jobs, and each job with its revisions. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import type { JobAsItStands } from "../../acts/job.js";
import { today } from "../../acts/today.js";
import { changeList } from "../../estimating/agreement/changeList.js";
import { JobList } from "../../pages/shop/jobList.js";
import { JobPage, type Revision } from "../../pages/shop/jobPage.js";
import type { Database } from "../../records/database.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { jobBoard } from "../../records/jobBoard.js";
import { jobs as records } from "../../records/jobs.js";
import { nextDraft } from "../../records/nextDraft.js";
import { rateBooks } from "../../records/rateBooks.js";
import { shopSettings } from "../../records/settings.js";
import { signInEvents } from "../../records/signInEvents.js";
import { units } from "../../records/units.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { withRisk } from "../withRisk.js";
import { frameFor, pageAnswer } from "./frame.js";
import { jobSubject } from "./jobSubject.js";
import { standingProps } from "./standing.js";

export const jobs = new Hono<AppEnv>();

const ON_A_PAGE = 50;
const missing = { detail: "There is no such job." };

jobs.get("/", async (c) => {
  const settings = await shopSettings(c.var.db);
  const after = c.req.query("after");
  const page = await jobBoard(c.var.db, { limit: ON_A_PAGE, after, newestFirst: true });
  const rows = page.rows.map(({ id, job, owner, unit, closedOn, latest }) => ({
    id,
    number: job.number,
    arrivedOn: job.arrivedOn,
    owner,
    unit,
    ...(job.reported && { reported: job.reported }),
    ...(closedOn && { closedOn }),
    ...(latest && { estimate: { ...latest, issued: latest.issuedAt !== undefined } }),
  }));
  return pageAnswer(
    c,
    <JobList
      frame={frameFor(c, settings.name)}
      locale={settings.locale}
      rows={rows}
      first={after === undefined}
      unsettled={await isUnsettled(c)}
      {...(page.next && { next: `/?after=${encodeURIComponent(page.next)}` })}
    />,
  );
});

/** Nobody has an account, and nobody said that this can wait. */
const isUnsettled = async (c: Context<AppEnv>): Promise<boolean> =>
  c.var.staff === undefined && !(await signInEvents.happened(c.var.db, "went on without accounts"));

jobs.get("/jobs/:id", async (c) => {
  const subject = await jobSubject(c, c.req.param("id"));
  if (!subject) return refuse(c, "not found", missing);
  const { stands, job, settings, tongue, owner, unit } = subject;
  const [standing, changed] = [standingProps(c, subject), changedOf(stands)];
  const [latest, ...older] = [...stands.revisions].reverse().map((estimate) => revisionOf(stands, estimate));
  const revisions = latest ? [forTheShop(latest), ...older] : [];
  return pageAnswer(
    c,
    <JobPage
      frame={frameFor(c, settings.name)}
      tongue={tongue}
      number={job.number}
      arrivedOn={job.arrivedOn}
      owner={owner}
      unit={unit}
      accessories={job.accessories ?? []}
      photos={{ href: `/jobs/${job.id}/photos`, count: stands.photos.length }}
      revisions={revisions}
      newRevision={`/jobs/${job.id}/revisions`}
      say={c.req.query("added") === undefined ? undefined : "Added to the draft. The owner sees it when it is issued."}
      {...(standing && { standing })}
      {...(changed && { changed })}
      {...(unit.modelId && { modelHref: `/models/${unit.modelId}` })}
      {...(job.reported && { reported: job.reported })}
      {...(job.condition && { condition: job.condition })}
    />,
  );
});

/** Against the revision before it. */
function changedOf({ revisions, inputOf }: JobAsItStands) {
  const [before, after] = revisions.slice(-2);
  if (!before || !after) return undefined;
  const changes = changeList(inputOf(before), inputOf(after));
  return changes && { since: before.revision, changes };
}

/** The latest revision once more, as a draft, or the draft that is open; or the first, from what the job says. */
jobs.post("/jobs/:id/revisions", async (c) => {
  const { db } = c.var;
  const job = await records.find(db, c.req.param("id"));
  if (!job) return refuse(c, "not found", missing);
  const [id, at] = [uuidv7(), c.var.clock().toISOString()];
  const next = await nextDraft(db, job.id, id, at);
  if (next.is !== "missing") return c.redirect(`/estimates/${next.is === "added" ? id : next.current.id}`, 303);
  await estimates.add(db, id, await firstOf(db, job, c.var.clock()), at);
  return c.redirect(`/estimates/${id}`, 303);
});

async function firstOf(db: Database, job: NonNullable<Awaited<ReturnType<typeof records.find>>>, now: Date) {
  const [settings, unit] = await Promise.all([shopSettings(db), units.find(db, job.unitId)]);
  const kept = await rateBooks.find(db, settings.rateBookId);
  if (!unit || !kept) throw new Error(`Job ${job.id} has no unit, or the shop no rate book.`);
  const { maker, model, serial, declaredValue, hazards } = unit;
  const { reported, condition, accessories } = job;
  return {
    jobId: job.id,
    rateBookId: kept.id,
    rateBookVersion: kept.version,
    input: {
      schema: 1 as const,
      asOf: today(now, settings.timeZone),
      currency: kept.book.currency,
      unit: {
        maker,
        model,
        grade: kept.book.grades[0]?.id ?? "",
        ...(serial && { serial }),
        ...(declaredValue !== undefined && { declaredValue }),
        ...(hazards && { hazards }),
        ...(reported && { reported }),
        ...(condition && { condition }),
        ...(accessories && { accessories }),
      },
      items: [],
      policy: { benchQueueDays: settings.benchQueueDays },
    },
  };
}

const forTheShop = (revision: Revision): Revision =>
  revision.sheet ? { ...revision, sheet: withRisk(revision.sheet, revision.input) } : revision;

function revisionOf(job: JobAsItStands, estimate: Estimate): Revision {
  const { id, revision, issuedAt, issuedBy, sheet } = estimate;
  return {
    id,
    revision,
    input: job.inputOf(estimate),
    problems: sheet ? [] : job.problemsOf(estimate),
    ...(issuedAt && { issuedAt }),
    ...(issuedBy && { issuedBy }),
    ...(sheet && { sheet }),
  };
}
