/**
 * The libSQL client the tables stand on. After a statement has met another process's lock, the file driver (libsql 0.5.29) commits
 * nothing on that connection again, and answers as if it did. So every write goes in one transaction whose COMMIT is checked, a
 * connection that met a lock is replaced, and a lock is waited for in short steps between which everything else goes on.
 */
import type { Client, InArgs, InStatement, Replicated, ResultSet, Transaction, TransactionMode } from "@libsql/client";
import { busyIn, ConnectionLost, DatabaseBusy } from "./databaseBusy.js";
import { troubleOf } from "./fileTrouble.js";
import { SideBySide, type Statement } from "./sideBySide.js";

export interface Steadily {
  /** A new connection, with its settings. */
  readonly open: () => Promise<Client>;
  readonly over: "file" | "http";
  /** Milliseconds that a statement waits for a lock in all. */
  readonly patience?: number | undefined;
}

const PATIENCE = 5000;
const STEP = 20;

/** Takes the lock and gives it back. As a script: where it is refused it leaves the connection as it was. */
const PROBE = "BEGIN IMMEDIATE; COMMIT";

type Sort = "reads" | "writes" | "stands alone";

export class SteadyClient implements Client {
  closed = false;
  /** Why the last write could not be kept, where the place is to blame; gone with the next that is. */
  trouble: string | undefined;
  readonly protocol: string;
  readonly #how: Steadily;
  #inner: Promise<Client> | undefined;
  readonly #reads = new SideBySide(
    (statements) => this.#steadily("reads", (client) => client.batch(statements, this.#reading)),
    (error) => faultOf(error) === "answer",
  );

  constructor(how: Steadily) {
    this.#how = how;
    this.protocol = how.over;
  }

  async execute(statement: InStatement, args?: InArgs): Promise<ResultSet> {
    const one = typeof statement === "string" ? { sql: statement, args: args ?? [] } : statement;
    const sort = sortOf(one);
    if (sort === "reads" && this.#how.over === "http") return (await this.#reads.ask([one]))[0]!;
    if (sort === "stands alone") return this.#steadily(sort, (client) => client.execute(one));
    const [done] = await this.#steadily(sort, (client) => client.batch([one], sort === "reads" ? this.#reading : "write"));
    return done!;
  }

  batch(statements: Statement[], mode?: TransactionMode): Promise<ResultSet[]> {
    const reads = mode !== "write" && statements.every((statement) => sortOf(statement) === "reads");
    if (reads && this.#how.over === "http" && statements.length > 0) return this.#reads.ask(statements);
    return this.#steadily(reads ? "reads" : "writes", (client) => client.batch(statements, reads ? this.#reading : "write"));
  }

  /** A hosted database may have what only reads answered by a copy that is behind. */
  get #reading(): TransactionMode {
    return this.#how.over === "file" ? "read" : "deferred";
  }

  async migrate(statements: InStatement[]): Promise<ResultSet[]> {
    return statements.length === 0 ? [] : this.#steadily("writes", (client) => client.migrate(statements));
  }

  /** All of the script or nothing. */
  executeMultiple(script: string): Promise<void> {
    return this.#steadily("writes", (client) => client.executeMultiple(`BEGIN IMMEDIATE;\n${script}\n;COMMIT`));
  }

  /** On a connection of its own: nobody else of this process writes inside it, or waits for it to read. */
  async transaction(mode: TransactionMode = "write"): Promise<Transaction> {
    const own = new SteadyClient(this.#how);
    const within = await own.#steadily(mode === "write" ? "writes" : "reads", (client) => client.transaction(mode));
    const ended = async (end: Promise<void>) => {
      try {
        await end;
      } catch (error) {
        throw ["lost", "hopeless"].includes(faultOf(error)) ? new DatabaseBusy(false, error) : error;
      } finally {
        own.close();
      }
    };
    return {
      execute: (statement) => within.execute(statement),
      batch: (statements) => within.batch(statements),
      executeMultiple: (script) => within.executeMultiple(script),
      commit: () => ended(within.commit()),
      rollback: () => ended(within.rollback()),
      close: () => {
        within.close();
        own.close();
      },
      get closed() {
        return within.closed;
      },
    };
  }

  /** A write that is left out where it would have to wait; answers whether it was done. */
  async atOnce(statement: InStatement): Promise<boolean> {
    try {
      await this.#steadily("writes", (client) => client.batch([statement], "write"), 0);
      return true;
    } catch (error) {
      if (busyIn(error)) return false;
      throw error;
    }
  }

  async sync(): Promise<Replicated> {
    return this.#steadily("reads", (client) => client.sync());
  }

  close(): void {
    this.closed = true;
    this.#drop(this.#inner);
  }

  reconnect(): void {
    this.#drop(this.#inner);
    this.closed = false;
  }

  /** What certainly did not happen is tried again until patience ends; what may have happened is not. */
  async #steadily<T>(sort: Sort, run: (client: Client) => Promise<T>, patience = this.#how.patience ?? PATIENCE): Promise<T> {
    const until = performance.now() + patience;
    let [met, lost]: [unknown, boolean] = [undefined, false];
    for (;;) {
      if (this.closed) throw new Error("The connection is closed.");
      let begun = false;
      this.#inner ??= this.#how.open();
      const inner = this.#inner;
      try {
        const client = await inner;
        if (sort !== "writes" || this.#how.over === "http" || (await isFree(client))) {
          begun = true;
          const done = await run(client);
          if (sort === "writes") this.trouble = undefined;
          return done;
        }
      } catch (error) {
        this.trouble = troubleOf(error) ?? this.trouble;
        const fault = faultOf(error);
        if (fault === "answer") throw error;
        this.#drop(inner);
        if (fault === "broken") throw begun && sort === "writes" && isUnsure(error) ? new DatabaseBusy(false, error) : error;
        if (fault === "unheard") throw new DatabaseBusy(true, error);
        if (fault === "hopeless" || (fault === "lost" && (lost || sort !== "reads")))
          throw new DatabaseBusy(sort === "reads", error);
        [met, lost] = [error, fault === "lost"];
      }
      if (performance.now() >= until) throw new DatabaseBusy(true, met);
      await new Promise((resolve) => setTimeout(resolve, STEP));
    }
  }

  /** Over HTTP what others have under way on it goes on. */
  #drop(inner: Promise<Client> | undefined): void {
    if (this.#inner === inner) this.#inner = undefined;
    if (this.#how.over === "file" || this.closed)
      inner?.then(
        (client) => client.close(),
        () => undefined,
      );
  }
}

/** Of a database that stands on one. */
export function clientOf(db: object): SteadyClient | undefined {
  const { $client } = db as { readonly $client?: unknown };
  return $client instanceof SteadyClient ? $client : undefined;
}

async function isFree(client: Client): Promise<boolean> {
  try {
    await client.executeMultiple(PROBE);
    return true;
  } catch (error) {
    if (faultOf(error) === "locked") return false;
    throw error;
  }
}

/** `locked`, `spoilt`, `unheard`: nothing was done. `lost`, `hopeless`: who knows. `broken`: this connection is no more use. */
function faultOf(error: unknown): "locked" | "spoilt" | "unheard" | "lost" | "hopeless" | "broken" | "answer" {
  for (let at = error; at instanceof Error; at = at.cause) {
    const code = "code" in at ? String(at.code) : "";
    if (code === "CLIENT_CLOSED" || /SQL statements in progress/.test(at.message)) return "spoilt";
    if (/^SQLITE_(BUSY|LOCKED|PROTOCOL)/.test(code)) return "locked";
    // SQLite opens what it may not write to for reading alone, and stays with that.
    if (/^SQLITE_(IOERR|CANTOPEN|FULL|NOMEM|READONLY)/.test(code)) return "broken";
    if (at instanceof ConnectionLost) return at.was.unheard ? "unheard" : at.was.hopeless ? "hopeless" : "lost";
    // What is no JSON is no answer of the database.
    if (code.startsWith("HRANA_") || at instanceof SyntaxError) return "lost";
  }
  return "answer";
}

/**
 * SQLite writes all of a transaction to its log before it asks the disk to keep it: where that fails it takes nothing as done, and whoever
 * opens the file next after a crash may find it whole.
 */
function isUnsure(error: unknown): boolean {
  for (let at = error; at instanceof Error; at = at.cause)
    if ("rawCode" in at && IOERR_AFTER_WRITING.includes(Number(at.rawCode))) return true;
  return false;
}

/** FSYNC, DIR_FSYNC, TRUNCATE, SHMSIZE, SHMMAP (sqlite.org/rescode.html). */
const IOERR_AFTER_WRITING = [4, 5, 6, 19, 21].map((sort) => 10 | (sort << 8));

/** Whatever is not plainly a read counts as a write. */
function sortOf(statement: Statement): Sort {
  const sql = typeof statement === "string" ? statement : Array.isArray(statement) ? statement[0] : statement.sql;
  const bare = sql.replace(/^(?:\s+|--[^\n]*|\/\*[\s\S]*?\*\/)+/, "");
  const word = /^[a-z]*/i.exec(bare)![0].toUpperCase();
  if (["SELECT", "VALUES", "EXPLAIN"].includes(word)) return "reads";
  if (word === "WITH") return /\b(insert|update|delete|replace)\b/i.test(bare) ? "writes" : "reads";
  return ["PRAGMA", "VACUUM", "ATTACH", "DETACH"].includes(word) ? "stands alone" : "writes";
}
