/** A shop's first content: what fixtures/demo/shop.json holds, or nothing but settings and a rate book. */
import { uuidv7 } from "uuidv7";
import type { z } from "zod";
import type { Act } from "../acts/act.js";
import { addEstimate } from "../acts/beginDraft.js";
import { carryOut } from "../acts/carryOut.js";
import { jobsRead } from "../acts/job.js";
import type { Offer, PartKind, RateBook } from "../estimating/input.js";
import { papersOf } from "../http/doors/papers.js";
import type { Added } from "../records/answers.js";
import type { Database, Instant } from "../records/database.js";
import type { BareInput } from "../records/estimates.js";
import { type JobValue, jobs } from "../records/jobs.js";
import { type Model, models } from "../records/models.js";
import { offers } from "../records/offers.js";
import { type Owner, owners } from "../records/owners.js";
import { partKinds } from "../records/partKinds.js";
import { rateBooks } from "../records/rateBooks.js";
import { type Settings, SHOP, settings } from "../records/settings.js";
import { type UnitRecord, units } from "../records/units.js";

/** In the name of nobody who is signed in. Throws where it is refused: what a tool does is ours. */
export async function doneAt<F extends z.ZodObject, A, On>(
  db: Database,
  at: Instant,
  act: Act<F, A, On>,
  value: unknown,
  on: On,
  /** The id of what is made. */
  id?: string,
): Promise<A> {
  const desk = { db, at, now: new Date(at), job: jobsRead(db), papers: papersOf(db), newId: () => id ?? uuidv7() };
  const done = await carryOut(act, desk, act.fields.parse(value), on);
  if (!done.ok) throw new Error(`${act.title}: ${JSON.stringify(done.refusal)}`);
  if ("replayed" in done) throw new Error(`${act.title}: was done before.`);
  return done.answer;
}

type WithId<T> = T & { readonly id: string };

export interface EmptyShop {
  readonly settings: Settings;
  readonly rateBook: RateBook;
}

/** Records that name one another do so by id. */
export interface Demo extends EmptyShop {
  readonly models: readonly WithId<Model>[];
  readonly owners: readonly WithId<Owner>[];
  readonly units: readonly WithId<UnitRecord>[];
  readonly partKinds: readonly PartKind[];
  readonly offers: readonly Offer[];
  /** In the order of their numbers. */
  readonly jobs: readonly (WithId<JobValue> & { readonly estimates: readonly WithId<{ readonly input: BareInput }>[] })[];
}

export async function loadEmptyShop(db: Database, shop: EmptyShop, at: Instant): Promise<void> {
  added(await rateBooks.add(db, shop.rateBook, at));
  added(await settings.add(db, SHOP, shop.settings, at));
}

/** Throws when the content does not fit together: the demo is ours. */
export async function loadDemo(db: Database, demo: Demo, at: Instant): Promise<void> {
  await loadEmptyShop(db, demo, at);
  for (const { id, ...value } of demo.models) added(await models.add(db, id, value, at));
  for (const { id, ...value } of demo.owners) added(await owners.add(db, id, value, at));
  for (const { id, ...value } of demo.units) added(await units.add(db, id, value, at));
  for (const { id, ...value } of demo.partKinds) added(await partKinds.add(db, id, value, at));
  for (const { id, ...value } of demo.offers) added(await offers.add(db, id, value, at));
  for (const { id, estimates: revisions, ...value } of demo.jobs) {
    added(await jobs.add(db, id, value, at));
    for (const { id: estimateId, input } of revisions) {
      const { id: rateBookId, version: rateBookVersion } = demo.rateBook;
      await doneAt(db, at, addEstimate, { id: estimateId, jobId: id, rateBookId, rateBookVersion, input }, {});
    }
  }
}

function added<T>(answer: Added<T>): T {
  if (answer.is === "added") return answer.record;
  throw new Error(answer.is === "taken" ? "An id stands twice." : `No ${answer.field} '${answer.id}'.`);
}
