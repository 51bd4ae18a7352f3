/**
 * The shop's own settings. Its currency is that of the rate book it works by, and of the jobs it closed: boards add up one currency.
 * The logo is named here and put there by an act of its own, so a change of the rest leaves it.
 */
import { z } from "zod";
import { PROFILES } from "../estimating/law/profiles.js";
import { PAPER_DETAILS } from "../estimating/lists.js";
import { currencyCodes, decimalsOf } from "../estimating/money/currency.js";
import type { Kept } from "../records/columns.js";
import { type Logo, logos } from "../records/logos.js";
import { closedIn } from "../records/outcomes.js";
import { rateBooks } from "../records/rateBooks.js";
import { settings as rows, type Settings, SHOP, shopSettings } from "../records/settings.js";
import { counted } from "../wording/list.js";
import { LANGUAGES } from "../wording/tongue.js";
import { act, type Desk } from "./act.js";
import type { Fault } from "./fault.js";
import { choice, line, maybe, named, saying, whole } from "./field.js";
import { keptBefore, partyFields } from "./owner.js";
import { heldBack, type OnRecord, type Recorded, replacing, type Seen } from "./record.js";
import { footer, locale, logoId, ownNames } from "./shapes/estimateInput.js";
import { prose } from "./shapes/primitives.js";
import { keptKeys } from "./shapes/resources.js";

export const LINK_DAYS = { least: 1, most: 730 };
const WARRANTY_DAYS = { least: 0, most: 3650 };
const MOST_TERMS = 200;

/** Profiles that may have terms of their own. */
export const PROFILES_WITH_TERMS = PROFILES.filter(({ id }) => id !== "plain");
const terms = (label: string, told: { readonly hint?: string; readonly help?: string } = {}) =>
  saying(z.array(prose.min(1)).max(MOST_TERMS), { label, kind: "lines", ...told });

const { name, ...party } = partyFields("Name of the shop");
const fields = z.strictObject({
  ...{ name, ...party },
  footer: maybe(
    saying(footer, {
      label: "Footer",
      kind: "lines",
      hint: "At most 4 lines, such as the bank account; small at the foot of every page an owner gets.",
    }),
  ),
  terms: maybe(terms("Terms", { hint: "One a line; printed at the end of each estimate." })),
  profileTerms: maybe(
    z
      .strictObject(
        Object.fromEntries(
          PROFILES.map(({ id, name: called }) => [id, maybe(terms(`Terms: ${called}`, { help: "taxes#law-profile" }))]),
        ),
      )
      .meta({ description: "Terms under one agreement profile, in place of the others" }),
  ),
  rateBookId: named("Rate book of new estimates"),
  currency: line("Currency", { most: 40 }).meta({ description: "ISO 4217, the rate book's", example: "GBP" }),
  language: maybe(
    choice("Language of what owners get", LANGUAGES as [string, ...string[]], {
      hint: "Each owner can have another. These pages and the bench sheet stay English.",
    }),
  ),
  names: maybe(z.partialRecord(z.enum(LANGUAGES as [string, ...string[]]), ownNames)).meta({
    description:
      "What the shop's own names are called in another language: by language, by the text as it stands. Absent: as it stands",
  }),
  locale: saying(locale, { label: "Language tag for figures and dates", kind: "line", hint: "Such as en-GB or de-DE." }),
  timeZone: saying(
    z
      .string()
      .max(60)
      .refine(isTimeZone, { params: { name: "time zone unreadable" } }),
    {
      ...{ label: "Time zone", kind: "line", hint: "Such as Europe/London." },
    },
  ),
  paper: choice("Paper", ["A4", "Letter"]),
  detail: maybe(
    choice("How much an estimate shows", PAPER_DETAILS, { hint: "Each estimate can show more or less.", help: "papers" }),
  ).meta({
    description: "Absent: as it stands",
  }),
  benchQueueDays: whole("Days until the bench is free", { least: 0, most: 3650 }),
  linkDays: maybe(
    whole("Days an owner's link opens", { ...LINK_DAYS, hint: "Unless another time is typed while issuing." }),
  ).meta({ description: "Absent: as it stands" }),
  warrantyDays: maybe(
    whole("Days of warranty on the work", {
      ...WARRANTY_DAYS,
      hint: "Unless another time is typed at the close-out; 0 for none beyond the law.",
    }),
  ).meta({ description: "Absent: as it stands" }),
  logo: maybe(logoId),
});

export const settings = {
  one: "settings",
  fields,
  kept: fields
    .extend({ ...keptKeys, ...keptBefore })
    .required({ detail: true, linkDays: true, warrantyDays: true })
    .meta({ id: "Settings" }),
  rows,
  links: { rateBookId: rateBooks.find, logo: logos.find },
  stays: ["names", "detail", "linkDays", "warrantyDays"],
  check: ({ db }, value, old) => currencyFaults(db, value, old),
} satisfies Recorded<Settings, Settings & Kept>;

export const replaceSettings = replacing(settings, { name: "replaceSettings", title: "Replace the shop's settings" });
/** By the page, which shows all but the logo and the names. */
export const changeSettings = replacing(settings, { ...replaceSettings, fields: fields.omit({ logo: true, names: true }) });

async function currencyFaults(db: Desk["db"], { currency, rateBookId }: Settings, old?: Settings): Promise<readonly Fault[]> {
  const unknown = unknownCurrency(currency);
  if (unknown.length > 0) return unknown;
  const book = (await rateBooks.find(db, rateBookId))?.book;
  if (book && book.currency !== currency)
    return currencyFault(
      "currency differs",
      `Currency is ${currency}, and rate book '${book.name}' is in ${book.currency}; choose ${book.currency}, or a rate book in ${currency}.`,
    );
  return closedOtherwise(db, currency, old);
}

const currencyFault = (name: string, detail: string): readonly Fault[] => [{ pointer: "/currency", name, detail }];

export const unknownCurrency = (currency: string): readonly Fault[] =>
  !currencyCodes().includes(currency)
    ? currencyFault(
        "currency unknown",
        decimalsOf(currency) === undefined
          ? `Currency: '${currency}' is no currency of ISO 4217; give one such as GBP.`
          : `Currency: '${currency}' is a unit of account of ISO 4217 that nobody is billed in; give one such as GBP.`,
      )
    : [];

export async function closedOtherwise(db: Desk["db"], currency: string, old?: Settings): Promise<readonly Fault[]> {
  const closed = old && old.currency !== currency ? await closedIn(db, old.currency) : 0;
  if (closed === 0) return [];
  const was = old!.currency;
  return currencyFault(
    "currency differs",
    `Currency is ${currency}, and ${counted(closed, "job")} closed in ${was} would be missing from Looking back; keep ${was}.`,
  );
}

const noFields = z.strictObject({});
const keptLogo = z
  .strictObject({ id: logoId, kind: z.enum(["png", "jpeg"]), width: z.int(), height: z.int() })
  .meta({ id: "Logo" });

export const keepLogo = act({
  name: "addLogo",
  title: "Keep a picture, PNG or JPEG, at most 200 kB and 2,000 pixels either way; the settings then name it",
  fields: noFields,
  answer: keptLogo,
  decide: async ({ db, at }, _, picture: Logo) => {
    const { id, write } = await logos.made(db, picture, at);
    const { kind, width, height } = picture;
    return { answer: { id, kind, width, height }, writes: [write()] };
  },
});

/** Put on the shop's documents, or taken off them where there is no picture. */
export const changeLogo = act({
  name: "changeLogo",
  title: "Logo",
  fields: noFields,
  answer: settings.kept,
  decide: async ({ db, at }, _, { picture, seen }: { readonly picture?: Logo; readonly seen: Seen | undefined }) => {
    const old = await shopSettings(db);
    const held = heldBack("settings", old, seen);
    if (held) return { refused: held };
    const made = picture && (await logos.made(db, picture, at));
    const { record, write } = rows.changed(db, old, { logo: made?.id }, at);
    return { answer: record, writes: [...(made ? [made.write()] : []), write] };
  },
});

export const onShop = (seen: Seen | undefined): OnRecord => ({ id: SHOP, seen });

function isTimeZone(text: string): boolean {
  try {
    return new Intl.DateTimeFormat("en", { timeZone: text }) !== undefined;
  } catch {
    return false;
  }
}
