/** Everything that is held about one owner, who may be given it: rates, and what the shop pays and earns, are not in it. Secrets of links are not: only their hashes are on record, and they tell of nobody. */
import { answersOf } from "../../records/agreements.js";
import { closeOuts } from "../../records/closeOuts.js";
import type { Database } from "../../records/database.js";
import { type Estimate, estimates } from "../../records/estimates.js";
import { issues } from "../../records/issues.js";
import { jobs } from "../../records/jobs.js";
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
  const owner = await owners.find(db, ownerId);
  if (!owner) return undefined;
  const { locale } = await shopSettings(db);
  const ofJobs = [];
  for (const job of await jobs.ofOwner(db, ownerId)) {
    const { id } = job;
    ofJobs.push({
      ...job,
      revisions: await Promise.all((await estimates.ofJob(db, id)).map((revision) => revisionOf(db, revision, locale))),
      issues: await issues.ofJob(db, id),
      agreements: await answersOf(db, id),
      links: await ownerLinks.ofJob(db, id),
      questions: await questions.ofJob(db, id),
      workLog: (await entriesOf(db, id)).map(
        ({ paidPrice: _, paidPer: __, partSource: ___, partReason: ____, ...entry }) => entry,
      ),
      overrides: await overridesOf(db, id),
      payments: await paymentsOf(db, id),
      closeOuts: (await closeOuts.ofJob(db, id)).map(({ closedOn, by, result, corrects, reason, ...record }) => ({
        ...{ id: record.id, at: record.at, closedOn, by, account: result.account },
        ...{ contentHash: record.contentHash, pdfHash: record.pdfHash, corrects, reason },
      })),
      photos: await listPhotos(db, id),
      events: await eventsOf(db, id),
    });
  }
  return { format: "ohmwright owner", version: 1, madeAt: at, owner, units: await unitsOf(db, ownerId), jobs: ofJobs } as const;
}

/** As the owner's page shows it. */
async function revisionOf(db: Database, estimate: Estimate, locale: string) {
  const { rateBookId: _, rateBookVersion: __, sheet, input: kept, ...revision } = estimate;
  const { offers: ___, kinds: ____, ...input } = kept;
  const tongue = { locale: kept.paperwork?.locale ?? locale, currency: kept.currency };
  return { ...revision, input, ...(sheet && { sheet: ownerSheet(sheet, await estimates.inputOf(db, estimate), tongue) }) };
}
