/** Dated ways to get a part kind, pieces still in a donor unit among them. One that is withdrawn is found by its id alone. */
import { asc, eq, inArray, isNull, sql } from "drizzle-orm";
import { index, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Offer, OfferState, PartKind, SeenGood } from "../estimating/input.js";
import { type Kept, keptColumns, type Withdrawal, withdrawalColumn } from "./columns.js";
import type { Database, Instant } from "./database.js";
import { noun, withoutNulls } from "./noun.js";
import { asPartKind, keptAs, partKindsTable } from "./partKinds.js";
import type { Write } from "./trail.js";

/** `donor`: the unit that the pieces stand in; `available` is what can still be pulled of it. */
export type OfferValue = Omit<Offer, "id"> & { readonly donor?: string; readonly withdrawal?: Withdrawal };

/** Units bought for what is in them. */
export const donorsTable = sqliteTable("donors", {
  ...keptColumns(),
  maker: text("maker").notNull(),
  model: text("model").notNull(),
  serial: text("serial"),
  boughtOn: text("bought_on").notNull(),
  currency: text("currency").notNull(),
  cost: integer("cost").notNull(),
  notes: text("notes"),
  ...withdrawalColumn(),
});

export const offersTable = sqliteTable(
  "offers",
  {
    ...keptColumns(),
    kind: text("kind")
      .notNull()
      .references(() => partKindsTable.id),
    source: text("source").notNull(),
    on: text("offered_on").notNull(),
    currency: text("currency").notNull(),
    price: integer("price").notNull(),
    packSize: integer("pack_size").notNull(),
    minimumPacks: integer("minimum_packs"),
    available: integer("available"),
    leadDays: integer("lead_days").notNull(),
    state: text("state").$type<OfferState>().notNull(),
    shareGood: real("share_good"),
    seenGood: text("seen_good", { mode: "json" }).$type<SeenGood>(),
    freight: integer("freight"),
    dutyPercent: real("duty_percent"),
    importTaxPercent: real("import_tax_percent"),
    parcelFee: integer("parcel_fee"),
    pullMinutes: real("pull_minutes"),
    donor: text("donor").references(() => donorsTable.id),
    ...withdrawalColumn(),
  },
  (table) => [index("offers_kind").on(table.kind), index("offers_donor").on(table.donor).where(sql`donor is not null`)],
);

export const offers = noun<OfferValue>(offersTable, isNull(offersTable.withdrawal));

export const addOffer = (db: Database, offer: Offer, at: Instant): Write =>
  db.insert(offersTable).values({ ...offer, version: 1, createdAt: at, updatedAt: at });

/** The engine's own view of a row. */
export const asOffer = ({ version, createdAt, updatedAt, withdrawal, donor, ...offer }: OfferValue & Kept): Offer => offer;

export const offersFor = (db: Database, kinds: readonly string[]) =>
  kinds.length === 0 ? Promise.resolve([]) : offers.where(db, inArray(offersTable.kind, [...kinds]), 10_000);

export const offersWith = (db: Database, ids: readonly string[]) =>
  ids.length === 0 ? Promise.resolve([]) : offers.where(db, inArray(offersTable.id, [...ids]), 10_000);

/** A part of the catalogue, where there is one, or what it was merged into, with every offer of it. */
export async function kindOffered(
  db: Database,
  id: string,
): Promise<{ readonly kind?: PartKind; readonly offers: readonly Offer[] }> {
  const [[kind], offered] = await db.batch([
    db
      .select()
      .from(partKindsTable)
      .where(eq(partKindsTable.id, keptAs(id))),
    db
      .select()
      .from(offersTable)
      .where(eq(offersTable.kind, keptAs(id))),
  ]);
  return {
    ...(kind && { kind: asPartKind(withoutNulls(kind)) }),
    offers: offered.map((row) => asOffer(withoutNulls(row))),
  };
}

/** Names of sources, to choose from while typing. */
export const sourcesKnown = async (db: Database): Promise<string[]> => {
  const { source } = offersTable;
  return (
    await db.selectDistinct({ source }).from(offersTable).where(isNull(offersTable.withdrawal)).orderBy(asc(source)).limit(1000)
  ).map((row) => row.source);
};
