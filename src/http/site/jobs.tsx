/** The list of jobs, and each job with its revisions. */
import { type Context, Hono } from "hono";
import { addNextEstimate } from "../../acts/beginDraft.js";
import { carryOut } from "../../acts/carryOut.js";
import { compared } from "../../acts/compared.js";
import type { JobAsItStands } from "../../acts/job.js";
import { withRisk } from "../../acts/reckoned.js";
import { isUntouched } from "../../acts/setUp.js";
import { agreedIn, inJobState, JOB_STATES, type JobState, jobsInEach, standings } from "../../acts/standing.js";
import { JobList } from "../../pages/shop/jobList.js";
import { JobPage, type Revision } from "../../pages/shop/jobPage.js";
import type { Estimate } from "../../records/estimates.js";
import { jobCards } from "../../records/jobBoard.js";
import { jobs as listed } from "../../records/jobs.js";
import { unevenAmong } from "../../records/payments.js";
import { shopSettings } from "../../records/settings.js";
import { signInEvents } from "../../records/signInEvents.js";
import type { AppEnv } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { refuse } from "../problems/refuse.js";
import { begunBy } from "./begun.js";
import { jobSubject } from "./jobSubject.js";
import { DEMO_JOB } from "./ownerLinks.js";
import { soFar } from "./soFar.js";
import { dayIs, hrefOfNext, standingProps } from "./standing.js";

export const jobs = new Hono<AppEnv>();

const ON_A_PAGE = 50;
/** More than a year of most shops: what is unpaid for longer is found under Closed. */
const CLOSED_LAST = 500;
const missing = { detail: "There is no such job." };

const isState = (name: string | undefined): name is JobState => JOB_STATES.some((state) => state === name);

/** Every job that is not closed, or those in one state. */
jobs.get("/", async (c) => {
  const { db, clock } = c.var;
  const after = c.req.query("after");
  const asked = c.req.query("state");
  const state = isState(asked) ? asked : "open";
  const wanted = { limit: ON_A_PAGE, after, newestFirst: true };
  const reading = agreedIn(db);
  const first = after === undefined && state === "open";
  const [settings, agreed, page, uneven, unsettled] = await Promise.all([
    shopSettings(db),
    reading,
    inJobState(db, state, wanted, reading).then((within) => listed.list(db, wanted, within)),
    first ? listed.list(db, { limit: ON_A_PAGE }, unevenAmong(CLOSED_LAST, ON_A_PAGE)).then(({ rows }) => rows) : [],
    isUnsettled(c),
  ]);
  const shown = [...page.rows, ...uneven];
  const ids = shown.map(({ id }) => id);
  const [cards, standing, counts, begun] = await Promise.all([
    jobCards(db, shown),
    standings(db, ids, clock(), { agreed, amounts: true }),
    jobsInEach(db, agreed),
    after === undefined ? begunBy(c, settings) : [],
  ]);
  const every = [...counts.values()].reduce((sum, each) => sum + each, 0);
  const isShown = (name: JobState | "open") => name === "open" || name === "closed" || name === state || counts.has(name);
  const hrefOf = (name: JobState | "open") => (name === "open" ? "/" : `/?state=${encodeURIComponent(name)}`);
  // Told by number: jobs brought in from elsewhere have ids of another day.
  const byNumber = cards.toSorted((a, b) => b.job.number.localeCompare(a.job.number, "en", { numeric: true }));
  const told = byNumber.map(({ id, job, owner, unit, latest }) => {
    const own = standing.get(id)!;
    const { state: stands, next, by, amount, currency, closedOn, paid, deposit } = own;
    const href = hrefOfNext(next, id, latest?.id);
    return {
      ...{ id, number: job.number, owner, unit, state: stands },
      next: {
        says: next === "nothing" ? "" : next,
        ...(href && { href }),
        ...(by && { by, dayIs: dayIs(own) }),
      },
      ...(closedOn && { closedOn }),
      ...(paid !== undefined && currency && { paid: { total: paid, currency } }),
      ...(deposit !== undefined && next === "take the deposit" && { deposit }),
      ...(amount !== undefined && currency
        ? { amount: { total: amount, currency, offered: false } }
        : stands !== "declined" &&
          latest?.total !== undefined && { amount: { total: latest.total, currency: latest.currency, offered: true } }),
    };
  });
  const rows = told.filter((row) => !first || row.state !== "closed");
  return pageAnswer(
    c,
    <JobList
      frame={frameFor(c, settings.name)}
      locale={settings.locale}
      rows={rows}
      states={(["open", ...JOB_STATES] as const).filter(isShown).map((name) => ({
        name,
        ...(name !== "closed" && { jobs: name === "open" ? every : (counts.get(name) ?? 0) }),
        ...(name !== state && { href: hrefOf(name) }),
      }))}
      first={first}
      unpaid={told
        .filter((row) => first && row.state === "closed" && row.next.says !== "")
        .sort((a, b) => a.closedOn!.localeCompare(b.closedOn!))}
      none={rows.length === 0 && every === 0 && (await listed.list(db, { limit: 1 })).rows.length === 0}
      demo={rows.some(({ id }) => id === DEMO_JOB)}
      unsettled={unsettled}
      begun={begun}
      untouched={rows.length === 0 && c.var.staff === undefined && (await isUntouched(c.var))}
      {...(page.next && { next: `${hrefOf(state)}${state === "open" ? "?" : "&"}after=${encodeURIComponent(page.next)}` })}
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
  const standing = await standingProps(c, subject);
  const { changes } = compared(stands);
  const [latest, ...older] = [...stands.revisions].reverse().map((estimate) => revisionOf(stands, estimate));
  const revisions = latest ? [forTheShop(asAnswered(stands, latest)), ...older] : [];
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
      handBack={{ href: `/jobs/${job.id}/hand-back`, ...(stands.closedOn && { closedOn: stands.closedOn }) }}
      say={SAID.find(([name]) => c.req.query(name) !== undefined)?.[1]}
      {...(standing && { standing })}
      {...(changes && { changed: changes })}
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

/** What is agreed of it, priced as that set: the figures that board, bench and owner's page go by. */
function asAnswered({ agreed, priced }: JobAsItStands, revision: Revision): Revision {
  const agreement = agreed()?.agreement;
  if (agreement?.estimateId !== revision.id) return revision;
  const set = priced(revision.id, agreement);
  return "is" in set || set.sheet === revision.sheet ? revision : { ...revision, ...set, answered: true };
}

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
    soFar: soFar(job, revision),
  };
}
