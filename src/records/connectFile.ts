import { createClient } from "@libsql/client";
/** A local `file:` database for Node. WAL and full synchronisation: an acknowledged write survives a crash. */
import { drizzle } from "drizzle-orm/libsql";
import type { Database } from "./database.js";

export interface FileDatabase {
  readonly db: Database;
  readonly close: () => void;
}

/** `url` is `file:PATH`; another process holding the file is waited for, up to five seconds. */
export async function connectFile(url: string): Promise<FileDatabase> {
  const client = createClient({ url, timeout: 5000 });
  await client.execute("PRAGMA journal_mode = WAL");
  await client.execute("PRAGMA foreign_keys = ON");
  return { db: drizzle(client), close: () => client.close() };
}
