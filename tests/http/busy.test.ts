/** Another program holds the file's write lock: writes are refused and not done, and everything else goes on. */
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { createClient } from "@libsql/client";
import { drizzle } from "drizzle-orm/libsql";
import { describe, expect, it, onTestFinished } from "vitest";
import { connectFile } from "../../src/records/connectFile.js";
import { connectWeb } from "../../src/records/connectWeb.js";
import type { Database } from "../../src/records/database.js";
import { startEndpoint } from "../../src/tools/libsqlEndpoint.js";
import { TAPE_ECHO } from "../records/support/livedIn.js";
import { neighbour } from "../records/support/neighbour.js";
import { agreedFile } from "./support/agreedShop.js";
import { person, signedIn, tokenOf } from "./support/people.js";
import { shop } from "./support/shop.js";

/** The first is longer than any test takes; the others stand for the five seconds of a shop. */
const [PATIENT, SHORT, HASTY] = [120_000, 1000, 100];

async function agreedCopy(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-test-"));
  onTestFinished(() => rm(folder, { recursive: true }));
  await copyFile((await agreedFile()).path, join(folder, "shop.db"));
  return join(folder, "shop.db");
}

async function shopOver(path: string, patience: number) {
  const { db, close } = await connectFile(`file:${path}`, patience);
  onTestFinished(close);
  return { ...(await shop({ openDatabase: () => db })), db };
}

type Opened = Awaited<ReturnType<typeof shopOver>>;
const add = ({ send }: Pick<Opened, "send">, key: string) =>
  send("POST", "/api/owners", { name: `Owner ${key}` }, { "idempotency-key": key });
const ten = Array.from({ length: 10 }, (_, index) => `after-${index}`);

describe("while another process holds the write lock", () => {
  it("a write waits its time, then is answered 503 with Retry-After; ten later ones stand for a third process", async () => {
    const path = await agreedCopy();
    const opened = await shopOver(path, SHORT);
    const [other, third] = [await neighbour(path), await neighbour(path)];
    const before = Number(await third.count("owners"));
    await other.run("BEGIN IMMEDIATE");

    const asked = performance.now();
    let answeredAfter = 0;
    const writes = Promise.all(["a", "b", "c"].map((key) => add(opened, key))).finally(() => {
      answeredAfter = performance.now() - asked;
    });
    const took: number[] = [];
    const [pages, turn] = [["/", "/api/owners", "/api/search?q=tape"], promisify(setImmediate)];
    for (let look = 0; answeredAfter === 0; look += 1) {
      // As requests of a network come: between them timers have their turn.
      await turn();
      const from = performance.now();
      expect((await opened.call("/health")).status).toBe(200);
      expect((await opened.call(pages[look % 3]!)).status).toBe(200);
      took.push(performance.now() - from);
    }
    for (const answer of await writes) {
      expect([answer.status, answer.headers.get("retry-after")]).toEqual([503, "5"]);
      expect(await answer.json()).toMatchObject({ type: "/problems/database-busy" });
    }
    expect(answeredAfter).toBeGreaterThanOrEqual(SHORT);
    expect(answeredAfter).toBeLessThan(10 * SHORT);
    // The middle one: on a loaded machine a single look may be slow for other reasons.
    expect(took.sort((a, b) => a - b)[Math.floor(took.length / 2)]).toBeLessThan(SHORT / 2);
    expect(took.length).toBeGreaterThan(3);

    await other.run("ROLLBACK");
    expect(await third.count("owners")).toBe(before);
    for (const key of ["a", ...ten.slice(1)]) expect((await add(opened, key)).status).toBe(201);
    expect(await third.count("owners")).toBe(before + 10);
    for (const free of [other, third]) await free.run("BEGIN IMMEDIATE; COMMIT");
  });

  it("a browser gets a page that says nothing was changed", async () => {
    const path = await agreedCopy();
    const opened = await shopOver(path, HASTY);
    const other = await neighbour(path);
    const desk = await signedIn(opened, await person(opened, "Wilhelmina Stråhle", "manager"));
    await other.run("BEGIN IMMEDIATE");
    const answer = await desk.send("/sign-out");
    expect([answer.status, answer.headers.get("retry-after")]).toEqual([503, "5"]);
    expect(await answer.text()).toContain("so nothing was changed; send it again");
  });

  it("no page and no list waits, not even where it would note that a session or a token was used", async () => {
    const path = await agreedCopy();
    const opened = await shopOver(path, PATIENT);
    const staffId = await person(opened, "Wilhelmina Stråhle", "manager");
    const desk = await signedIn(opened, staffId);
    const token = await tokenOf(opened, staffId, "read", "admin");
    const other = await neighbour(path);
    await other.run("BEGIN IMMEDIATE");
    opened.pass(20 * 60_000);
    const paths = [...new Set(opened.app.routes.filter(({ method }) => method === "GET").map((route) => route.path))];
    // A wrong invitation is counted, as a wrong secret is: that is a write.
    const plain = paths.filter((each) => !/[*{]/.test(each) && each !== "/sign-in/invitation");
    expect(plain.length).toBeGreaterThan(80);
    for (const each of plain.map((path) => path.replaceAll(/:\w+/g, TAPE_ECHO))) {
      const answer = each.startsWith("/api/")
        ? await opened.call(each, { headers: { authorization: `Bearer ${token}` } })
        : await desk.get(each);
      expect([each, answer.status < 500]).toEqual([each, true]);
      const body = await answer.text();
      if (each === "/api/order-list") expect(body).toMatch(/"number":"J-2026-\d+"/);
    }
  });

  // The control: over the bare driver a statement alone is answered 201 and lost, a batch is answered 500; neither is ever kept again.
  it("an app without the steady connection would keep none of the ten", async () => {
    const path = await agreedCopy();
    const client = createClient({ url: `file:${path}`, timeout: HASTY });
    onTestFinished(() => client.close());
    const opened = await shop({ openDatabase: () => drizzle(client) });
    const [other, third] = [await neighbour(path), await neighbour(path)];
    const before = Number(await third.count("owners"));
    const post = (name: string) => opened.send("POST", "/api/owners", { name });
    await other.run("BEGIN IMMEDIATE");
    expect((await post("a")).status).toBe(500);
    await other.run("ROLLBACK");
    for (const name of ten) await post(name);
    expect(Number(await third.count("owners")) - before).toBeLessThan(10);
  });
});

describe("a hosted database that gives no answer", () => {
  it("is answered 503: a write may have been done, a read was not", async () => {
    const path = await agreedCopy();
    const endpoint = await startEndpoint(path);
    const db: Database = connectWeb(endpoint.url);
    const opened = await shop({ openDatabase: () => db });
    expect((await opened.call("/api/owners")).status).toBe(200);
    await endpoint.stop();
    const read = await opened.call("/api/owners");
    expect([read.status, await read.json()]).toMatchObject([503, { type: "/problems/database-busy" }]);
  });
});
