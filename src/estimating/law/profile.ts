/**
 * Agreement profiles: what a place's law or usage asks of a written estimate, as dated data with its source.
 * Not legal advice: every document and page that shows one says 'check your local law'.
 */

import type { IsoDate, Percent } from "../input.js";
import type { SpokenField } from "./spoken.js";

/** Fields a document must carry; `missingFields` looks each up. */
export const DOCUMENT_FIELDS = [
  "shop name",
  "shop address",
  "shop phone",
  "shop e-mail",
  "shop registration",
  "owner name",
  "owner address",
  "date",
  "maker and model",
  "serial",
  "reported fault",
  "work described",
  "total",
  "highest price",
  "validity",
  "days to complete",
  "price of diagnosis",
  "price of teardown and reassembly",
  "stored data notice",
  "used parts notice",
] as const;
export type DocumentField = (typeof DOCUMENT_FIELDS)[number];

export interface AgreementProfile {
  readonly id: string;
  readonly name: string;
  /** Absent where the source does not say. */
  readonly inForceFrom?: IsoDate;
  /** Day this entry was compared with its source. */
  readonly readOn: IsoDate;
  readonly source: string;
  /** How the source was read: the text itself, another's account of it, or not at all. */
  readonly basis: "text read" | "secondary source" | "shop's own";
  /** What in this entry is from memory or our own choice, and not from the source. */
  readonly notFromSource: readonly string[];
  /** Percent the bill may exceed `toleranceOn` without a new agreement; null: the law states no figure, and the tool then allows none. */
  readonly tolerancePercent: Percent | null;
  /** The estimated amount, whatever headroom the shop prints above it; or the highest price the document states. */
  readonly toleranceOn: "estimate" | "highest price";
  /** Whether the agreed amount and the tolerance are measured with tax. */
  readonly taxCounts: boolean;
  /** Days the estimate binds at least; a longer time of the rate book stands. */
  readonly validityDays?: number;
  readonly writtenEstimate: "required" | "on request" | "not stated";
  /** Whether a spoken agreement to more work holds. */
  readonly spokenAgreement: "holds when recorded" | "writing advised" | "not stated";
  /** What a record of one says beyond who agreed, who heard it, when, and to what amount. */
  readonly spokenFields: readonly SpokenField[];
  readonly partsReturned: "returned" | "in most cases" | "on request" | "not stated";
  readonly requires: readonly DocumentField[];
  /** Words the document may not use for its amount. */
  readonly neverCalled: readonly string[];
  readonly warrantyMonths?: number;
  readonly itemisedBill?: { readonly askWithinDays: number; readonly giveWithinDays: number };
  readonly notes: readonly string[];
}
