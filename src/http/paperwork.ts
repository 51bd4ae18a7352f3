/** Who and where, as it stands on the documents of one estimate. An issued estimate carries its own. */

import { today } from "../acts/today.js";
import type { Paperwork, Party } from "../estimating/input.js";
import type { Database } from "../records/database.js";
import type { Estimate } from "../records/estimates.js";
import { jobs } from "../records/jobs.js";
import { type Owner, owners } from "../records/owners.js";
import { type Settings, shopSettings } from "../records/settings.js";
import { headOf, shortHead } from "../records/trail.js";
import { languageOf, usualLocale } from "../wording/tongue.js";

export async function paperworkOf(db: Database, estimate: Estimate, now: Date): Promise<Paperwork> {
  const own = estimate.input.paperwork;
  if (estimate.issuedAt && own) return own;
  const shop = await shopSettings(db);
  const job = await jobs.find(db, estimate.jobId);
  const owner = job && (await owners.find(db, job.ownerId));
  return {
    ...own,
    ...shopPaperwork(shop, estimate.input.policy?.profile, owner),
    ...(own?.paper && { paper: own.paper }),
    ...(owner && { owner: party(owner) }),
    ...(job && { number: job.number }),
    revision: estimate.revision,
    date: today(now, shop.timeZone),
    chainHead: shortHead(await headOf(db, estimate.jobId)),
  };
}

/** What the shop's settings put on a document for an owner under an agreement profile. */
export function shopPaperwork(shop: Settings, profile?: string, owner?: Owner): Paperwork {
  const terms = (profile !== undefined && shop.profileTerms?.[profile]) || shop.terms;
  return {
    shop: party(shop),
    ...(terms && { terms }),
    paper: shop.paper,
    ...tongueFor(shop, owner),
    ...(shop.footer && { footer: shop.footer }),
    ...(shop.logo && { logo: shop.logo }),
  };
}

/** The owner's language and way of writing figures, or the shop's. Figures follow the language where only that was chosen. */
function tongueFor(shop: Settings, owner?: Owner): Pick<Paperwork, "language" | "locale"> {
  const [ours, theirs] = [languageOf(shop.language), languageOf(owner?.language ?? shop.language)];
  return { language: theirs, locale: owner?.locale ?? (theirs === ours ? shop.locale : usualLocale(theirs)) };
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
