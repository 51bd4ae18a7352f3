/** Builds, opens or makes the shop's database, fills it on the first start, and serves it. */
import { existsSync } from "node:fs";
import { link, mkdir, mkdtemp, readdir, rm, stat } from "node:fs/promises";
import { createServer } from "node:net";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import { connectFile } from "../../records/connectFile.js";
import type { Database } from "../../records/database.js";
import { fileTrouble } from "../../records/fileTrouble.js";
import { photoFolder } from "../../records/photoFolder.js";
import { staff } from "../../records/staff.js";
import { build } from "../build.js";
import { type FirstShop, fillOnce } from "../firstShop.js";
import { migrateDatabase, unready } from "../migrateDatabase.js";
import { wholeFile } from "../wholeFile.js";
import type { Start } from "./options.js";

export type Opened =
  | { readonly is: "open"; readonly url: string; readonly hasAccounts: boolean; readonly stop: () => Promise<void> }
  | { readonly is: "refused"; readonly why: string; readonly code: number };

export async function open(start: Start, say: (text: string) => void): Promise<Opened> {
  const { empty, folder, host, port, secret, origin, proxies, hookHosts } = start;
  // The server's modules hold what the build makes.
  await build();
  const { startServer } = await import("../../server.js");

  // Before anything is written.
  if (await taken(host, port)) return inUse(port);
  let close = (): void => undefined;
  let db: Database;
  let loaded: FirstShop | undefined;
  try {
    await mkdir(folder, { recursive: true });
    const shop = empty ? "empty" : "year";
    const made = await firstFile(folder, shop);
    ({ db, close } = await wholeFile(`${folder}/ohmwright.db`));
    await migrateDatabase(db);
    loaded = made ?? (await fillOnce(db, shop, new Date()));
  } catch (error) {
    close();
    const trouble = fileTrouble(error, folder);
    const refusal = trouble ? { why: trouble, code: 1 } : unready(error);
    if (refusal) return { is: "refused", ...refusal };
    throw error;
  }
  if (loaded === "year")
    say(`${folder} was empty: the demo shop was loaded, with a year of jobs. Everyone and everything in it is invented.`);
  if (loaded === "empty")
    say(`${folder} was empty: an empty shop was made. Its first page asks for your rates, then for the first estimate.`);
  if (!loaded && empty) say(`${folder} holds a shop already, so --empty changed nothing. Give another folder with --data.`);

  try {
    const server = await startServer({
      ...{ db, host, port, secret, origin, proxies, hookHosts },
      photos: photoFolder(`${folder}/photos`),
    });
    const stop = async () => {
      await server.stop();
      close();
    };
    return { is: "open", url: server.url, hasAccounts: await staff.anyone(db), stop };
  } catch (error) {
    close();
    const { code, message } = error as NodeJS.ErrnoException;
    return code === "EADDRINUSE" ? inUse(port) : { is: "refused", why: message, code: 1 };
  }
}

/** A first start that is broken off leaves no part of a shop: the file comes into its place whole, and never over another. */
async function firstFile(folder: string, shop: FirstShop): Promise<FirstShop | undefined> {
  const target = join(folder, "ohmwright.db");
  if (existsSync(target)) return undefined;
  await withoutLeftovers(folder);
  const work = await mkdtemp(join(folder, FILLING));
  try {
    const { db, close } = await connectFile(`file:${work}/ohmwright.db`);
    try {
      await migrateDatabase(db);
      const loaded = await fillOnce(db, shop, new Date());
      const whole = join(work, "whole.db");
      await db.run(sql`VACUUM INTO ${whole}`);
      await link(whole, target);
      return loaded;
    } finally {
      close();
    }
  } catch (error) {
    // Another start was sooner.
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return undefined;
    throw error;
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

const FILLING = ".filling-";
const MINUTE = 60_000;

/** Of starts that were killed; one that goes on beside this one is younger. */
async function withoutLeftovers(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    if (!name.startsWith(FILLING)) continue;
    const path = join(folder, name);
    if (Date.now() - (await stat(path)).mtimeMs > 10 * MINUTE) await rm(path, { recursive: true, force: true });
  }
}

const inUse = (port: number) => ({ is: "refused", why: `Port ${port} is in use; give another with --port.`, code: 1 }) as const;

/** What else is wrong with the address is told when the server listens on it. */
const taken = (host: string, port: number): Promise<boolean> =>
  new Promise((resolve) => {
    const probe = createServer();
    probe.once("error", (error: NodeJS.ErrnoException) => resolve(error.code === "EADDRINUSE"));
    probe.listen(port, host, () => probe.close(() => resolve(false)));
  });
