/** The people of the shop. An account can be used once its person has a way in; a trigger keeps the last manager who can get in. */
import { and, asc, eq, isNotNull, isNull, ne, sql } from "drizzle-orm";
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import { type Kept, keptColumns } from "./columns.js";
import type { Database, Instant } from "./database.js";
import { withoutNulls } from "./noun.js";

export const ROLES = ["manager", "technician"] as const;
export type Role = (typeof ROLES)[number];

export const staffTable = sqliteTable("staff", {
  ...keptColumns(),
  name: text("name").notNull(),
  /** The name as it is compared: two people must not be mistaken for one another. */
  nameKey: text("name_key").notNull().unique(),
  role: text("role").$type<Role>().notNull(),
  /** Since when this person has had a way in. */
  joinedAt: text("joined_at"),
  leftAt: text("left_at"),
});

export interface StaffMember extends Kept {
  readonly name: string;
  readonly role: Role;
  readonly joinedAt?: Instant;
  readonly leftAt?: Instant;
}

export const nameKey = (name: string): string => name.normalize("NFKC").trim().replaceAll(/\s+/g, " ").toLowerCase();

export const member = (row: typeof staffTable.$inferSelect): StaffMember => {
  const { nameKey: _, ...rest } = row;
  return withoutNulls<StaffMember>(rest);
};

/** A row as it is first written. */
export const newStaff = (id: string, name: string, role: Role, at: Instant) => ({
  id,
  version: 1,
  createdAt: at,
  updatedAt: at,
  name: name.trim(),
  nameKey: nameKey(name),
  role,
});

/** For a batch: a row where anyone has an account that opens. */
export const joined = (db: Database) =>
  db.select({ id: staffTable.id }).from(staffTable).where(isNotNull(staffTable.joinedAt)).limit(1);

export const staff = {
  /** Whether anyone has an account that opens: from then on sign-in is wanted. */
  anyone: async (db: Database): Promise<boolean> => {
    return (await joined(db)).length > 0;
  },

  find: async (db: Database, id: string): Promise<StaffMember | undefined> => {
    const [row] = await db.select().from(staffTable).where(eq(staffTable.id, id));
    return row && member(row);
  },

  named: async (db: Database, name: string): Promise<StaffMember | undefined> => {
    const [row] = await db
      .select()
      .from(staffTable)
      .where(eq(staffTable.nameKey, nameKey(name)));
    return row && member(row);
  },

  all: async (db: Database): Promise<StaffMember[]> =>
    (await db.select().from(staffTable).orderBy(asc(staffTable.name))).map(member),

  /** Whether a manager besides this one can get in. */
  otherManager: async (db: Database, id: string): Promise<boolean> => {
    const able = and(eq(staffTable.role, "manager"), isNotNull(staffTable.joinedAt), isNull(staffTable.leftAt));
    const [row] = await db
      .select({ id: staffTable.id })
      .from(staffTable)
      .where(and(able, ne(staffTable.id, id)))
      .limit(1);
    return row !== undefined;
  },

  /** For a batch: an account nobody can use yet. A name that someone has is refused. */
  adding: (db: Database, row: ReturnType<typeof newStaff>) => db.insert(staffTable).values(row),

  /** For a batch. */
  changing: (
    db: Database,
    id: string,
    set: Partial<Pick<typeof staffTable.$inferInsert, "role" | "leftAt" | "joinedAt">>,
    at: Instant,
  ) =>
    db
      .update(staffTable)
      .set({ ...set, version: sql`version + 1`, updatedAt: at })
      .where(eq(staffTable.id, id)),
};

/** For a batch: from now on this person has a way in. */
export const joining = (db: Database, id: string, at: Instant) =>
  db
    .update(staffTable)
    .set({ joinedAt: at, updatedAt: at })
    .where(and(eq(staffTable.id, id), isNull(staffTable.joinedAt)));

/** For a batch: writes the row only while nobody has joined. What else the batch writes about this person then fails, and the batch with it. */
export const firstManager = (
  db: Database,
  { id, version, createdAt, updatedAt, name, nameKey: key, role }: ReturnType<typeof newStaff>,
) =>
  db.run(sql`INSERT INTO staff (id, version, created_at, updated_at, name, name_key, role)
    SELECT ${id}, ${version}, ${createdAt}, ${updatedAt}, ${name}, ${key}, ${role}
    WHERE NOT EXISTS (SELECT 1 FROM staff WHERE joined_at IS NOT NULL)`);
