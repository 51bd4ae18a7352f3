/** What a job is closed with; figures invented. */
import type { Closing } from "../../../src/acts/closeJob.js";

export const HAND = "Wilhelmina Stråhle";

export const closing = (changed: Partial<Closing> = {}): Closing => ({
  ...{ by: HAND, closedOn: "2026-12-04", basis: "fixed price", warrantyDays: 90, oldParts: { is: "returned" } },
  untouched: { all: "done, not timed" },
  unlogged: "none used",
  payments: [{ on: "2026-11-26", amount: 5000, for: "deposit" }],
  costs: { perHour: {}, otherwise: 2800, other: [] },
  ...changed,
});
