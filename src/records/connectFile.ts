import { type Client, createClient, LibsqlError, type TransactionMode } from "@libsql/client";
/** A local `file:` database for Node. WAL and full synchronisation: an acknowledged write survives a crash. */
import { drizzle } from "drizzle-orm/libsql";
import type { Database } from "./database.js";
import { type Asked, FileReads } from "./fileReads.js";
import { SteadyClient } from "./steadyClient.js";

export interface FileDatabase {
  readonly db: Database;
  readonly close: () => void;
}

/** The driver itself waits for nobody: it would stop the whole process meanwhile. */
async function open(url: string): Promise<Client> {
  const client = withCode(() => createClient({ url, timeout: 0, concurrency: 1 }));
  try {
    for (const setting of ["journal_mode = WAL", "foreign_keys = ON", "synchronous = FULL"])
      await client.execute(`PRAGMA ${setting}`);
    return withReads(client, String((await client.execute("PRAGMA database_list")).rows[0]!.file ?? ""));
  } catch (error) {
    client.close();
    throw error;
  }
}

/** Opened at the first read. A database in memory is its one connection. */
function withReads(client: Client, path: string): Client {
  if (path === "") return client;
  let reads: FileReads | undefined;
  const all = (asked: readonly Asked[]) => {
    reads ??= withCode(() => new FileReads(path));
    return reads.all(asked);
  };
  const [batch, close] = [client.batch.bind(client), client.close.bind(client)];
  return Object.assign(client, {
    batch: async (asked: Asked[], mode?: TransactionMode) => (mode === "read" ? all(asked) : batch(asked, mode)),
    close: () => {
      reads?.close();
      close();
    },
  } satisfies Partial<Client>);
}

/** The driver (libsql 0.5.29) gives no code for a file that cannot be opened: it would count as an answer of the database. */
function withCode<T>(connect: () => T): T {
  try {
    return connect();
  } catch (error) {
    const { message } = error as Error;
    throw /Unable to open/.test(message) ? new LibsqlError(message, "SQLITE_CANTOPEN") : error;
  }
}

/** `url` is `file:PATH`; another process that writes is waited for, up to five seconds or `patience` milliseconds. */
export async function connectFile(url: string, patience?: number): Promise<FileDatabase> {
  const client = new SteadyClient({ open: () => open(url), over: "file", patience });
  await client.execute("PRAGMA foreign_keys");
  return { db: drizzle(client), close: () => client.close() };
}
