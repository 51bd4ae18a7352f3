/** A shop's first content: what fixtures/demo/shop.json holds, or nothing but settings and a rate book. */
import type { Offer, PartKind, RateBook } from "../estimating/input.js";
import type { Added } from "./answers.js";
import type { Database, Instant } from "./database.js";
import { type BareInput, estimates } from "./estimates.js";
import { type JobValue, jobs } from "./jobs.js";
import { type Model, models } from "./models.js";
import { offers } from "./offers.js";
import { type Owner, owners } from "./owners.js";
import { partKinds } from "./partKinds.js";
import { rateBooks } from "./rateBooks.js";
import { type Settings, SHOP, settings } from "./settings.js";
import { type UnitRecord, units } from "./units.js";

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
      added(await estimates.add(db, estimateId, { jobId: id, rateBookId, rateBookVersion, input }, at));
    }
  }
}

function added<T>(answer: Added<T>): T {
  if (answer.is === "added") return answer.record;
  throw new Error(answer.is === "taken" ? "An id stands twice." : `No ${answer.field} '${answer.id}'.`);
}
