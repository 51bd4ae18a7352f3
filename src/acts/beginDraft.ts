/** The next draft of a job: as a program gives it, or going on from the last revision, or from what was said when the unit came in. */
import { z } from "zod";
import { afterAnswer, afterFinding } from "../estimating/agreement/choices.js";
import { type Estimate, type EstimateValue, estimates, factsOf, onTop, priced, withFacts } from "../records/estimates.js";
import { jobs } from "../records/jobs.js";
import { rateBooks } from "../records/rateBooks.js";
import type { Write } from "../records/trail.js";
import { units } from "../records/units.js";
import { act, type Desk, type Done, refused, wrongField } from "./act.js";
import { draftFields, factsSaid, reckoned, recordsNamed, saysAny } from "./draft.js";
import type { JobAsItStands } from "./job.js";
import { decidedFor } from "./paperwork.js";
import { newId } from "./record.js";
import { ident } from "./shapes/primitives.js";
import { keptEstimate } from "./shapes/resources.js";
import { today } from "./today.js";

const { rateBookId, rateBookVersion, input, unfinished } = draftFields;

export const addEstimate = act({
  name: "addEstimate",
  title: "Add an estimate",
  fields: z.strictObject({ ...newId, jobId: ident, rateBookId, rateBookVersion, input, unfinished }).meta({ id: "DraftAdded" }),
  answer: keptEstimate,
  decide: async (desk, said) => {
    const { db, at } = desk;
    const [job, records, taken] = await Promise.all([
      desk.job(said.jobId),
      recordsNamed(db, said),
      said.id === undefined ? undefined : estimates.find(db, said.id),
    ]);
    if (!job)
      return wrongField("/jobId", "record unknown", `jobId is '${said.jobId}', which names no record; add that one first.`);
    // Nothing was seen of the records before, so what stands there is not undone.
    const { facts, unit, visit, clashes } = factsSaid(factsOf(job.unit, job.job), { ...said, was: { unit: {} } });
    if (clashes.length > 0) return refused("input refused", { errors: clashes });
    const value = {
      ...{ jobId: job.id, rateBookId: said.rateBookId, rateBookVersion: said.rateBookVersion },
      input: withFacts(said.input, facts),
    };
    const made = await reckoned(said, records, value.input);
    if ("refused" in made) return made;
    if (job.draft || taken) return refused("id taken");
    return begun(desk, job, said.id ?? desk.newId(), { ...value, ...made }, [
      ...(saysAny(unit) ? [units.changed(db, job.unit, unit, at).write] : []),
      ...(saysAny(visit) ? [jobs.changed(db, job.job, visit, at).write] : []),
    ]);
  },
});

export const addNextEstimate = act({
  name: "addNextEstimate",
  title: "The next revision as a draft, copied from the last one",
  fields: z.strictObject({}),
  answer: keptEstimate,
  decide: async (desk, _, { job: id }: { readonly job: string }) => {
    const job = await desk.job(id);
    if (!job) return refused("not found", { detail: "There is no such job." });
    if (job.draft) return draftOpen(job.draft);
    const { book, ...value } = job.latest ? onceMore(job, job.latest) : await firstDraft(desk, job);
    const { problems: __, ...made } = await priced({ ...value.input, rateBook: book });
    return begun(desk, job, desk.newId(), { ...value, ...made });
  },
});

export const draftOpen = (current: Estimate) =>
  refused("draft open", {
    headers: { location: `/api/estimates/${encodeURIComponent(current.id)}`, etag: `"${current.version}"` },
    current,
  });

/** The latest as it was answered, with the facts of today and of the paperwork it went out with what was decided for it and the photos. */
export function onceMore(
  job: JobAsItStands,
  { id, revision, rateBookId, rateBookVersion, input: { paperwork, ...last } }: Estimate,
) {
  const answer = job.answerTo(id);
  const agreed = job.agreedAsSaid(revision)?.input.items;
  const taken = answer ? afterAnswer(last.items, { ...answer, declined: answer.answer === "declined" }, agreed) : last.items;
  const stands = job.agreedAsSaid()?.input;
  const rest = { ...last, items: stands ? afterFinding(taken, stands, job.found()) : taken };
  const photos = paperwork?.photos?.filter(({ id }) => job.photos.some((photo) => photo.id === id)) ?? [];
  // What was as usual follows what is usual by now.
  const { paper, detail, ...said } = decidedFor(paperwork);
  const kept = {
    ...said,
    ...(paper && paper !== job.settings.paper && { paper }),
    ...(detail && detail !== job.settings.detail && { detail }),
    ...(photos.length > 0 && { photos }),
  };
  const bare = withFacts({ ...rest, ...(saysAny(kept) && { paperwork: kept }) }, factsOf(job.unit, job.job));
  const { rateBook, ...input } = job.inputOf({ rateBookId, rateBookVersion, input: bare });
  return { jobId: job.id, rateBookId, rateBookVersion, input, book: rateBook };
}

/** What was said when the unit came in. */
export async function firstDraft({ db, now }: Pick<Desk, "db" | "now">, { id, job, unit, settings }: JobAsItStands) {
  const day = today(now, settings.timeZone);
  const kept = await rateBooks.inForce(db, settings.rateBookId, day);
  if (!kept) throw new Error("The shop's rate book is gone.");
  const { book } = kept;
  const bare = {
    ...{ schema: 1 as const, asOf: day, currency: book.currency, items: [] },
    unit: { maker: "", model: "" },
    policy: { benchQueueDays: settings.benchQueueDays },
  };
  return { jobId: id, rateBookId: kept.id, rateBookVersion: kept.version, input: withFacts(bare, factsOf(unit, job)), book };
}

/** `beside`: what is written of the job and its unit. */
export function begun(
  { db, at }: Desk,
  job: JobAsItStands,
  id: string,
  value: EstimateValue & Pick<Estimate, "sheet" | "contentHash">,
  beside: readonly Write[] = [],
): Done<Estimate> {
  const revision = (job.latest?.revision ?? 0) + 1;
  const { record, write } = estimates.made(db, { ...value, id, revision }, onTop(job.unit, job.job) + beside.length, at);
  return {
    answer: record,
    writes: [write, ...beside],
    trail: { job: job.id, head: job.head, events: [{ is: "draft begun", content: { estimate: id, revision } }] },
  };
}
