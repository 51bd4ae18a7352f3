/** One byte of one row changed behind the program's back, in each column of each table that is backed up: verify has to say so, and where. */
import { sql } from "drizzle-orm";
import { mismatchText } from "../../src/acts/checked/mismatch.js";
import { tablesOf } from "../../src/records/backup/tables.js";
import { values } from "../../src/records/backup/values.js";
import type { Database } from "../../src/records/database.js";
import { type Verdict, verifyShop } from "../../src/tools/verify/verifyShop.js";

/** A table, or one column of it, of which a changed letter that still fits is not seen; and why. */
const UNSEEN: Readonly<Record<string, string>> = {
  typed_drafts: "written every few seconds of typing, of what is no record yet",
  "api_tokens.used_at": "noted in passing, with each call",
};

/** How near verify comes: to the field, to the row or the paper, to anything, to nothing; `no row`: the shop has none to change. */
export type Near = "field" | "row" | "somewhere" | "unseen" | "no row";

export interface Flipped {
  readonly table: string;
  readonly column: string;
  readonly near: Near;
  readonly said: string;
}

type Value = string | number | ArrayBuffer | null;

/** One bit of the byte in its middle; the same again gives it back. */
export function flipped(value: Exclude<Value, null>, bit = 1): string | number | Uint8Array {
  if (typeof value === "string") {
    const at = value.length >> 1;
    return value.slice(0, at) + String.fromCharCode(value.charCodeAt(at) ^ bit) + value.slice(at + 1);
  }
  if (typeof value === "number") {
    if (Number.isInteger(value)) return value ^ 1;
    const bytes = Buffer.alloc(8);
    bytes.writeDoubleBE(value);
    bytes[3]! ^= 1;
    return bytes.readDoubleBE();
  }
  const bytes = new Uint8Array(value.slice(0));
  bytes[bytes.length >> 1]! ^= 1;
  return bytes;
}

type Verify = (db: Database) => Promise<Pick<Verdict, "mismatch" | "others">>;
const whole: Verify = (db) => verifyShop(db, new Map(), { file: true });

/** Sentences: what of a table that has to be seen was not. */
export const unseenIn = (flips: readonly Flipped[]): string[] => {
  return flips
    .filter(({ table, column, near }) => near === "unseen" && !(table in UNSEEN) && !(`${table}.${column}` in UNSEEN))
    .map(({ table, column }) => `a changed byte in '${column}' of ${table} is not seen`);
};

/** `wanted`: of those columns alone. The database is a copy that may be spoilt; its triggers are taken away. */
export async function byteByByte(
  db: Database,
  wanted: (table: string, column: string) => boolean = () => true,
  verify = whole,
): Promise<Flipped[]> {
  for (const [name] of await values<[string]>(db, sql`SELECT name FROM sqlite_master WHERE type = 'trigger'`))
    await db.run(sql`DROP TRIGGER ${sql.identifier(name)}`);
  for (const setting of ["foreign_keys = OFF", "ignore_check_constraints = ON"]) await db.run(sql.raw(`PRAGMA ${setting}`));
  const found: Flipped[] = [];
  for (const { name: table, columns } of (await tablesOf(db)).kept)
    for (const column of columns) if (wanted(table, column)) found.push(await one(db, table, column, verify));
  return found;
}

async function one(db: Database, table: string, column: string, verify: Verify): Promise<Flipped> {
  const [into, field] = [sql.identifier(table), sql.identifier(column)];
  const [row] = await values<[number, Value]>(
    db,
    sql`SELECT rowid, ${field} FROM ${into} WHERE ${field} IS NOT NULL AND length(${field}) > 0 ORDER BY rowid LIMIT 1`,
  );
  if (!row) return { table, column, near: "no row", said: "" };
  const [at, value] = row as [number, Exclude<Value, null>];
  const [key] = await values<[string]>(db, sql`SELECT group_concat(name) FROM pragma_table_info(${table}) WHERE pk > 0`);
  const [id] = await values<[string | number]>(
    db,
    sql`SELECT ${sql.identifier((key![0] ?? "rowid").split(",")[0]!)} FROM ${into} WHERE rowid = ${sql.raw(String(at))}`,
  );
  let stands = at;
  const set = async (to: string | number | Uint8Array) => {
    await db.run(
      sql`UPDATE ${into} SET ${field} = ${typeof to === "number" ? sql.raw(String(to)) : to} WHERE rowid = ${sql.raw(String(stands))}`,
    );
    // A key that is a number is the number of the row itself.
    if (key![0] === column && typeof to === "number") stands = to;
  };
  // The first bit keeps letter and digit what they are; where another row is named so already, one that does not.
  await set(flipped(value)).catch(() => set(flipped(value, 64)));
  try {
    const { mismatch, others = [] } = await verify(db);
    const said = mismatch ? [mismatch, ...others].map(({ job, what }) => `${job ? `${job}: ` : ""}${mismatchText(what)}`) : [];
    const names = (text: string, name: unknown) => text.includes(String(name));
    const camel = column.replaceAll(/_(\w)/g, (_, letter: string) => letter.toUpperCase());
    const located = said.filter((text) => names(text, id![0]) || /^J-\d{4}-\d{4,}: |row \d+ of /.test(text));
    const exact = said.filter((text) => text.includes(`'${column}`) || text.includes(`'${camel}`));
    const near = exact.length > 0 ? "field" : located.length > 0 ? "row" : said.length > 0 ? "somewhere" : "unseen";
    return { table, column, near, said: (exact[0] ?? located[0] ?? said[0] ?? "").slice(0, 120) };
  } catch (error) {
    return { table, column, near: "somewhere", said: `verify broke off: ${(error as Error).message.slice(0, 90)}` };
  } finally {
    await set(value instanceof ArrayBuffer ? new Uint8Array(value) : value);
  }
}
