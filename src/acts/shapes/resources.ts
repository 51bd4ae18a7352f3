/** What the API keeps, noun by noun: the value a client gives, and the record it gets back. */
import { z } from "zod";
import { PROFILES } from "../../estimating/law/profiles.js";
import { bareInput, footer, language, locale, logoId, partyKeys } from "./estimateInput.js";
import { offer, offerState, partKind } from "./part.js";
import { currency, hazard, ident, label, line, maybe, prose, scarcity } from "./primitives.js";
import { rateBook } from "./rateBook.js";
import { sheet } from "./sheet.js";
import { teardownMap } from "./teardownMap.js";

const PROFILE_IDS = PROFILES.map(({ id }) => id) as [string, ...string[]];
const MOST = 1_000_000_000_000;
const whole = z.int().min(0).max(MOST);
const positive = z.int().min(1).max(MOST);

const kept = {
  id: z.string(),
  version: z.int().meta({ description: "Moves by one with each change; the ETag holds it" }),
  createdAt: z.string().meta({ format: "date-time" }),
  updatedAt: z.string().meta({ format: "date-time" }),
};
export const newId = { id: maybe(ident).meta({ description: "Chosen by the server when absent" }) };

export const owner = z.strictObject({
  ...partyKeys,
  name: label,
  notes: maybe(prose),
  language: maybe(language),
  locale: maybe(locale),
});
export const keptOwner = owner.extend(kept).meta({ id: "Owner" });

export const unitRecord = z.strictObject({
  ownerId: ident,
  modelId: maybe(ident),
  maker: label,
  model: label,
  serial: maybe(line),
  declaredValue: maybe(whole),
  hazards: maybe(z.array(hazard)),
  notes: maybe(prose),
});
export const keptUnit = unitRecord.extend(kept).meta({ id: "UnitRecord" });

export const model = z.strictObject({
  maker: label,
  model: label,
  map: teardownMap,
  hazards: maybe(z.array(hazard)),
  notes: maybe(prose),
});
export const keptModel = model.extend(kept).meta({ id: "Model" });

const { id: _kindId, ...kindKeys } = partKind.shape;
export const partKindValue = z.strictObject({
  ...kindKeys,
  name: label,
  leads: maybe(whole),
  stock: maybe(whole),
  scarcity: maybe(scarcity),
});
export const keptPartKind = partKindValue.extend(kept).meta({ id: "PartKindRecord" });

const { id: _offerId, ...offerKeys } = offer.shape;
export const offerValue = z.strictObject({
  ...offerKeys,
  price: whole,
  packSize: positive,
  minimumPacks: maybe(positive),
  available: maybe(whole),
  leadDays: whole,
  state: offerState,
  freight: maybe(whole),
});
export const keptOffer = offerValue.extend(kept).meta({ id: "OfferRecord" });

export const keptRateBook = z.strictObject({ ...kept, book: rateBook }).meta({ id: "RateBookRecord" });

export const job = z.strictObject({
  ownerId: ident,
  unitId: ident,
  arrivedOn: z.iso.date().meta({ example: "2026-11-25" }),
  reported: maybe(prose),
  condition: maybe(prose),
  accessories: maybe(z.array(line)),
  notes: maybe(prose),
});
export const keptJob = job.extend({ ...kept, number: z.string().meta({ example: "J-2026-0001" }) }).meta({ id: "Job" });

export const estimateValue = z.strictObject({
  jobId: ident,
  rateBookId: ident,
  rateBookVersion: z.int().min(1).max(MOST),
  input: bareInput,
});
export const keptEstimate = estimateValue
  .extend({
    ...kept,
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
export const keptSettings = settingsValue.extend(kept).meta({ id: "Settings" });

function isTimeZone(text: string): boolean {
  try {
    return new Intl.DateTimeFormat("en", { timeZone: text }) !== undefined;
  } catch {
    return false;
  }
}
