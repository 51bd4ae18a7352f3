/** Who came in, who was refused, and what changed about who may. A caller is a keyed hash of an address. Append only. */
import { desc, eq, lt } from "drizzle-orm";
import { alias, index, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { uuidv7 } from "uuidv7";
import type { Database, Instant } from "./database.js";
import { withoutNulls } from "./noun.js";
import type { WayIn } from "./sessions.js";
import { staffTable } from "./staff.js";

export const SIGN_IN_WHATS = [
  "signed in",
  "refused",
  "signed out",
  "session ended",
  "account made",
  "invited",
  "role changed",
  "account closed",
  "account opened again",
  "passkey added",
  "passkey removed",
  "passphrase set",
  "passphrase removed",
  "recovery codes made",
  "token made",
  "token revoked",
  "went on without accounts",
] as const;
export type SignInWhat = (typeof SIGN_IN_WHATS)[number];

export const signInEventsTable = sqliteTable(
  "sign_in_events",
  {
    id: text("id").primaryKey(),
    at: text("at").notNull(),
    what: text("what").$type<SignInWhat>().notNull(),
    /** Whose account; absent where it is nobody's. */
    staffId: text("staff_id").references(() => staffTable.id),
    /** Who did it, where that is another. */
    byId: text("by_id").references(() => staffTable.id),
    how: text("how").$type<WayIn>(),
    caller: text("caller"),
  },
  (table) => [index("sign_in_events_at").on(table.at), index("sign_in_events_what").on(table.what)],
);

export interface SignInEvent {
  readonly what: SignInWhat;
  readonly staffId?: string;
  readonly byId?: string;
  readonly how?: WayIn;
  readonly caller?: string;
}

export interface KeptSignInEvent {
  readonly id: string;
  readonly at: Instant;
  readonly what: SignInWhat;
  readonly name?: string;
  readonly by?: string;
  readonly how?: WayIn;
  readonly caller?: string;
}

export const signInEvents = {
  /** For a batch, or alone. */
  adding: (db: Database, event: SignInEvent, at: Instant) => db.insert(signInEventsTable).values({ id: uuidv7(), at, ...event }),

  /** Newest first. */
  latest: async (db: Database, limit: number, after?: string): Promise<KeptSignInEvent[]> => {
    const by = alias(staffTable, "by_staff");
    const { id, at, what, how, caller } = signInEventsTable;
    const rows = await db
      .select({ id, at, what, how, caller, name: staffTable.name, by: by.name })
      .from(signInEventsTable)
      .leftJoin(staffTable, eq(staffTable.id, signInEventsTable.staffId))
      .leftJoin(by, eq(by.id, signInEventsTable.byId))
      .where(after === undefined ? undefined : lt(id, after))
      .orderBy(desc(id))
      .limit(limit);
    return rows.map((row) => withoutNulls<KeptSignInEvent>(row));
  },

  happened: async (db: Database, what: SignInWhat): Promise<boolean> => {
    const [row] = await db.select().from(signInEventsTable).where(eq(signInEventsTable.what, what)).limit(1);
    return row !== undefined;
  },
};
