/**
 * Erases an owner and keeps the books: numbers, amounts, dates, hashes and who of the shop did what stay and can still be checked.
 * Job by job, then the owner's own row, last: until that one says 'erased' the whole can be done again.
 */
import { eq, isNotNull } from "drizzle-orm";
import { answersOf } from "../agreements.js";
import type { Database, Instant } from "../database.js";
import { estimates } from "../estimates.js";
import { repliesTable } from "../idempotency.js";
import { jobs } from "../jobs.js";
import { ownerLinks } from "../ownerLinks.js";
import { owners, ownersTable } from "../owners.js";
import { removePhotoFiles } from "../photoFiles.js";
import type { PhotoStore } from "../photoStore.js";
import { searchRebuilt } from "../search.js";
import { unitsOf, unitsTable } from "../units.js";
import { eraseJob } from "./eraseJob.js";
import { scrub } from "./scrub.js";
import { ERASED, type Known, known } from "./without.js";

export type ErasureDone =
  /** `scrubbed`: out of the free space of the database file, too. */
  | { readonly is: "erased"; readonly jobs: number; readonly units: number; readonly scrubbed: boolean }
  | { readonly is: "erased before" }
  | { readonly is: "missing" };

/** `photos`: where their bytes are; they go too. */
export async function eraseOwner(
  db: Database,
  ownerId: string,
  by: string,
  at: Instant,
  photos?: PhotoStore,
): Promise<ErasureDone> {
  const owner = await owners.find(db, ownerId);
  if (!owner) return { is: "missing" };
  if (owner.name === ERASED) return { is: "erased before" };
  const [own, things] = [await jobs.ofOwner(db, ownerId), await unitsOf(db, ownerId)];
  const names = await knownBy(db, ownerId);
  for (const { id } of own) {
    await eraseJob(db, id, names, by, at);
    if (photos) await removePhotoFiles(db, id, photos);
  }
  for (const { id, version } of things)
    await db
      .update(unitsTable)
      .set({ serial: null, notes: null, version: version + 1, updatedAt: at })
      .where(eq(unitsTable.id, id));
  // Answers kept for requests that come twice say what was asked for.
  await db.delete(repliesTable).where(isNotNull(repliesTable.status));
  const { createdAt: _, version, ...row } = owner;
  const blank = Object.fromEntries(Object.keys(row).map((column) => [column, null]));
  await db.batch([
    db
      .update(ownersTable)
      .set({ ...blank, id: ownerId, name: ERASED, version: version + 1, updatedAt: at })
      .where(eq(ownersTable.id, ownerId)),
    // A full text index only marks words as gone; made again it does not hold them (SQLite, FTS5, 6.9).
    ...searchRebuilt(db),
  ]);
  return { is: "erased", jobs: own.length, units: things.length, scrubbed: await scrub(db) };
}

/** Everything on record that names the owner, also as it was when an earlier estimate went out. */
async function knownBy(db: Database, ownerId: string): Promise<Known> {
  const owner = (await owners.find(db, ownerId))!;
  const texts: (string | undefined)[] = [
    ...[owner.name, owner.phone, owner.email, owner.taxNumber, owner.registration],
    ...placed(owner.address),
  ];
  for (const { serial } of await unitsOf(db, ownerId)) texts.push(serial);
  for (const { id } of await jobs.ofOwner(db, ownerId)) {
    for (const { by, deliveredTo, spoken } of await answersOf(db, id))
      texts.push(by, addressIn(deliveredTo), spoken?.authoriser, spoken?.numberCalled);
    for (const { deliveredTo } of await ownerLinks.ofJob(db, id)) texts.push(addressIn(deliveredTo));
    for (const { input } of await estimates.ofJob(db, id)) {
      const party = input.paperwork?.owner;
      texts.push(party?.name, party?.phone, party?.email, party?.taxNumber, party?.registration, input.unit.serial);
      texts.push(...placed(party?.address));
    }
  }
  return known(texts);
}

/** Lines of an address that tell of a door or a postcode; a town has many people. */
const placed = (address: readonly string[] = []): readonly string[] => address.filter((line) => /\d/.test(line));

/** 'on paper' names nobody. */
const addressIn = (deliveredTo: string | undefined): string | undefined =>
  deliveredTo && /[@\d]/.test(deliveredTo) ? deliveredTo : undefined;
