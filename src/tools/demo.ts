/** A shop's first content: what fixtures/demo/shop.json holds, or nothing but settings and a rate book. */
import { uuidv7 } from "uuidv7";
import type { z } from "zod";
import type { Act, Desk } from "../acts/act.js";
import { addEstimate } from "../acts/beginDraft.js";
import { carryOut } from "../acts/carryOut.js";
import { jobsRead } from "../acts/job.js";
import { addJob } from "../acts/visit.js";
import type { Offer, PartKind, RateBook } from "../estimating/input.js";
import { papersOf } from "../http/doors/papers.js";
import type { Database, Instant } from "../records/database.js";
import type { BareInput } from "../records/estimates.js";
import type { JobValue } from "../records/jobs.js";
import { type Model, models } from "../records/models.js";
import type { Noun } from "../records/noun.js";
import { offers } from "../records/offers.js";
import { type Owner, owners } from "../records/owners.js";
import { partKinds } from "../records/partKinds.js";
import { rateBooks } from "../records/rateBooks.js";
import { type Settings, SHOP, settings } from "../records/settings.js";
import type { Write } from "../records/trail.js";
import { type UnitRecord, units } from "../records/units.js";

/** In the name of nobody who is signed in, unless `more` says. Throws where it is refused: what a tool does is ours. */
export async function doneAt<F extends z.ZodObject, A, On>(
  db: Database,
  at: Instant,
  act: Act<F, A, On>,
  value: unknown,
  on: On,
  more: Partial<Desk> = {},
): Promise<A> {
  const desk = { db, at, now: new Date(at), job: jobsRead(db), papers: papersOf(db), newId: uuidv7, ...more };
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

export const loadEmptyShop = (db: Database, shop: EmptyShop, at: Instant): Promise<void> => written(db, firstRows(db, shop, at));

const firstRows = (db: Database, { rateBook, settings: shop }: EmptyShop, at: Instant) => [
  rateBooks.made(db, rateBook.id, rateBook, at, rateBook.version),
  settings.made(db, SHOP, shop, at),
];

/** All but the jobs. */
export async function loadRecords(db: Database, demo: Demo, at: Instant): Promise<void> {
  const rows = <Value extends object>(noun: Noun<Value>, values: readonly WithId<Value>[]) =>
    values.map(({ id, ...value }) => noun.made(db, id, value as unknown as Value, at));
  await written(db, [
    ...firstRows(db, demo, at),
    ...rows(models, demo.models),
    ...rows(owners, demo.owners),
    ...rows(units, demo.units),
    ...rows(partKinds, demo.partKinds),
    ...rows(offers, demo.offers),
  ]);
}

type DemoJob = Demo["jobs"][number];

/** Without its estimates. */
export async function loadJob(db: Database, { estimates: _, ...job }: DemoJob, at: Instant): Promise<void> {
  await doneAt(db, at, addJob, job, {});
}

export async function loadDraft(
  db: Database,
  { id: rateBookId, version: rateBookVersion }: RateBook,
  jobId: string,
  { id, input }: DemoJob["estimates"][number],
  at: Instant,
): Promise<void> {
  await doneAt(db, at, addEstimate, { id, jobId, rateBookId, rateBookVersion, input }, {});
}

/** Throws when the content does not fit together: the demo is ours. */
export async function loadDemo(db: Database, demo: Demo, at: Instant): Promise<void> {
  await loadRecords(db, demo, at);
  for (const job of demo.jobs) {
    await loadJob(db, job, at);
    for (const draft of job.estimates) await loadDraft(db, demo.rateBook, job.id, draft, at);
  }
}

async function written(db: Database, rows: readonly { readonly write: Write }[]): Promise<void> {
  const [first, ...rest] = rows.map(({ write }) => write);
  await db.batch([first!, ...rest]);
}
