import { z } from "zod";
import { PAPER_DETAILS } from "../../estimating/lists.js";
import { LANGUAGES } from "../../wording/tongue.js";
import { exchangeRate, offer, partKind } from "./part.js";
import { amount, currency, ident, isoDate, line, maybe, percent, prose, scarcity } from "./primitives.js";
import { rateBook } from "./rateBook.js";
import { boardCount, teardownMap } from "./teardownMap.js";
import { unit } from "./unit.js";
import { workItem } from "./workItem.js";

const minimumMarginPercent = maybe(percent);
export const pricing = z
  .discriminatedUnion("is", [
    z.strictObject({ is: z.literal("as counted") }),
    z.strictObject({ is: z.literal("fixed price"), confidencePercent: percent, minimumMarginPercent }),
    z.strictObject({ is: z.literal("time and parts with ceiling"), confidencePercent: percent, minimumMarginPercent }),
    z.strictObject({ is: z.literal("expected cost plus"), percent, minimumMarginPercent }),
  ])
  .meta({ id: "Pricing" });

const discounted = {
  reason: line,
  taxCategory: maybe(ident).meta({ description: "Off the lines of this category of the rate book alone; off all when absent" }),
};

export const policy = z
  .strictObject({
    discount: maybe(z.union([z.strictObject({ percent, ...discounted }), z.strictObject({ amount, ...discounted })])),
    rush: maybe(z.boolean()),
    storageDays: maybe(z.number()),
    diagnosis: maybe(z.boolean()),
    diagnosisLimit: maybe(amount),
    prepaid: maybe(amount),
    benchQueueDays: maybe(z.number()),
    ceiling: maybe(amount),
    scarcityByType: maybe(z.record(ident, scarcity)),
    profile: maybe(ident),
    pricing: maybe(pricing),
  })
  .meta({ id: "Policy" });

export const partyKeys = {
  name: line,
  address: maybe(z.array(line)),
  phone: maybe(line),
  email: maybe(line),
  taxNumber: maybe(line),
  registration: maybe(line),
};
export const party = z.strictObject(partyKeys).meta({ id: "Party" });

/** BCP 47 as Intl reads it. */
export const locale = z
  .string()
  .max(40)
  .refine(isLocale, { params: { name: "locale unreadable" } })
  .meta({ example: "en-GB" });

function isLocale(text: string): boolean {
  try {
    return Intl.getCanonicalLocales(text).length === 1;
  } catch {
    return false;
  }
}

/** Language of a document's own words. */
export const language = z.enum(LANGUAGES).meta({ example: "de" }) as unknown as z.ZodType<string>;
export const paperDetail = z
  .enum(PAPER_DETAILS)
  .meta({ id: "PaperDetail", description: "How much of the reckoning an owner's paper shows" });
export const summary = prose
  .min(1)
  .max(1000)
  .meta({ description: "What is wrong and what will be done, in the technician's words for the owner" });
export const MOST_PACKAGES = 3;
const packageOf = z.strictObject({ name: line.min(1), options: z.array(ident).max(100) }).meta({
  id: "Package",
  description: "A set of options under a name, for the owner to pick; its options by their ids on the sheet",
});
const MOST_FOOTER_LINES = 4;
export const footer = z.array(line).max(MOST_FOOTER_LINES).meta({ description: "Lines at the foot of every page" });
export const logoId = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .meta({ description: "SHA-256 of a logo on record" });

export const ownNames = z.record(prose.min(1), prose.min(1));

export const paperwork = z
  .strictObject({
    shop: maybe(party),
    owner: maybe(party),
    number: maybe(line),
    revision: maybe(z.number()),
    date: maybe(isoDate),
    link: maybe(line),
    code: maybe(line),
    chainHead: maybe(line),
    terms: maybe(z.array(prose)),
    whyChanged: maybe(z.record(ident, prose)),
    paper: maybe(z.enum(["A4", "Letter"])),
    locale: maybe(locale),
    language: maybe(language),
    detail: maybe(paperDetail),
    summary: maybe(summary),
    packages: maybe(z.array(packageOf).max(MOST_PACKAGES)),
    spellings: maybe(z.record(prose.min(1), line)).meta({
      description: "How texts in letters that the fonts lack are spelled on paper, by the text as it stands",
    }),
    names: maybe(ownNames).meta({
      description: "What the shop's own names are called in the paper's language, by the text as it stands",
    }),
    footer: maybe(footer),
    logo: maybe(logoId),
    photos: maybe(
      z.array(z.strictObject({ id: ident, sha256: logoId, caption: maybe(line), turn: maybe(z.int().min(2).max(8)) })).max(100),
    ),
  })
  .meta({ id: "Paperwork" });

const bareKeys = {
  schema: z.literal(1),
  asOf: isoDate,
  currency,
  unit,
  map: maybe(teardownMap),
  boards: maybe(z.array(boardCount)),
  alreadyOpen: maybe(z.array(ident)),
  openAtNoCharge: maybe(z.array(ident)),
  toOpen: maybe(z.array(ident)),
  items: z.array(workItem),
  kinds: maybe(z.array(partKind)),
  offers: maybe(z.array(offer)),
  exchange: maybe(z.array(exchangeRate)),
  policy: maybe(policy),
  paperwork: maybe(paperwork),
};
export const bareInput = z.strictObject(bareKeys).meta({ id: "BareInput" });
export const estimateInput = z.strictObject({ ...bareKeys, rateBook }).meta({ id: "EstimateInput" });
