/** What a piece cost, where nobody says: as its newest offer, or as its type usually does. */
import type { EstimateInput, Offer } from "../estimating/input.js";
import type { Database } from "./database.js";
import { offersFor } from "./offers.js";
import type { LogEntryValue } from "./workLog.js";

type Paid = Pick<LogEntryValue, "paidPrice" | "paidPer">;

/** Nothing where the part is not known either; the log's check names that. */
export async function usualPaid(
  db: Database,
  { partKind, partType, workedOn }: LogEntryValue,
  { kinds = [], offers = [], rateBook, currency }: EstimateInput,
): Promise<Paid> {
  const known = partKind === undefined ? [] : [...(await offersFor(db, [partKind])), ...offers];
  const usable = known.filter((offer) => offer.kind === partKind && offer.currency === currency && offer.on <= workedOn);
  const newest = usable.reduce<Offer | undefined>((last, offer) => (last && last.on >= offer.on ? last : offer), undefined);
  if (newest) return { paidPrice: newest.price, paidPer: newest.packSize };
  const type = partType ?? kinds.find(({ id }) => id === partKind)?.type;
  const usual = rateBook.partTypes.find(({ id }) => id === type)?.typicalCost ?? 0;
  return { paidPrice: usual, paidPer: 1 };
}
