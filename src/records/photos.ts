/**
 * Photos of a job: what each shows and its fingerprint. The bytes stand in a store (`photoStore.ts`) under the photo's id. A row
 * never changes; a photo that was taken out stays on record with who took it out.
 */
import { eq, isNull, sql } from "drizzle-orm";
import { index, integer, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import type { IsoDate } from "../estimating/input.js";
import type { Database } from "./database.js";
import { asWritten, type KeptOnce, onceColumns } from "./keptOnce.js";
import { withoutNulls } from "./noun.js";

export const PHOTO_TYPES = ["image/jpeg", "image/png", "image/webp"] as const;
export type PhotoType = (typeof PHOTO_TYPES)[number];

export const PHOTOS_OF = ["intake", "fault"] as const;

export interface PhotoValue {
  /** The unit as it came in, or a fault. */
  readonly of: (typeof PHOTOS_OF)[number];
  /** Of a fault: the id of the work item that puts it right, where there is one. */
  readonly item?: string;
  readonly caption?: string;
  readonly mime: PhotoType;
  /** Pixels as stored, before any turn. */
  readonly width: number;
  readonly height: number;
  /** How it is to be turned to stand upright: 1 to 8 as in Exif 2.32, tag Orientation. */
  readonly turn: number;
  /** Bytes. */
  readonly size: number;
  readonly sha256: string;
  readonly takenOn?: IsoDate;
  readonly by?: string;
}

export interface Photo extends KeptOnce, PhotoValue {}

export const photosTable = sqliteTable(
  "photos",
  {
    ...onceColumns(),
    of: text("of").$type<PhotoValue["of"]>().notNull(),
    item: text("item"),
    caption: text("caption"),
    mime: text("mime").$type<PhotoType>().notNull(),
    width: integer("width").notNull(),
    height: integer("height").notNull(),
    turn: integer("turn").notNull(),
    size: integer("size").notNull(),
    sha256: text("sha256").notNull(),
    takenOn: text("taken_on"),
    by: text("added_by"),
  },
  (table) => [index("photos_job").on(table.jobId)],
);

export const photoRemovalsTable = sqliteTable(
  "photo_removals",
  {
    ...onceColumns(),
    photoId: text("photo_id")
      .notNull()
      .references(() => photosTable.id),
    by: text("removed_by"),
  },
  (table) => [index("photo_removals_job").on(table.jobId), uniqueIndex("photo_removals_photo").on(table.photoId)],
);

const photoOf = (row: typeof photosTable.$inferSelect): Photo => withoutNulls<Photo>(row);

/** Those of every job that were not taken out, oldest first; bytes stand in the store under each id. */
export const listPhotos = async (db: Database, jobId?: string): Promise<Photo[]> => {
  const rows = await db
    .select({ photo: photosTable })
    .from(photosTable)
    .leftJoin(photoRemovalsTable, eq(photoRemovalsTable.photoId, photosTable.id))
    .where(sql`${isNull(photoRemovalsTable.id)} and ${jobId === undefined ? sql`true` : eq(photosTable.jobId, jobId)}`)
    .orderBy(asWritten(photosTable));
  return rows.map(({ photo }) => photoOf(photo));
};

export const photos = {
  /** Also one that was taken out: an issued estimate may show it. */
  find: async (db: Database, id: string): Promise<Photo | undefined> => {
    const [row] = await db.select().from(photosTable).where(eq(photosTable.id, id));
    return row && photoOf(row);
  },

  ofJob: (db: Database, jobId: string): Promise<Photo[]> => listPhotos(db, jobId),

  isRemoved: async (db: Database, id: string): Promise<boolean> => {
    const [row] = await db
      .select({ id: photoRemovalsTable.id })
      .from(photoRemovalsTable)
      .where(eq(photoRemovalsTable.photoId, id));
    return row !== undefined;
  },
};
