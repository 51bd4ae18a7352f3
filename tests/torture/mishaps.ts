/**
 * A hosted database whose answers come late, by halves or not at all. Whatever happens to whichever request of an act, it stands once or
 * not at all, whoever asked hears which, or that nobody knows, as 503 with Retry-After; and sent again under its key it stands once.
 */
import { join } from "node:path";
import { createClient } from "@libsql/client/web";
import { drizzle } from "drizzle-orm/libsql/web";
import { connectFile } from "../../src/records/connectFile.js";
import { connectWeb } from "../../src/records/connectWeb.js";
import type { Database } from "../../src/records/database.js";
import { startServer } from "../../src/server.js";
import { MISHAPS, type Mishap, throughWire } from "../records/support/wire.js";
import { freshShop } from "./shopFile.js";
import { faultsIn } from "./standing.js";
import { type Answered, isDone, MAKINGS, type Sort } from "./writes.js";

const TABLES = { "goods by API": "goods_in", "entry by page": "work_log" } as const;
type Told = keyof typeof TABLES & Sort;

export interface Mishapped {
  readonly faults: readonly string[];
  /** By what happened: how often each status was heard. */
  readonly heard: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

export const ACTS = Object.keys(TABLES) as readonly Told[];

/** Milliseconds that the shop waits for its database, in place of ten seconds. */
const WAIT = 3000;

const steady = (url: string): Database => connectWeb(url, undefined, { patience: 300, wait: WAIT });
/** The control: the driver as it comes. */
export const bare = (url: string): Database => drizzle(createClient({ url }));

export async function mishapped(
  acts: readonly Told[] = ACTS,
  mishaps = Object.keys(MISHAPS) as readonly Mishap[],
  connect = steady,
): Promise<Mishapped> {
  const shop = await freshShop();
  const path = join(shop.folder, "ohmwright.db");
  const faults: string[] = [];
  const heard: Record<string, Record<string, number>> = {};
  const { wire, url: database, stop } = await throughWire(path);
  const direct = await connectFile(`file:${path}`);
  const db = connect(database);
  const server = await startServer({ db, host: "127.0.0.1", port: 0, secret: undefined, write: () => undefined });
  const url = server.url.slice(0, -1);
  const rows = async (table: string, mark: string): Promise<number> => {
    const { rows } = await direct.db.run(`SELECT count(*) AS n FROM ${table} WHERE note = '${mark}'`);
    return (rows[0] as unknown as { readonly n: number }).n;
  };
  try {
    for (const act of acts)
      for (const mishap of mishaps) {
        let last = 1;
        for (let nth = 1; nth <= last; nth += 1) {
          const mark = `${act}, ${mishap}, request ${nth}`;
          const send = await MAKINGS[act](mark, shop.shop, url);
          Object.assign(wire, { arrived: 0 });
          wire.next.splice(0, Number.POSITIVE_INFINITY, ...Array<undefined>(nth - 1).fill(undefined), mishap);
          const first = await send(url);
          wire.next.splice(0);
          if (nth === 1) last = Math.min(wire.arrived, 12);
          const tally = heard[mishap] ?? {};
          heard[mishap] = { ...tally, [first.status]: (tally[first.status] ?? 0) + 1 };
          const stood = await rows(TABLES[act], mark);
          faults.push(...amiss(first, stood).map((what) => `${mark}: ${what}; ${first.status} ${first.text.slice(0, 200)}`));
          const again = await send(url);
          if (!isDone(again)) faults.push(`${mark}: sent again, ${again.status} ${again.text.slice(0, 200)}`);
          const stands = await rows(TABLES[act], mark);
          if (stands !== 1) faults.push(`${mark}: sent again it stands ${stands} times`);
        }
      }
  } finally {
    await server.stop();
    direct.close();
    await stop();
  }
  faults.push(...(await faultsIn(shop.folder, shop.shop, { done: [], open: [] }, shop.before)));
  await shop.gone();
  return { faults, heard };
}

function amiss(first: Answered, stood: number): readonly string[] {
  if (isDone(first)) return stood === 1 ? [] : [`said to be done, and stands ${stood} times`];
  if (first.status !== 503) return [`not 503 but ${first.status}`];
  if (first.retryAfter === undefined) return ["no Retry-After"];
  const unsure = /outcome-unknown|may or may not/.test(first.text);
  return stood > 0 && !unsure ? ["said to have changed nothing, and stands"] : [];
}
