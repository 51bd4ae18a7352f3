/** A database as it stands at one moment, whatever is written meanwhile: one read transaction of a file. Over HTTP the server ends what lasts, so there it is the database itself. */
import type { Client, Transaction } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql/http";
import type { Database } from "./database.js";
import { clientOf } from "./steadyClient.js";

export interface Snapshot {
  readonly db: Database;
  /** It is what it says; otherwise what is written meanwhile shows. */
  readonly still: boolean;
  readonly end: () => void;
}

export async function snapshotOf(db: Database): Promise<Snapshot> {
  const client = clientOf(db);
  if (client?.protocol !== "file") return { db, still: false, end: () => undefined };
  const within = await client.transaction("read");
  // From its first statement on it sees nothing newer.
  await within.execute("SELECT 1 FROM sqlite_master LIMIT 1");
  return { db: drizzle(asClient(within)), still: true, end: () => within.close() };
}

/** What a transaction has of a client is all that reading asks of one. */
const asClient = (within: Transaction): Client =>
  ({
    execute: (statement, args) =>
      within.execute(typeof statement === "string" ? { sql: statement, args: args ?? [] } : statement),
    batch: (statements) =>
      within.batch(statements.map((each) => (Array.isArray(each) ? { sql: each[0], args: each[1] ?? [] } : each))),
    protocol: "file",
  }) as Pick<Client, "execute" | "batch" | "protocol"> as Client;
