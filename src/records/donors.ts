/** Donor units. What can still be pulled of one stands among the offers, a row a part, with the pieces that are left. */
import { and, asc, eq, gt, inArray, isNotNull, isNull, sql } from "drizzle-orm";
import type { CurrencyCode, IsoDate, Minor, Minutes } from "../estimating/input.js";
import type { Kept, Withdrawal } from "./columns.js";
import type { Database, Instant } from "./database.js";
import { type Keys, noun, type Page, type PageWanted, withoutNulls } from "./noun.js";
import { donorsTable, type OfferValue, offers, offersTable } from "./offers.js";
import type { Write } from "./trail.js";

export interface DonorPart {
  /** Id of a part kind. */
  readonly kind: string;
  /** Pieces that can still be pulled. */
  readonly pieces: number;
  /** What one piece is reckoned at. */
  readonly price: Minor;
  readonly pullMinutes?: Minutes;
  readonly shareGood?: number;
}

interface UnitBought {
  readonly maker: string;
  readonly model: string;
  readonly serial?: string;
  readonly boughtOn: IsoDate;
  readonly currency: CurrencyCode;
  readonly cost: Minor;
  readonly notes?: string;
  readonly withdrawal?: Withdrawal;
}
export type DonorValue = UnitBought & { readonly parts: readonly DonorPart[] };
export type Donor = DonorValue & Kept;

const units = noun<UnitBought>(donorsTable, isNull(donorsTable.withdrawal));

export type DonorOffer = OfferValue & Kept;

/** What stands in these units, those of which nothing is left too. */
export const offersIn = async (db: Database, donors: readonly string[]): Promise<DonorOffer[]> =>
  (
    await db
      .select()
      .from(offersTable)
      .where(and(inArray(offersTable.donor, [...donors]), isNull(offersTable.withdrawal)))
      .orderBy(asc(offersTable.id))
  ).map((row) => withoutNulls<DonorOffer>(row));

async function withParts(db: Database, rows: readonly (UnitBought & Kept)[]): Promise<Donor[]> {
  const all =
    rows.length === 0
      ? []
      : await offersIn(
          db,
          rows.map(({ id }) => id),
        );
  return rows.map((row) => ({
    ...row,
    parts: all
      .filter(({ donor }) => donor === row.id)
      .map(({ kind, available = 0, price, pullMinutes, shareGood }) => ({
        ...{ kind, pieces: available, price },
        ...(pullMinutes !== undefined && { pullMinutes }),
        ...(shareGood !== undefined && { shareGood }),
      })),
  }));
}

export const donors = {
  find: async (db: Database, id: string): Promise<Donor | undefined> => {
    const found = await units.find(db, id);
    return found && (await withParts(db, [found]))[0];
  },
  list: async (db: Database, wanted: PageWanted, withdrawn = false): Promise<Page<Donor>> => {
    const page = await units.list(db, wanted, undefined, withdrawn);
    return { ...page, rows: await withParts(db, page.rows) };
  },
  /** The unit alone; its parts are offers. */
  made: (db: Database, id: string, { parts, ...unit }: DonorValue, at: Instant) => {
    const { record, write } = units.made(db, id, unit, at);
    return { record: { ...record, parts }, write };
  },
  changed: (db: Database, { parts: before, ...old }: Donor, { parts = before, ...keys }: Keys<DonorValue>, at: Instant) => {
    const { record, write } = units.changed(db, old, keys, at);
    return { record: { ...record, parts }, write };
  },
};

/** The pieces of a donor unit that are meant by this source. */
export async function donorOffer(
  db: Database,
  { kind, source }: { readonly kind: string; readonly source: string },
): Promise<DonorOffer | undefined> {
  const own = and(
    eq(offersTable.kind, kind),
    eq(offersTable.source, source),
    isNotNull(offersTable.donor),
    isNull(offersTable.withdrawal),
  );
  const [row] = await db.select().from(offersTable).where(own).limit(1);
  return row && withoutNulls<DonorOffer>(row);
}

/** Units that still have pieces of these parts. */
export const donorsWith = async (db: Database, kinds: readonly string[]): Promise<DonorOffer[]> =>
  kinds.length === 0
    ? []
    : (
        await db
          .select()
          .from(offersTable)
          .where(
            and(
              inArray(offersTable.kind, [...kinds]),
              isNotNull(offersTable.donor),
              isNull(offersTable.withdrawal),
              gt(offersTable.available, 0),
            ),
          )
          .orderBy(asc(offersTable.id))
      ).map((row) => withoutNulls<DonorOffer>(row));

/** For the batch that books them in. The unit's version rises with its list. */
export const takenFrom = (db: Database, offer: DonorOffer, pieces: number, at: Instant): Write[] => [
  offers.changed(db, offer, { available: (offer.available ?? 0) - pieces }, at).write,
  db.update(donorsTable).set({ version: sql`version + 1`, updatedAt: at }).where(eq(donorsTable.id, offer.donor!)),
];
