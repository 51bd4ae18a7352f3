/** A work log as the agreement measures it, to hold it against the limit (`mayLog`). */
import type { LoggedWork } from "../../agreement/workLog.js";
import type { EstimateInput } from "../../input.js";
import { fromMilli } from "../../money/scales.js";
import { priceLot } from "../../parts/lot.js";
import { milliSpent } from "./spent.js";
import type { PartUsed, TimeEntry } from "./workLog.js";

/** What a time entry adds. */
export const timeAsLogged = (entry: TimeEntry): LoggedWork => ({
  ...(entry.work.is === "item" && { item: entry.work.id }),
  minutes: fromMilli(milliSpent(entry)),
  ...(entry.labourClass !== undefined && { labourClass: entry.labourClass }),
});

/** What a part used adds: its selling price, which is what was paid with the rate book's mark-up. */
export const partAsLogged = (used: PartUsed, { rateBook }: Pick<EstimateInput, "rateBook">): LoggedWork => ({
  item: used.item,
  parts: sellingPrice([used], rateBook).amount,
});

/** Pieces bought at one price, as one lot. */
export function sellingPrice(used: readonly Pick<PartUsed, "count" | "paid">[], { parts }: EstimateInput["rateBook"]) {
  const pieces = used.reduce((sum, { count }) => sum + count, 0);
  const { price, per } = used[0]!.paid;
  return priceLot({ way: "guess", pieces, charged: pieces, price, per }, parts);
}
