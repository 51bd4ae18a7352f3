/** The bytes of photos, for a backup and its restore, and for an erasure. Those taken out of a job's pages count too. */
import { asc, eq } from "drizzle-orm";
import type { KeptFile } from "./backup/dump.js";
import type { KeepFile } from "./backup/restore.js";
import type { Database } from "./database.js";
import type { PhotoStore } from "./photoStore.js";
import { photosTable } from "./photos.js";

export async function photoFiles(db: Database, store: PhotoStore): Promise<KeptFile[]> {
  const rows = await db.select({ id: photosTable.id, type: photosTable.mime }).from(photosTable).orderBy(asc(photosTable.id));
  return rows.map(({ id, type }) => ({ name: id, type, read: () => store.get(id) }));
}

/** Without a store, photos of the backup are left behind. */
export const intoStore =
  (store: PhotoStore | undefined): KeepFile =>
  async ({ name, type, bytes }) => {
    await store?.put(name, bytes, type);
  };

export async function removePhotoFiles(db: Database, jobId: string, store: PhotoStore): Promise<void> {
  const rows = await db.select({ id: photosTable.id }).from(photosTable).where(eq(photosTable.jobId, jobId));
  for (const { id } of rows) await store.remove(id);
}
