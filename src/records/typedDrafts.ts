/**
 * New estimates as they are typed, before they are a job: no number, no event. Each belongs to a person, or to the shop before anyone has
 * an account. One that was gone on with elsewhere meanwhile is never written over: what is typed then stands as another.
 */
import { and, desc, eq, lt, notInArray, sql } from "drizzle-orm";
import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { uuidv7 } from "uuidv7";
import type { Database, Instant } from "./database.js";
import type { Write } from "./trail.js";

export const typedDraftsTable = sqliteTable(
  "typed_drafts",
  {
    id: text("id").primaryKey(),
    /** Id of a staff account; empty: the shop. */
    person: text("person").notNull(),
    at: text("at").notNull(),
    version: integer("version").notNull(),
    /** What it is called where it is offered. */
    unit: text("unit").notNull(),
    /** Pairs of name and text. */
    fields: text("fields", { mode: "json" }).$type<readonly (readonly [string, string])[]>().notNull(),
  },
  (table) => [index("typed_drafts_person").on(table.person, table.at), index("typed_drafts_at").on(table.at)],
);

export type TypedDraft = typeof typedDraftsTable.$inferSelect;

const MOST_DAYS = 30;
const MOST_EACH = 10;
const MOST_TEXT = 400_000;

type Typed = Pick<TypedDraft, "unit" | "fields">;

export const typedDrafts = {
  /** Newest first. */
  async of(db: Database, person: string): Promise<readonly Pick<TypedDraft, "id" | "at" | "unit">[]> {
    const { id, at, unit } = typedDraftsTable;
    return db.select({ id, at, unit }).from(typedDraftsTable).where(eq(typedDraftsTable.person, person)).orderBy(desc(at));
  },

  async find(db: Database, person: string, id: string): Promise<TypedDraft | undefined> {
    return db.select().from(typedDraftsTable).where(mine(person, id)).get();
  },

  /** Under `id` where it stands as it was `seen`, else under a new one; nothing where it is more than is kept. */
  async keep(db: Database, person: string, id: string, seen: number, typed: Typed, at: Instant) {
    if (JSON.stringify(typed.fields).length > MOST_TEXT) return undefined;
    const version = seen + 1;
    const written = await db
      .insert(typedDraftsTable)
      .values({ id, person, at, version, ...typed })
      .onConflictDoUpdate({
        target: typedDraftsTable.id,
        set: { at, version, ...typed },
        setWhere: and(eq(typedDraftsTable.person, person), eq(typedDraftsTable.version, seen))!,
      })
      .returning({ id: typedDraftsTable.id });
    const kept = written[0]?.id ?? uuidv7();
    if (written.length === 0) await db.insert(typedDraftsTable).values({ id: kept, person, at, version: 1, ...typed });
    await forgetOld(db, person, at);
    return { id: kept, version: written.length === 0 ? 1 : version };
  },

  /** What becomes of the texts of every one, as writes where that is something else. */
  async reworded(db: Database, become: (fields: TypedDraft["fields"]) => TypedDraft["fields"]): Promise<readonly Write[]> {
    const all = await db.select().from(typedDraftsTable);
    return all.flatMap(({ id, version, fields }) => {
      const rest = become(fields);
      const isOther = JSON.stringify(rest) !== JSON.stringify(fields);
      const changed = { fields: rest, version: version + 1 };
      return isOther ? [db.update(typedDraftsTable).set(changed).where(eq(typedDraftsTable.id, id))] : [];
    });
  },

  dropped: (db: Database, person = "", id: string) => db.delete(typedDraftsTable).where(mine(person, id)),
};

const mine = (person: string, id: string) => and(eq(typedDraftsTable.person, person), eq(typedDraftsTable.id, id));

async function forgetOld(db: Database, person: string, at: Instant): Promise<void> {
  const { id, person: of, at: typedAt } = typedDraftsTable;
  const oldest = new Date(Date.parse(at) - MOST_DAYS * 86_400_000).toISOString();
  await db.delete(typedDraftsTable).where(lt(typedAt, oldest));
  const newest = db
    .select({ id })
    .from(typedDraftsTable)
    .where(eq(of, person))
    .orderBy(desc(typedAt), desc(sql`rowid`))
    .limit(MOST_EACH);
  await db.delete(typedDraftsTable).where(and(eq(of, person), notInArray(id, newest)));
}
