import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { migrate } from "drizzle-orm/libsql/migrator";
import { describe, expect, it, onTestFinished } from "vitest";
import { estimate } from "../../src/estimating/estimate.js";
import { connectFile } from "../../src/records/connectFile.js";
import { isRefused } from "../../src/records/constraint.js";
import { contentHash } from "../../src/records/contentHash.js";
import { estimates } from "../../src/records/estimates.js";
import { jobs } from "../../src/records/jobs.js";
import { modelNamed } from "../../src/records/models.js";
import { offers, offersFor } from "../../src/records/offers.js";
import { owners } from "../../src/records/owners.js";
import { partKinds } from "../../src/records/partKinds.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { settings, shopSettings } from "../../src/records/settings.js";
import { units, unitsOf } from "../../src/records/units.js";
import { demo, freshDatabase, shop } from "../http/support/shop.js";
import { draftAdded, draftSaved, issue, outgoing } from "./support/drafts.js";
import { change, put } from "./support/put.js";

const AT = "2026-11-25T09:00:00.000Z";
const LATER = "2026-11-26T09:00:00.000Z";

async function folder(): Promise<string> {
  const made = await mkdtemp(join(tmpdir(), "ohmwright-records-"));
  onTestFinished(() => rm(made, { recursive: true }));
  return made;
}

describe("the database", () => {
  it("has only STRICT tables of its own, with foreign keys on", async () => {
    const db = await freshDatabase();
    const { rows } = await db.run(
      "SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE '\\_\\_%' ESCAPE '\\'",
    );
    expect(rows.length).toBeGreaterThan(9);
    expect(rows.filter(({ strict }) => strict !== 1)).toEqual([]);
    expect((await db.run("PRAGMA foreign_keys")).rows[0]).toMatchObject({ foreign_keys: 1 });
  });

  it("writes ahead, syncs in full, and stops for nobody in the driver, on every connection", async () => {
    const url = `file:${await folder()}/shop.db`;
    const { db, close } = await connectFile(url);
    onTestFinished(close);
    expect((await db.run("PRAGMA journal_mode")).rows[0]).toMatchObject({ journal_mode: "wal" });
    expect((await db.run("PRAGMA synchronous")).rows[0]).toMatchObject({ synchronous: 2 });
    expect((await db.run("PRAGMA busy_timeout")).rows[0]).toMatchObject({ timeout: 0 });
    await db.transaction(async (within) => {
      expect((await within.run("PRAGMA busy_timeout")).rows[0]).toMatchObject({ timeout: 0 });
      expect((await within.run("PRAGMA foreign_keys")).rows[0]).toMatchObject({ foreign_keys: 1 });
    });
  });

  it("can be migrated again without harm, and every numbered migration is in the journal", async () => {
    const { db } = await shop();
    const before = await owners.list(db, { limit: 200 });
    await migrate(db, { migrationsFolder: "migrations" });
    expect(await owners.list(db, { limit: 200 })).toEqual(before);
    const files = (await readdir("migrations")).filter((name) => name.endsWith(".sql")).map((name) => name.replace(".sql", ""));
    const { entries } = JSON.parse(await readFile("migrations/meta/_journal.json", "utf8")) as { entries: { tag: string }[] };
    expect(entries.map(({ tag }) => tag)).toEqual(files.sort());
  });

  it("keeps what was acknowledged when the process is killed", async () => {
    const { spawn } = await import("node:child_process");
    const path = join(await folder(), "shop.db");
    const first = await connectFile(`file:${path}`);
    await migrate(first.db, { migrationsFolder: "migrations" });
    first.close();
    const writer = spawn(process.execPath, ["--import", "tsx", "tests/records/support/writer.ts", path], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    const acknowledged: string[] = [];
    for await (const chunk of writer.stdout) {
      acknowledged.push(...String(chunk).split("\n").filter(Boolean));
      if (acknowledged.length >= 40) writer.kill("SIGKILL");
    }
    const again = await connectFile(`file:${path}`);
    onTestFinished(again.close);
    const kept = new Set((await owners.list(again.db, { limit: 100_000 })).rows.map(({ id }) => id));
    expect(acknowledged.length).toBeGreaterThanOrEqual(40);
    expect(acknowledged.filter((id) => !kept.has(id))).toEqual([]);
  });
});

describe("the same functions of every noun", () => {
  it("give back what was put in, and absent stays absent", async () => {
    const db = await freshDatabase();
    const value = { name: "Žofie", address: ["1 Larkholt Rise"], notes: "a\nb" };
    const kept = { ...value, id: "o", version: 1, createdAt: AT, updatedAt: AT };
    expect(await put(db, owners, "o", value, AT)).toEqual(kept);
    expect(await owners.find(db, "o")).toEqual(kept);
    expect(await owners.find(db, "nobody")).toBeUndefined();
  });

  it("write the keys they are given and no other, an undefined one emptied, and keep the day it was added", async () => {
    const db = await freshDatabase();
    await put(db, owners, "o", { name: "Žofie", phone: "1", email: "z@larkholt.example" }, AT);
    const changed = { name: "Žofie K.", email: "z@larkholt.example", id: "o", version: 2, createdAt: AT, updatedAt: LATER };
    expect(await change(db, owners, "o", { name: "Žofie K.", phone: undefined } as never, LATER)).toEqual(changed);
    expect(await owners.find(db, "o")).toEqual(changed);
  });

  it("are refused by the database where a version moved, an id is in use, or nobody is at the end of a link", async () => {
    const db = await freshDatabase();
    await put(db, owners, "o", { name: "First" }, AT);
    await change(db, owners, "o", { name: "Second" }, AT);
    const refused = (writing: Promise<unknown>) => writing.then(() => false, isRefused);
    expect(await refused(change(db, owners, "o", { name: "Third" }, AT, 1))).toBe(true);
    expect(await refused(put(db, owners, "o", { name: "Third" }, AT))).toBe(true);
    expect(await refused(put(db, units, "u", { ownerId: "nobody", maker: "m", model: "n" }, AT))).toBe(true);
    expect(await refused(put(db, jobs, "j", { ownerId: "o", unitId: "nobody", arrivedOn: "2026-11-25" }, AT))).toBe(true);
    expect(await owners.find(db, "o")).toMatchObject({ name: "Second", version: 2 });
  });

  it("list either way round, page by page", async () => {
    const db = await freshDatabase();
    for (const id of ["c", "a", "b", "d", "e"]) await put(db, owners, id, { name: id }, AT);
    const ids = async (wanted: Parameters<typeof owners.list>[1]) => {
      const page = await owners.list(db, wanted);
      return [page.rows.map(({ id }) => id).join(""), page.next];
    };
    expect(await ids({ limit: 2 })).toEqual(["ab", "b"]);
    expect(await ids({ limit: 2, after: "b" })).toEqual(["cd", "d"]);
    expect(await ids({ limit: 2, after: "d" })).toEqual(["e", undefined]);
    expect(await ids({ limit: 3, newestFirst: true })).toEqual(["edc", "c"]);
    expect(await ids({ limit: 3, newestFirst: true, after: "c" })).toEqual(["ba", undefined]);
    expect(await ids({ limit: 5 })).toEqual(["abcde", undefined]);
  });

  it("keep text as text, whatever it looks like", async () => {
    const db = await freshDatabase();
    const names = ["'; DROP TABLE owners; --", "<script>", "=1+1", "007", "null", "🎛️", "ﬀ é é", "a\r\nb"];
    for (const [at, name] of names.entries()) await put(db, owners, String(at), { name }, AT);
    expect((await owners.list(db, { limit: 100 })).rows.map(({ name }) => name)).toEqual(names);
  });
});

describe("the demo shop", () => {
  it("stands in the records as in its file", async () => {
    const { db } = await shop();
    const given = await demo();
    expect(await shopSettings(db)).toMatchObject(given.settings);
    for (const { id, ...value } of given.models)
      expect(await modelNamed(db, value.maker.toUpperCase(), value.model.toLowerCase())).toMatchObject({ ...value, id });
    for (const { id, ...value } of given.partKinds) expect(await partKinds.find(db, id)).toMatchObject(value);
    for (const { id, ...value } of given.offers) expect(await offers.find(db, id)).toMatchObject(value);
    for (const { id, ...value } of given.units) expect(await units.find(db, id)).toMatchObject(value);
    const wanted = [given.partKinds[0]!.id, given.partKinds[1]!.id];
    expect((await offersFor(db, wanted)).map(({ id }) => id).sort()).toEqual(
      given.offers
        .filter(({ kind }) => wanted.includes(kind))
        .map(({ id }) => id)
        .sort(),
    );
    expect((await unitsOf(db, given.owners[0]!.id)).map(({ id }) => id)).toEqual(
      given.units.filter(({ ownerId }) => ownerId === given.owners[0]!.id).map(({ id }) => id),
    );
  });

  it("has a sheet for every estimate, the very one the engine gives for the whole input", async () => {
    const { db } = await shop();
    const { rows } = await estimates.list(db, { limit: 100 });
    expect(rows.length).toBeGreaterThan(2);
    for (const row of rows) expect(estimate(await estimates.inputOf(db, row))).toEqual({ ok: true, sheet: row.sheet });
  });

  it("numbers its jobs in the order they are given", async () => {
    const { db } = await shop();
    const given = await demo();
    const numbers = await Promise.all(given.jobs.map(async ({ id }) => (await jobs.find(db, id))?.number));
    expect(numbers).toEqual(given.jobs.map((_, at) => `J-2026-${String(at + 1).padStart(4, "0")}`));
  });
});

describe("an estimate", () => {
  const draftOf = async (db: Parameters<typeof estimates.find>[0]) => (await estimates.list(db, { limit: 1 })).rows[0]!;

  it("may be a draft with problems: it is kept as typed, without a sheet, and cannot be issued", async () => {
    const { db } = await shop();
    const draft = await draftOf(db);
    const input = { ...draft.input, items: draft.input.items.map((item) => ({ ...item, count: -1 })) };
    const answer = await draftSaved(db, draft.id, 1, { ...draft, input }, AT);
    if (!answer.record) throw new Error(answer.is);
    expect(answer.record.sheet).toBeUndefined();
    expect(answer.record.input).toEqual(input);
    expect((await estimates.problemsOf(db, answer.record)).map(({ name }) => name)).toContain("count negative");
    expect(await issue(db, draft.id, 2, outgoing(), AT)).toMatchObject({ is: "estimate unready" });
  });

  it("once issued is refused any change by the records and by the database itself", async () => {
    const { db } = await shop();
    const draft = await draftOf(db);
    expect(await issue(db, draft.id, 9, outgoing(), AT)).toMatchObject({ is: "version moved" });
    expect(await issue(db, draft.id, 1, outgoing(), AT)).toMatchObject({
      is: "issued",
      record: { issuedBy: "Wilhelmina Stråhle", issuedAt: AT },
    });
    expect(await draftSaved(db, draft.id, 2, draft, AT)).toMatchObject({ is: "estimate issued" });
    await expect(db.run(`UPDATE estimates SET sheet = NULL WHERE id = '${draft.id}'`)).rejects.toMatchObject({
      cause: { message: expect.stringContaining("never changes") },
    });
    await expect(db.run("DELETE FROM estimates")).rejects.toThrow();
    await expect(db.run("DELETE FROM jobs")).rejects.toThrow();
    await expect(db.run("UPDATE rate_books SET name = 'x'")).rejects.toThrow();
  });

  it("takes the next number of its job, and only one of several drafts begun at once is begun", async () => {
    const { db } = await shop();
    const draft = await draftOf(db);
    expect(await draftAdded(db, "x", draft, AT)).toMatchObject({ is: "id taken" });
    await issue(db, draft.id, 1, outgoing(), AT);
    const answers = await Promise.all(["x", "y", "z"].map((id) => draftAdded(db, id, draft, AT)));
    expect(answers.map(({ is }) => is).sort()).toEqual(["done", "id taken", "id taken"]);
    expect((await estimates.ofJob(db, draft.jobId)).map(({ revision }) => revision)).toEqual([1, 2]);
  });
});

describe("rate books", () => {
  it("grow by versions, and only the newest can be followed", async () => {
    const { db } = await shop();
    const { id, book } = (await rateBooks.list(db, { limit: 1 })).rows[0]!;
    expect(await change(db, rateBooks, id, { name: "Second" }, LATER)).toMatchObject({ version: 2, book: { version: 2 } });
    await expect(change(db, rateBooks, id, { name: "Third" }, LATER, 1)).rejects.toSatisfy(isRefused);
    expect((await rateBooks.list(db, { limit: 10 })).rows.map(({ version }) => version)).toEqual([2]);
    expect((await rateBooks.findVersion(db, id, 1))?.book.name).toBe(book.name);
  });

  it("let one of three changes at once through", async () => {
    const { db } = await shop();
    const { id } = (await rateBooks.list(db, { limit: 1 })).rows[0]!;
    const answers = await Promise.allSettled([1, 2, 3].map((n) => change(db, rateBooks, id, { name: `Book ${n}` }, LATER, 1)));
    expect(answers.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected", "rejected"]);
  });
});

describe("settings", () => {
  it("are missing only before the first start, and that is ours to put right", async () => {
    const db = await freshDatabase();
    await expect(shopSettings(db)).rejects.toThrow(/no shop settings/);
    expect(await settings.find(db, "shop")).toBeUndefined();
  });
});

describe("the content hash", () => {
  it("does not depend on the order of keys, and on everything else", async () => {
    const hash = await contentHash({ a: 1, b: [1, { c: "x", d: null }] });
    expect(hash).toMatch(/^[0-9a-f]{64}$/);
    expect(await contentHash({ b: [1, { d: null, c: "x" }], a: 1, gone: undefined })).toBe(hash);
    for (const other of [
      { a: 1, b: [{ c: "x", d: null }, 1] },
      { a: "1", b: [1, { c: "x", d: null }] },
      { a: 1, b: [1, { c: "x" }] },
    ])
      expect(await contentHash(other)).not.toBe(hash);
  });

  // SHA-256 of "abc" in quotes, checked with coreutils sha256sum.
  it("is SHA-256 of the JSON text", async () => {
    expect(await contentHash("abc")).toBe("6cc43f858fbb763301637b5af970e2a46b46f461f27e5a0f41e009c59b827b25");
  });
});
