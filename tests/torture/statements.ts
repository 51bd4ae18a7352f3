/** A story told once for every statement of it, with that one failing: nothing half stands, and sent again it is done. */
import { createHash } from "node:crypto";
import { copyFile } from "node:fs/promises";
import { join } from "node:path";
import type { Client, InArgs, InStatement } from "@libsql/client";
import type { Database } from "../../src/records/database.js";
import { startServer } from "../../src/server.js";
import { type FreshShop, freshShop, opened } from "./shopFile.js";
import { faultsIn } from "./standing.js";
import { type Answered, isDone, MAKINGS, type Making, pressing } from "./writes.js";

const HAND = { by: "Tamsin Oakhollow" };

const STORY: Readonly<Record<string, Making>> = {
  "new job": MAKINGS["new job"],
  "draft saved": MAKINGS["draft saved"],
  "estimate issued": pressing(
    ({ draftJob }) => `/jobs/${draftJob}/issue`,
    "Issue revision 1",
    () => HAND,
  ),
  "work logged": MAKINGS["entry by page"],
  "goods in": MAKINGS["goods by page"],
  "extra fault": MAKINGS["extra fault"],
};

export interface Failed {
  /** Of each act: its statements that failed in turn. */
  readonly statements: Record<string, number>;
  readonly faults: string[];
}

/** `written`: only the statements of transactions that write, since one that reads has nothing to leave behind. */
export async function failedOneByOne(which: "every" | "written", acts = Object.keys(STORY)): Promise<Failed> {
  const told: Failed = { statements: {}, faults: [] };
  const shop = await freshShop();
  const file = join(shop.folder, "ohmwright.db");
  const stood = join(shop.folder, "before.db");
  try {
    for (const act of acts) {
      const making = STORY[act]!;
      await copyFile(file, stood);
      let last = 1;
      for (let nth = 1; nth <= last; nth += 1) {
        await copyFile(stood, file);
        last = await failing(shop, act, making, nth);
      }
      told.statements[act] = last;
      told.faults.push(
        ...(await faultsIn(shop.folder, shop.shop, { done: [], open: [] }, shop.before)).map((it) => `${act}: ${it}`),
      );
    }
  } finally {
    await shop.gone();
  }
  return told;

  /** Answers how many there are. */
  async function failing(fresh: FreshShop, act: string, making: Making, nth: number): Promise<number> {
    const { db, close } = await opened(fresh);
    const server = await startServer({ db, host: "127.0.0.1", port: 0, secret: undefined, write: () => undefined });
    try {
      const url = server.url.slice(0, -1);
      const send = await making(`${act} mark`, fresh.shop, url);
      const before = await everything(db);
      const fails = statementsOf(db, which);
      fails.at(nth);
      const first = await send(url);
      fails.at(0);
      const after = await everything(db);
      const wrong = (what: string, { status, text }: Answered) =>
        told.faults.push(`${act}, statement ${nth} (${fails.failed()}): ${what}; ${status} ${text.slice(0, 200)}`);
      if (fails.failed() === undefined) throw new Error(`${act} has no statement ${nth}.`);
      if (isDone(first) && before === after) wrong("said to be done, and nothing stands", first);
      if (!isDone(first) && before !== after) wrong("refused, and something stands", first);
      fails.count();
      const again = await send(url);
      if (!isDone(again)) wrong("not done when sent again", again);
      const counted = fails.counted();
      await db.run("PRAGMA wal_checkpoint(TRUNCATE)");
      return counted;
    } finally {
      await server.stop();
      close();
    }
  }
}

const FAILS = "INSERT INTO no_such_table VALUES (1)";
type Statement = InStatement | [string, InArgs?];

const sqlOf = (statement: Statement): string =>
  typeof statement === "string" ? statement : Array.isArray(statement) ? statement[0] : statement.sql;
const writes = (statement: Statement): boolean => !/^\s*select/i.test(sqlOf(statement));

/** Of a connection from now on: counts its statements, and has one of them fail inside its transaction. */
export function statementsOf(db: Database, which: "every" | "written") {
  const { $client: client } = db as unknown as { readonly $client: Client };
  const [batch, execute] = [client.batch.bind(client), client.execute.bind(client)];
  let [made, at]: [number, number] = [0, 0];
  let failed: string | undefined;
  const through = (statements: readonly Statement[]): Statement[] =>
    which === "written" && !statements.some(writes)
      ? [...statements]
      : statements.map((each) => {
          made += 1;
          if (made !== at) return each;
          failed = sqlOf(each).slice(0, 80);
          return FAILS;
        });
  client.batch = (statements, mode) => batch(through(statements), mode);
  client.execute = ((statement: InStatement, args?: InArgs) => {
    const [only] = through([statement]);
    return only === FAILS ? execute(FAILS) : execute(statement as string, args);
  }) as Client["execute"];
  return {
    at: (nth: number) => {
      [made, at] = [0, nth];
      if (nth > 0) failed = undefined;
    },
    count: () => {
      made = 0;
    },
    counted: () => made,
    failed: () => failed,
  };
}

/** A hash of every row of every table. */
export async function everything(db: Database): Promise<string> {
  const tables = await db.run("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name");
  const hash = createHash("sha256");
  for (const { name } of tables.rows) {
    const { rows } = await db.run(`SELECT * FROM "${name}"`);
    hash.update(`${name}\n`);
    for (const row of rows)
      hash.update(
        JSON.stringify(Object.values(row), (_, value) =>
          value instanceof ArrayBuffer ? Buffer.from(value).toString("hex") : value,
        ),
      );
  }
  return hash.digest("hex");
}
