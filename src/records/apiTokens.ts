/** Tokens of programs, kept as SHA-256. A token acts for the person who made it, and never may more than that person. */
import { and, desc, eq, isNull, type SQL } from "drizzle-orm";
import { sqliteTable, text } from "drizzle-orm/sqlite-core";
import { type Database, type Instant, noted } from "./database.js";
import { withoutNulls } from "./noun.js";
import { randomText } from "./secrets.js";
import { sha256 } from "./sha256.js";
import { joined, type Role, type StaffMember, staffTable } from "./staff.js";

/** read: whatever is looked at or reckoned; write: whatever a technician may change; admin: what only a manager may do. */
export const SCOPES = ["read", "write", "admin"] as const;
export type Scope = (typeof SCOPES)[number];

export const apiTokensTable = sqliteTable("api_tokens", {
  id: text("id").primaryKey(),
  tokenHash: text("token_hash").notNull().unique(),
  staffId: text("staff_id")
    .notNull()
    .references(() => staffTable.id),
  name: text("name").notNull(),
  scopes: text("scopes", { mode: "json" }).$type<readonly Scope[]>().notNull(),
  madeAt: text("made_at").notNull(),
  usedAt: text("used_at"),
  revokedAt: text("revoked_at"),
});

export interface ApiToken {
  readonly id: string;
  readonly staffId: string;
  readonly by: string;
  readonly name: string;
  readonly scopes: readonly Scope[];
  readonly madeAt: Instant;
  readonly usedAt?: Instant;
  readonly revokedAt?: Instant;
}

/** So that a scanner of leaked secrets, or a person, knows what it is. */
const TOKEN_START = "ohmwright_";
const USED_EVERY = 3_600_000;

/** The token, told once: 256 bits; and its row. */
export async function newToken(id: string, wanted: { staffId: string; name: string; scopes: readonly Scope[] }, at: Instant) {
  const token = TOKEN_START + randomText(32);
  return { token, row: { id, tokenHash: await sha256(token), ...wanted, madeAt: at } };
}

function acting({ id, scopes, usedAt }: typeof apiTokensTable.$inferSelect, staff: Pick<StaffMember, "id" | "name" | "role">) {
  const role: Role = staff.role === "manager" && scopes.includes("admin") ? "manager" : "technician";
  return { id, scopes, usedAt, staff: { ...staff, role } };
}

export const apiTokens = {
  /** For a batch. */
  adding: (db: Database, row: Awaited<ReturnType<typeof newToken>>["row"]) => db.insert(apiTokensTable).values(row),

  /** Newest first. */
  all: async (db: Database, condition?: SQL): Promise<ApiToken[]> => {
    const rows = await db
      .select({ row: apiTokensTable, by: staffTable.name })
      .from(apiTokensTable)
      .innerJoin(staffTable, eq(staffTable.id, apiTokensTable.staffId))
      .where(condition)
      .orderBy(desc(apiTokensTable.madeAt));
    return rows.map(({ row: { tokenHash: _, ...row }, by }) => withoutNulls<ApiToken>({ ...row, by }));
  },

  find: async (db: Database, id: string): Promise<ApiToken | undefined> =>
    (await apiTokens.all(db, eq(apiTokensTable.id, id)))[0],

  /** In one read: whether sign-in is wanted at all, for whom the token acts and what it may. */
  asked: async (db: Database, token: string) => {
    const [anyone, [found]] = await db.batch([
      joined(db),
      db
        .select({ row: apiTokensTable, staff: { id: staffTable.id, name: staffTable.name, role: staffTable.role } })
        .from(apiTokensTable)
        .innerJoin(staffTable, eq(staffTable.id, apiTokensTable.staffId))
        .where(
          // Nothing when it was revoked or its person has left.
          and(eq(apiTokensTable.tokenHash, await sha256(token)), isNull(apiTokensTable.revokedAt), isNull(staffTable.leftAt)),
        ),
    ]);
    return { peopled: anyone.length > 0, found: found && acting(found.row, found.staff) };
  },

  /** Notes the use, at most once an hour. */
  used: async (db: Database, { id, usedAt }: { id: string; usedAt: string | null }, at: Instant): Promise<void> => {
    if (usedAt !== null && Date.parse(at) - Date.parse(usedAt) < USED_EVERY) return;
    await noted(db, db.update(apiTokensTable).set({ usedAt: at }).where(eq(apiTokensTable.id, id)));
  },

  /** For a batch: they do not come back with the account. */
  revokeAllOf: (db: Database, staffId: string, at: Instant) =>
    db
      .update(apiTokensTable)
      .set({ revokedAt: at })
      .where(and(eq(apiTokensTable.staffId, staffId), isNull(apiTokensTable.revokedAt))),

  /** For a batch. */
  revoke: (db: Database, id: string, at: Instant) =>
    db
      .update(apiTokensTable)
      .set({ revokedAt: at })
      .where(and(eq(apiTokensTable.id, id), isNull(apiTokensTable.revokedAt))),
};
