/** A standing agreement's own set, priced. */
import { type PricedSet, pricedSet } from "../estimating/agreement/choices.js";
import type { Agreement } from "./agreements.js";
import type { Database } from "./database.js";
import { estimates } from "./estimates.js";

export async function pricedAgreement(db: Database, agreement: Agreement | undefined): Promise<PricedSet | undefined> {
  const estimate = agreement && (await estimates.find(db, agreement.estimateId));
  if (!estimate) return undefined;
  const priced = pricedSet(await estimates.inputOf(db, estimate), agreement, estimate.sheet);
  if ("is" in priced) throw new Error(`Agreement ${agreement.id} names what its revision does not have.`);
  return priced;
}
