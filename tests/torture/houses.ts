/** The demo shop served: over its file, by two processes over one file, and over libSQL by HTTP. */
import { join } from "node:path";
import { connectWeb } from "../../src/records/connectWeb.js";
import type { Database } from "../../src/records/database.js";
import { startServer } from "../../src/server.js";
import { startEndpoint } from "../../src/tools/libsqlEndpoint.js";
import { byStatement } from "./byStatement.js";
import { bundle, served } from "./server.js";
import { type FreshShop, freshShop, opened } from "./shopFile.js";

export interface House extends FreshShop {
  /** Of each server that stands on it. */
  readonly urls: readonly string[];
  readonly shut: () => Promise<void>;
}

const here = { host: "127.0.0.1", port: 0, secret: undefined, write: () => undefined };

const overFile = async (spoil: (db: Database) => void = () => undefined): Promise<House> => {
  const shop = await freshShop();
  const { db, close } = await opened(shop);
  spoil(db);
  const server = await startServer({ db, ...here });
  return { ...shop, urls: [server.url.slice(0, -1)], shut: () => server.stop().finally(close) };
};

export const HOUSES = {
  "a file": () => overFile(),
  "a file that two processes serve": async (): Promise<House> => {
    const shop = await freshShop();
    const program = await bundle();
    const both = await Promise.all([served(shop.folder, program), served(shop.folder, program)]);
    const shut = async () => void (await Promise.all(both.map(({ kill }) => kill())));
    return { ...shop, urls: both.map(({ url }) => url), shut };
  },
  "libSQL over HTTP": async (): Promise<House> => {
    const shop = await freshShop();
    const endpoint = await startEndpoint(join(shop.folder, "ohmwright.db"));
    const server = await startServer({ db: connectWeb(endpoint.url), ...here });
    const shut = () => server.stop().finally(endpoint.stop);
    return { ...shop, urls: [server.url.slice(0, -1)], shut };
  },
} satisfies Record<string, () => Promise<House>>;

/** The control of races: an act whose head has moved leaves what it wrote before. */
export const brokenHouse = () => overFile(byStatement);
