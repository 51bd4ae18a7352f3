/** Passphrases, as scrypt (RFC 7914) makes them unreadable. Each row says by which figures, so that they can grow. */
import { Buffer } from "node:buffer";
import { timingSafeEqual } from "node:crypto";
import { eq } from "drizzle-orm";
import { integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import type { Database, Instant } from "./database.js";
import { PASSPHRASE_LENGTH, PASSPHRASE_LONGEST } from "./entryTerms.js";
import { type Cost, scrypt } from "./secrets.js";
import { staffTable } from "./staff.js";

export const passphrasesTable = sqliteTable("passphrases", {
  staffId: text("staff_id")
    .primaryKey()
    .references(() => staffTable.id),
  n: integer("n").notNull(),
  r: integer("r").notNull(),
  p: integer("p").notNull(),
  /** Hex. */
  salt: text("salt").notNull(),
  /** 32 bytes, hex. */
  hash: text("hash").notNull(),
  setAt: text("set_at").notNull(),
});

/** 16 MiB, which a Worker can spare (OWASP Password Storage Cheat Sheet, from memory: N=2^14, r=8, p=5). */
export const COST: Cost = { n: 2 ** 14, r: 8, p: 5 };

/** Signs that look alike are the same, however a keyboard composes them. */
const plain = (passphrase: string): string => passphrase.normalize("NFKC");

export type PassphraseFault = "too short" | "too long" | "too plain";

export function passphraseFault(passphrase: string): PassphraseFault | undefined {
  const signs = [...plain(passphrase)];
  if (signs.length < PASSPHRASE_LENGTH) return "too short";
  if (signs.length > PASSPHRASE_LONGEST) return "too long";
  return new Set(signs).size < 6 ? "too plain" : undefined;
}

export type PassphraseRow = Omit<typeof passphrasesTable.$inferSelect, "staffId">;

/** Slow on purpose. */
export async function newPassphrase(passphrase: string, at: Instant, cost = COST): Promise<PassphraseRow> {
  const salt = crypto.getRandomValues(new Uint8Array(16));
  const hash = await scrypt(plain(passphrase), salt, 32, cost);
  return { ...cost, salt: hex(salt), hash: hex(hash), setAt: at };
}

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");
const bytes = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, "hex"));

/** Never matches, and takes as long as one that could. */
const NOBODY = { salt: "00".repeat(16), hash: "00".repeat(32) };

export const passphrases = {
  /** For a batch. */
  setting: (db: Database, staffId: string, row: PassphraseRow) =>
    db
      .insert(passphrasesTable)
      .values({ staffId, ...row })
      .onConflictDoUpdate({ target: passphrasesTable.staffId, set: row }),

  setAt: async (db: Database, staffId: string): Promise<Instant | undefined> => {
    const [row] = await db.select().from(passphrasesTable).where(eq(passphrasesTable.staffId, staffId));
    return row?.setAt;
  },

  /** Takes as long for a name nobody has, so that names cannot be found out by the clock. */
  matches: async (db: Database, staffId: string | undefined, passphrase: string, cost = COST): Promise<boolean> => {
    const [row] = await db
      .select()
      .from(passphrasesTable)
      .where(eq(passphrasesTable.staffId, staffId ?? ""));
    const { n, r, p, salt, hash } = row ?? { ...cost, ...NOBODY };
    const made = await scrypt(plain(passphrase.slice(0, 4 * PASSPHRASE_LONGEST)), bytes(salt), 32, { n, r, p });
    return timingSafeEqual(made, bytes(hash)) && row !== undefined;
  },

  remove: (db: Database, staffId: string) => db.delete(passphrasesTable).where(eq(passphrasesTable.staffId, staffId)),
};
