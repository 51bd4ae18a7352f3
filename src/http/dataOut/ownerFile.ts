/** Everything that is held about one owner. Secrets of links are not: only their hashes are on record, and they tell of nobody. */
import { answersOf } from "../../records/agreements.js";
import { closeOuts } from "../../records/closeOuts.js";
import type { Database } from "../../records/database.js";
import { estimates } from "../../records/estimates.js";
import { issues } from "../../records/issues.js";
import { jobs } from "../../records/jobs.js";
import { overridesOf } from "../../records/overrides.js";
import { ownerLinks } from "../../records/ownerLinks.js";
import { owners } from "../../records/owners.js";
import { listPhotos } from "../../records/photos.js";
import { questions } from "../../records/questions.js";
import { eventsOf } from "../../records/trail.js";
import { unitsOf } from "../../records/units.js";
import { entriesOf } from "../../records/workLog.js";

/** Undefined where there is no such owner. */
export async function ownerFile(db: Database, ownerId: string, at: string) {
  const owner = await owners.find(db, ownerId);
  if (!owner) return undefined;
  const ofJobs = [];
  for (const job of await jobs.ofOwner(db, ownerId)) {
    const { id } = job;
    ofJobs.push({
      ...job,
      // The shop's rates are not the owner's; what they came to stands in each sheet.
      revisions: (await estimates.ofJob(db, id)).map(({ rateBookId: _, rateBookVersion: __, ...revision }) => revision),
      issues: await issues.ofJob(db, id),
      agreements: await answersOf(db, id),
      links: await ownerLinks.ofJob(db, id),
      questions: await questions.ofJob(db, id),
      workLog: await entriesOf(db, id),
      overrides: await overridesOf(db, id),
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
