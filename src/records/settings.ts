/** The shop itself: one row. */
import { integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { CurrencyCode, PaperDetail, Party } from "../estimating/input.js";
import type { Kept } from "./columns.js";
import { keptColumns, partyColumns } from "./columns.js";
import type { Database } from "./database.js";
import { logosTable } from "./logos.js";
import { noun } from "./noun.js";

export interface Settings extends Party {
  readonly currency: CurrencyCode;
  /** BCP 47, such as en-GB. */
  readonly locale: string;
  /** IANA name, such as Europe/Prague: which day it is at the shop. */
  readonly timeZone: string;
  readonly paper: "A4" | "Letter";
  /** How much an owner's estimate shows, unless it is chosen for that one. */
  readonly detail: PaperDetail;
  readonly terms?: readonly string[];
  /** The shop's own terms under one law profile, by its id; in place of `terms`. */
  readonly profileTerms?: Readonly<Record<string, readonly string[]>>;
  /** Of the documents' own words, such as de; English when absent. */
  readonly language?: string;
  /** What the shop's own names are called in another language: by language, by the text as it stands. */
  readonly names?: Readonly<Record<string, Readonly<Record<string, string>>>>;
  /** Printed at the foot of every page of an owner's document. */
  readonly footer?: readonly string[];
  /** Id of the picture at the top. */
  readonly logo?: string;
  /** The book new estimates start from. */
  readonly rateBookId: string;
  readonly benchQueueDays: number;
  /** How long an owner's link opens, unless another time is typed. */
  readonly linkDays: number;
  /** How long the shop stands by its work, unless another time is typed. */
  readonly warrantyDays: number;
}

export const settingsTable = sqliteTable("settings", {
  ...keptColumns(),
  ...partyColumns(),
  currency: text("currency").notNull(),
  locale: text("locale").notNull(),
  timeZone: text("time_zone").notNull(),
  paper: text("paper").$type<"A4" | "Letter">().notNull(),
  terms: text("terms", { mode: "json" }).$type<readonly string[]>(),
  profileTerms: text("profile_terms", { mode: "json" }).$type<Readonly<Record<string, readonly string[]>>>(),
  language: text("language"),
  names: text("names", { mode: "json" }).$type<NonNullable<Settings["names"]>>(),
  footer: text("footer", { mode: "json" }).$type<readonly string[]>(),
  logo: text("logo").references(() => logosTable.id),
  detail: text("detail").$type<PaperDetail>().notNull().default("letter"),
  rateBookId: text("rate_book_id").notNull(),
  benchQueueDays: integer("bench_queue_days").notNull(),
  linkDays: integer("link_days").notNull().default(90),
  warrantyDays: integer("warranty_days").notNull().default(90),
});

export const SHOP = "shop";
export const settings = noun<Settings>(settingsTable);

/** Throws when the database was never set up: that is our fault, not the user's. */
export async function shopSettings(db: Database): Promise<Settings & Kept> {
  const found = await settings.find(db, SHOP);
  if (!found) throw new Error("The database holds no shop settings; run the set-up (npm start or npm run migrate).");
  return found;
}
