/** Everything that is held about one owner, who may be given it: rates, and what the shop pays and earns, are not in it. Secrets of links are not: only their hashes are on record, and they tell of nobody. */
import { keptBy } from "../../acts/job.js";
import type { RateBook } from "../../estimating/input.js";
import { answersOf } from "../../records/agreements.js";
import { closeOuts } from "../../records/closeOuts.js";
import type { Database } from "../../records/database.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { issues } from "../../records/issues.js";
import { type Job, jobs } from "../../records/jobs.js";
import { overridesOf } from "../../records/overrides.js";
import { ownerLinks } from "../../records/ownerLinks.js";
import { owners } from "../../records/owners.js";
import { paymentsOf } from "../../records/payments.js";
import { listPhotos } from "../../records/photos.js";
import { questions } from "../../records/questions.js";
import { shopSettings } from "../../records/settings.js";
import { eventsOf } from "../../records/trail.js";
import { unitsOf } from "../../records/units.js";
import { entriesOf } from "../../records/workLog.js";
import { ownerSheet } from "../owner/ownerSheet.js";

/** Undefined where there is no such owner. */
export async function ownerFile(db: Database, ownerId: string, at: string) {
  const [owner, { locale }, units, found] = await Promise.all([
    owners.find(db, ownerId),
    shopSettings(db),
    unitsOf(db, ownerId),
    jobs.ofOwner(db, ownerId),
  ]);
  if (!owner) return undefined;
  const bookOf = booksRead(db);
  const ofJobs = found.map((job) => fileOfJob(db, job, (estimate) => revisionOf(estimate, bookOf, locale)));
  return { format: "ohmwright owner", version: 1, madeAt: at, owner, units, jobs: await Promise.all(ofJobs) } as const;
}

async function fileOfJob<T>(db: Database, job: Job, revision: (estimate: Estimate) => Promise<T>) {
  const { id } = job;
  const [revisions, issued, agreements, links, asked, workLog, overrides, payments, closed, photos, events] = await Promise.all([
    ...([estimates.ofJob(db, id), issues.ofJob(db, id), answersOf(db, id), ownerLinks.ofJob(db, id)] as const),
    ...([questions.ofJob(db, id), entriesOf(db, id), overridesOf(db, id), paymentsOf(db, id)] as const),
    ...([closeOuts.ofJob(db, id), listPhotos(db, id), eventsOf(db, id)] as const),
  ]);
  return {
    ...job,
    revisions: await Promise.all(revisions.map(revision)),
    ...{ issues: issued, agreements, links, questions: asked },
    workLog: workLog.map(({ paidPrice: _, paidPer: __, partSource: ___, partReason: ____, ...entry }) => entry),
    ...{ overrides, payments },
    closeOuts: closed.map(({ closedOn, by, result, corrects, reason, ...record }) => ({
      ...{ id: record.id, at: record.at, closedOn, by, account: result.account },
      ...{ contentHash: record.contentHash, pdfHash: record.pdfHash, corrects, reason },
    })),
    ...{ photos, events },
  };
}

type BookOf = (estimate: Estimate) => Promise<RateBook>;

/** Each version once: jobs of a year share a few. */
const booksRead = (db: Database): BookOf =>
  keptBy(
    ({ rateBookId, rateBookVersion }: Estimate) => `${rateBookId} ${rateBookVersion}`,
    async (estimate) => (await estimates.inputOf(db, estimate)).rateBook,
  );

/** As the owner's page shows it. */
async function revisionOf(estimate: Estimate, bookOf: BookOf, locale: string) {
  const { rateBookId: _, rateBookVersion: __, sheet, input: kept, ...revision } = estimate;
  const { offers: ___, kinds: ____, ...input } = kept;
  const tongue = { locale: kept.paperwork?.locale ?? locale, currency: kept.currency };
  return {
    ...revision,
    input,
    ...(sheet && { sheet: ownerSheet(sheet, { ...kept, rateBook: await bookOf(estimate) }, tongue) }),
  };
}
