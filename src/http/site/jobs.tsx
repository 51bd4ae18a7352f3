/** The list of jobs, and each job with its revisions. */
import { type Context, Hono } from "hono";
import { addNextEstimate } from "../../acts/beginDraft.js";
import { carryOut } from "../../acts/carryOut.js";
import { compared } from "../../acts/compared.js";
import type { JobAsItStands } from "../../acts/job.js";
import { isUntouched } from "../../acts/setUp.js";
import { JobList } from "../../pages/shop/jobList.js";
import { JobPage, type Revision } from "../../pages/shop/jobPage.js";
import type { Estimate } from "../../records/estimates.js";
import { jobBoard } from "../../records/jobBoard.js";
import { shopSettings } from "../../records/settings.js";
import { signInEvents } from "../../records/signInEvents.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { withRisk } from "../papers/withRisk.js";
import { refuse } from "../problems/refuse.js";
import { jobSubject } from "./jobSubject.js";
import { standingProps } from "./standing.js";

export const jobs = new Hono<AppEnv>();

const ON_A_PAGE = 50;
const missing = { detail: "There is no such job." };

jobs.get("/", async (c) => {
  const settings = await shopSettings(c.var.db);
  const after = c.req.query("after");
  const page = await jobBoard(c.var.db, { limit: ON_A_PAGE, after, newestFirst: true });
  const rows = page.rows.map(({ id, job, owner, unit, closedOn, billed, paid, latest }) => ({
    id,
    number: job.number,
    arrivedOn: job.arrivedOn,
    owner,
    unit,
    ...(job.reported && { reported: job.reported }),
    ...(closedOn && { closedOn }),
    ...(billed !== undefined && { billed }),
    ...(paid !== undefined && { paid }),
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
      untouched={rows.length === 0 && c.var.staff === undefined && (await isUntouched(c.var))}
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
  const standing = standingProps(c, subject);
  const { from, changes } = compared(stands);
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
      say={SAID.find(([name]) => c.req.query(name) !== undefined)?.[1]}
      {...(standing && { standing })}
      {...(from && changes && { changed: { since: from.revision, changes } })}
      {...(unit.modelId && { modelHref: `/models/${unit.modelId}` })}
      {...(job.reported && { reported: job.reported })}
      {...(job.condition && { condition: job.condition })}
    />,
  );
});

const SAID = [
  ["added", "Added to the draft. The owner sees it when it is issued."],
  ["withdrawn", "The draft is withdrawn; the trail tells of it."],
] as const;

/** The next draft, or the one that is open. */
jobs.post("/jobs/:id/revisions", async (c) => {
  const outcome = await carryOut(addNextEstimate, deskOf(c), {}, { job: c.req.param("id") });
  const draft = outcome.ok
    ? "answer" in outcome
      ? outcome.answer
      : undefined
    : (outcome.refusal.current as Estimate | undefined);
  return draft ? c.redirect(`/estimates/${draft.id}`, 303) : refuse(c, "not found", missing);
});

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
