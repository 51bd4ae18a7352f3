/** What the API keeps, noun by noun: the value a client gives, and the record it gets back. */
import { z } from "zod";
import { bareInput } from "./estimateInput.js";
import { ident, maybe } from "./primitives.js";
import { sheet } from "./sheet.js";

const MOST = 1_000_000_000_000;

/** What keeping a record adds to it. */
export const keptKeys = {
  id: z.string(),
  version: z.int().meta({ description: "Moves by one with each change; the ETag holds it" }),
  createdAt: z.string().meta({ format: "date-time" }),
  updatedAt: z.string().meta({ format: "date-time" }),
};
export const estimateValue = z.strictObject({
  jobId: ident,
  rateBookId: ident,
  rateBookVersion: z.int().min(1).max(MOST),
  input: bareInput,
});
export const keptEstimate = estimateValue
  .extend({
    ...keptKeys,
    revision: z.int(),
    sheet: maybe(sheet),
    contentHash: z.string(),
    issuedAt: maybe(z.string()),
    issuedBy: maybe(z.string()),
  })
  .meta({ id: "Estimate" });
