/**
 * Erases an owner and keeps the books: numbers, amounts, dates, hashes and who of the shop did what stay and can still be checked. All
 * of it in one transaction; the bytes of photos and the free space of the file are swept after it, and again whenever it is asked anew.
 */
import { and, eq, inArray, isNotNull, sql } from "drizzle-orm";
import { z } from "zod";
import { answersOf } from "../../records/agreements.js";
import { dropped, madeAgain, triggersOf } from "../../records/backup/guards.js";
import { copiedTables } from "../../records/backup/tables.js";
import type { Database } from "../../records/database.js";
import { estimates } from "../../records/estimates.js";
import { jobs } from "../../records/jobs.js";
import { ownerLinks } from "../../records/ownerLinks.js";
import { type Owner, owners } from "../../records/owners.js";
import { removePhotoFiles } from "../../records/photoFiles.js";
import { repliesTable } from "../../records/replies.js";
import { bodyOf, rowCopiesTable } from "../../records/rowCopies.js";
import { scrub } from "../../records/scrub.js";
import { searchRebuilt } from "../../records/search.js";
import type { Write } from "../../records/trail.js";
import { typedDrafts } from "../../records/typedDrafts.js";
import { units, unitsOf } from "../../records/units.js";
import { act, type Decided, type Desk, refused } from "../act.js";
import type { Fault } from "../fault.js";
import { line, maybe, tick } from "../field.js";
import { erasedJob } from "./eraseJob.js";
import { ERASED, type Known, known, withoutKnownIn } from "./without.js";

/** Of what the owner had; 0 where that was erased before. */
export interface ErasureDone {
  readonly jobs: number;
  readonly units: number;
}
interface OnOwner {
  readonly owner: string;
}

const by = maybe(line("Your name", { most: 200 }).meta({ description: "The name signed in goes before it" }));
const answer = z.strictObject({ jobs: z.int(), units: z.int() });

export const eraseOwner = act({
  name: "eraseOwner",
  title: "Erase what tells who the owner is; numbers, amounts, hashes and the chain of events stay. It cannot be undone",
  fields: z.strictObject({ by }).meta({ id: "Erasure", description: "Who erases it; the record says so" }),
  answer,
  decide: (desk, value, on: OnOwner) => erased(desk, value.by, on),
});

/** By the page, which asks once more. */
export const eraseForSure = act({
  ...eraseOwner,
  fields: z.strictObject({ by, sure: maybe(tick("Erase this owner for good")) }),
  decide: (desk, value, on: OnOwner) =>
    erased(
      desk,
      value.by,
      on,
      value.sure
        ? []
        : [{ pointer: "/sure", name: "key missing", detail: "Tick the box: what is erased cannot be brought back." }],
    ),
});

async function erased(
  desk: Desk,
  typed: string | undefined,
  { owner: id }: OnOwner,
  unsure: readonly Fault[] = [],
): Promise<Decided<ErasureDone>> {
  const { db, at } = desk;
  const hand = desk.staff?.name ?? typed;
  const nobody = { pointer: "/by", name: "key missing", detail: "Give your name: the record says who erased it." };
  if (hand === undefined || unsure.length > 0)
    return refused("input refused", { errors: [...(hand === undefined ? [nobody] : []), ...unsure] });
  const owner = await owners.find(db, id);
  if (!owner) return refused("not found", { detail: "There is no such owner." });
  if (owner.name === ERASED) return { answer: { jobs: 0, units: 0 } };
  const [own, things, names] = [await jobs.ofOwner(db, id), await unitsOf(db, id), await knownBy(db, id)];
  const parts = [];
  for (const job of own) parts.push(await erasedJob(db, job.id, names, hand, at));
  const guards = (await triggersOf(db)).filter(({ sql: made }) => /\bBEFORE UPDATE\b/i.test(made) && /RAISE\s*\(/i.test(made));
  const { id: _, version: __, createdAt: ___, updatedAt: ____, ...row } = owner;
  const blank = Object.fromEntries(Object.keys(row).map((column) => [column, undefined]));
  const writes: Write[] = [
    ...guards.map((guard) => dropped(db, guard)),
    ...parts.flatMap((part) => part.writes),
    ...things.map((unit) => units.changed(db, unit, { serial: undefined, notes: undefined }, at).write),
    owners.changed(db, owner, { ...(blank as Partial<Owner>), name: ERASED }, at).write,
    ...guards.map((guard) => madeAgain(db, guard)),
    ...parts.flatMap((part) => part.told),
    ...(await typedDrafts.reworded(db, (fields) => withoutKnownIn(fields, names))),
    ...(await copiedAnew(db, { owners: [id], units: things.map((unit) => unit.id), jobs: own.map((job) => job.id) })),
    // Answers kept for requests that come twice say what was asked for.
    db.delete(repliesTable).where(isNotNull(repliesTable.status)),
    // A full text index only marks words as gone; made again it does not hold them (SQLite, FTS5, 6.9).
    ...searchRebuilt(db),
  ];
  return { answer: { jobs: own.length, units: things.length }, writes };
}

/** Copies of these rows as the rows are then: also of what was damaged, and so had other words in its copy. */
async function copiedAnew(db: Database, rows: Readonly<Record<string, readonly string[]>>): Promise<readonly Write[]> {
  const tables = (await copiedTables(db)).filter(({ table }) => Object.hasOwn(rows, table));
  return tables.map(({ table, columns }) => {
    const now = sql`(SELECT ${sql.raw(bodyOf(columns, "t"))} FROM ${sql.identifier(table)} t WHERE t.id = ${rowCopiesTable.id})`;
    const { of, id } = rowCopiesTable;
    return db
      .update(rowCopiesTable)
      .set({ body: now })
      .where(and(eq(of, table), inArray(id, [...rows[table]!])));
  });
}

/** Bytes of photos, and what the free space of the database file still holds; false where the file would not be written anew. */
export async function swept({ db, photos }: Pick<Desk, "db" | "photos">, ownerId: string): Promise<boolean> {
  if (photos) for (const { id } of await jobs.ofOwner(db, ownerId)) await removePhotoFiles(db, id, photos);
  return scrub(db);
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
