/** The Worker with what wrangler.toml puts in place of packages, which no other test loads: bundled as it is sent, and run here. */
import { copyFile, mkdir, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { expect, it, onTestFinished } from "vitest";
import { fillOnce } from "../../src/tools/firstShop.js";
import { startEndpoint } from "../../src/tools/libsqlEndpoint.js";
import { authenticator } from "../http/support/authenticator.js";
import { madeOnce, migratedFile } from "../http/support/madeOnce.js";
import { browser } from "../http/support/people.js";
import { demoFile } from "../http/support/shop.js";

const BASE = "https://shop.example";
const SECRET = "the secret of this test";

const emptyShop = madeOnce((db) => fillOnce(db, "empty", new Date("2026-11-25T09:00:00Z")), migratedFile);

type Fetch = (request: Request, bindings: object) => Promise<Response>;

async function sent(): Promise<Fetch> {
  const told = await readFile("wrangler.toml", "utf8");
  const table = /^\[alias\]\n([\s\S]*?)^\[/m.exec(told)![1]!;
  const places = new Map([...table.matchAll(/^"(.+)" = "(.+)"$/gm)].map(([, from, to]): [string, string] => [from!, to!]));
  expect(places.size).toBeGreaterThan(4);
  const outfile = resolve(".built/sent/worker.mjs");
  await mkdir(".built/sent", { recursive: true });
  await build({
    ...{ entryPoints: ["src/worker.ts"], outfile, bundle: true, format: "esm", external: ["node:*"], logLevel: "silent" },
    ...{ conditions: ["workerd", "worker", "browser"], jsx: "automatic", jsxImportSource: "#page" },
    plugins: [
      {
        name: "in place of packages",
        setup: (on) =>
          on.onResolve({ filter: /^[^/]/ }, ({ path, kind }) => {
            const place = kind === "entry-point" ? undefined : places.get(path);
            return place ? { path: resolve(place.startsWith(".") ? place : `node_modules/${place}`) } : undefined;
          }),
      },
    ],
  });
  return (await import(pathToFileURL(outfile).href)).default.fetch;
}

async function over(file: string): Promise<object> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  await copyFile(file, join(folder, "shop.db"));
  const endpoint = await startEndpoint(join(folder, "shop.db"));
  onTestFinished(async () => {
    await endpoint.stop();
    await rm(folder, { recursive: true });
  });
  return { OHMWRIGHT_SECRET: SECRET, LIBSQL_URL: endpoint.url };
}

it("sets up a shop by a passkey, signs in by it, and prints", async () => {
  const fetch = await sent();
  const empty = await over((await emptyShop()).path);
  const app = { request: (request: Request) => fetch(request, empty) } as never;
  const device = await authenticator(BASE);
  const at = browser({ app }, BASE);
  expect((await at.send("/sign-in", { secret: SECRET })).status).toBe(303);
  const passkey = await device.create(await at.options("/sign-in/new-passkey", { name: "Tamsin" }));
  const shop = { shopName: "Quellmarsh", currency: "GBP", locale: "en-GB", timeZone: "Europe/Prague", paper: "A4" };
  expect((await at.send("/set-up", { ...shop, hourlyRate: "60", tax: "none", name: "Tamsin", passkey })).status).toBe(200);
  const again = browser({ app }, BASE);
  const shown = await device.get(await again.options("/sign-in/passkey"));
  expect((await again.send("/sign-in", { passkey: shown })).status).toBe(303);

  const demo = await over((await demoFile()).path);
  const [job] = JSON.parse(await readFile("fixtures/demo/shop.json", "utf8")).jobs;
  const headers = { authorization: `Bearer ${SECRET}` };
  const paper = await fetch(new Request(`${BASE}/estimates/${job.estimates[0].id}.pdf`, { headers }), demo);
  expect([paper.status, paper.headers.get("content-type")]).toEqual([200, "application/pdf"]);
  expect((await paper.text()).slice(0, 5)).toBe("%PDF-");
});
