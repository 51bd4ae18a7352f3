/** What the API keeps, noun by noun: the value a client gives, and the record it gets back. */
import { z } from "zod";
import { PROFILES } from "../../estimating/law/profiles.js";
import { bareInput, footer, language, locale, logoId, partyKeys } from "./estimateInput.js";
import { currency, ident, label, maybe, prose } from "./primitives.js";
import { sheet } from "./sheet.js";

const PROFILE_IDS = PROFILES.map(({ id }) => id) as [string, ...string[]];
const MOST = 1_000_000_000_000;

/** What keeping a record adds to it. */
export const keptKeys = {
  id: z.string(),
  version: z.int().meta({ description: "Moves by one with each change; the ETag holds it" }),
  createdAt: z.string().meta({ format: "date-time" }),
  updatedAt: z.string().meta({ format: "date-time" }),
};
export const newId = { id: maybe(ident).meta({ description: "Chosen by the server when absent" }) };

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

export const settingsValue = z.strictObject({
  ...partyKeys,
  name: label,
  currency,
  locale,
  timeZone: z
    .string()
    .max(60)
    .refine(isTimeZone, { params: { name: "time zone unreadable" } }),
  paper: z.enum(["A4", "Letter"]),
  terms: maybe(z.array(prose)),
  profileTerms: maybe(z.partialRecord(z.enum(PROFILE_IDS), z.array(prose))).meta({
    description: "Terms under one agreement profile, in place of the others",
  }),
  language: maybe(language),
  footer: maybe(footer),
  logo: maybe(logoId),
  rateBookId: ident,
  benchQueueDays: z.int().min(0).max(3650),
});
/** How the papers of one owner are written, and on what a draft is printed. */
export const papersChoice = z.strictObject({
  language: maybe(language),
  locale: maybe(locale),
  paper: maybe(z.enum(["A4", "Letter"])),
});
export const keptSettings = settingsValue.extend(keptKeys).meta({ id: "Settings" });

function isTimeZone(text: string): boolean {
  try {
    return new Intl.DateTimeFormat("en", { timeZone: text }) !== undefined;
  } catch {
    return false;
  }
}
