/** What was agreed to, or is about to be, priced by the engine as a whole. */
import { estimate as compute } from "../estimating/estimate.js";
import type { EstimateInput } from "../estimating/input.js";
import type { Sheet } from "../estimating/sheet.js";
import { agreedInput, unknownIn } from "./agreedInput.js";
import type { AgreedSet, Agreement } from "./agreements.js";
import type { Database } from "./database.js";
import { estimates } from "./estimates.js";

export interface PricedSet {
  readonly input: EstimateInput;
  readonly sheet: Sheet;
}

/** An id that the revision does not have, or that may not be left out. */
export interface UnknownInSet {
  readonly is: "unknown";
  readonly field: "chosen" | "struck";
  readonly id: string;
}

export function pricedSet(input: EstimateInput, set: AgreedSet): PricedSet | UnknownInSet {
  const [unknown] = Object.entries(unknownIn(input, set));
  if (unknown) return { is: "unknown", field: unknown[0] as "chosen" | "struck", id: unknown[1] };
  const agreed = agreedInput(input, set);
  const outcome = compute(agreed);
  if (!outcome.ok) throw new Error("An issued estimate without some of its work has problems.");
  return { input: agreed, sheet: outcome.sheet };
}

/** A standing agreement's own set. */
export async function pricedAgreement(db: Database, agreement: Agreement | undefined): Promise<PricedSet | undefined> {
  const estimate = agreement && (await estimates.find(db, agreement.estimateId));
  if (!estimate) return undefined;
  const priced = pricedSet(await estimates.inputOf(db, estimate), agreement);
  if ("is" in priced) throw new Error(`Agreement ${agreement.id} names what its revision does not have.`);
  return priced;
}
