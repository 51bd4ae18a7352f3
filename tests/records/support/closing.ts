/** What a job is closed with, printed for real; figures invented. */
import { finalAccountPdf } from "../../../src/documents/finalAccountPdf.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { Closing } from "../../../src/records/closing.js";

export const HAND = "Wilhelmina Stråhle";

export const closing = (changed: Partial<Closing> = {}): Closing => ({
  ...{ id: "closed", overrideId: "closed above", by: HAND, found: [] },
  terms: {
    basis: "fixed price",
    on: "2026-12-04",
    payments: [{ on: "2026-11-26", amount: 5000, for: "deposit" }],
    warrantyDays: 90,
    oldParts: { is: "returned" },
  },
  costs: { perHour: {}, otherwise: 2800, other: [] },
  print: async (account, input, corrected) => {
    const outcome = estimate(input);
    if (!outcome.ok) throw new Error("What was agreed has problems.");
    return (await finalAccountPdf(account, { input, sheet: outcome.sheet }, { corrected })).bytes;
  },
  ...changed,
});
