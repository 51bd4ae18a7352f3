/** Who and where, as it stands on the documents of one estimate. An issued estimate carries its own. */
import type { Paperwork, Party } from "../estimating/input.js";
import type { Database } from "../records/database.js";
import type { Estimate } from "../records/estimates.js";
import { jobs } from "../records/jobs.js";
import { owners } from "../records/owners.js";
import { shopSettings } from "../records/settings.js";
import { headOf, shortHead } from "../records/trail.js";
import { today } from "./today.js";

export async function paperworkOf(db: Database, estimate: Estimate, now: Date): Promise<Paperwork> {
  if (estimate.issuedAt && estimate.input.paperwork) return estimate.input.paperwork;
  const shop = await shopSettings(db);
  const job = await jobs.find(db, estimate.jobId);
  const owner = job && (await owners.find(db, job.ownerId));
  return {
    ...estimate.input.paperwork,
    shop: party(shop),
    ...(owner && { owner: party(owner) }),
    ...(job && { number: job.number }),
    revision: estimate.revision,
    date: today(now, shop.timeZone),
    ...(shop.terms && { terms: shop.terms }),
    paper: shop.paper,
    locale: shop.locale,
    chainHead: shortHead(await headOf(db, estimate.jobId)),
  };
}

function party({ name, address, phone, email, taxNumber, registration }: Party): Party {
  return {
    name,
    ...(address && { address }),
    ...(phone && { phone }),
    ...(email && { email }),
    ...(taxNumber && { taxNumber }),
    ...(registration && { registration }),
  };
}
