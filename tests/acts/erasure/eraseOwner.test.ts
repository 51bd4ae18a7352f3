import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { sql } from "drizzle-orm";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { mismatchText } from "../../../src/acts/checked/mismatch.js";
import { eraseOwner, swept } from "../../../src/acts/erasure/eraseOwner.js";
import { known, withoutKnown } from "../../../src/acts/erasure/without.js";
import { agreedTo, answersOf } from "../../../src/records/agreements.js";
import { triggersOf } from "../../../src/records/backup/guards.js";
import { tablesOf } from "../../../src/records/backup/tables.js";
import { values } from "../../../src/records/backup/values.js";
import { closeOuts } from "../../../src/records/closeOuts.js";
import { connectFile } from "../../../src/records/connectFile.js";
import type { Database } from "../../../src/records/database.js";
import { estimates } from "../../../src/records/estimates.js";
import { issues } from "../../../src/records/issues.js";
import { jobs } from "../../../src/records/jobs.js";
import { ownerLinks } from "../../../src/records/ownerLinks.js";
import { owners } from "../../../src/records/owners.js";
import { search, searchRebuilt, wordsIn } from "../../../src/records/search.js";
import { eventsOf } from "../../../src/records/trail.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { openShop, shop } from "../../http/support/shop.js";
import { closed, closing, logged } from "../../records/support/closed.js";
import { at, livedIn, TAPE_ECHO } from "../../records/support/livedIn.js";
import { answerOf, close, stands } from "../support/bench.js";
import { deskAt, done } from "../support/desk.js";

let opened: Awaited<ReturnType<typeof openShop>>;
let db: Database;
let story: Awaited<ReturnType<typeof livedIn>>;
let ownerId: string;
/** What the owner is known by. */
let names: string[];
let triggers: unknown;
let before: { totals: unknown[]; hashes: unknown[]; heads: unknown[] };

const sortedTriggers = async () => (await triggersOf(db)).sort((a, b) => (a.name < b.name ? -1 : 1));

const erase = (of: Database, owner: string, by: string, when: string) => done(eraseOwner, deskAt(of, when), { by }, { owner });

const books = async () => {
  const kept = await estimates.ofJob(db, story.jobId);
  const issued = await issues.ofJob(db, story.jobId);
  const events = await eventsOf(db, story.jobId);
  return {
    totals: kept.map(({ sheet }) => sheet?.totals),
    hashes: issued.map(({ contentHash, pdfHash }) => [contentHash, pdfHash]),
    heads: events.filter(({ is }) => is !== "personal data erased").map(({ number, hash }) => [number, hash]),
  };
};

beforeAll(async () => {
  opened = await openShop();
  db = opened.db;
  story = await livedIn(db);
  ownerId = (await jobs.find(db, story.jobId))!.ownerId;
  const owner = (await owners.find(db, ownerId))!;
  const serials = await values<[string]>(db, sql`SELECT serial FROM units WHERE owner_id = ${ownerId} AND serial IS NOT NULL`);
  names = [owner.name, owner.email!, owner.phone!, "Ottilie", ...serials.map(([serial]) => serial)].filter(Boolean);
  const door = owner.address!.filter((line) => /\d/.test(line));
  expect(door.length).toBe(2);
  names.push(...door);
  const note = `Bring it back to ${door.join(", ")}`;
  await logged(db, story.jobId, [{ item: "w01", minutes: 1, note }], at(25));
  expect(names.length).toBeGreaterThan(5);
  before = await books();
  triggers = await sortedTriggers();
  // A number that damage took out of the row stands in its copy alone.
  await db.run(
    sql`UPDATE row_copies SET body = json_set(body, '$[9]', ${`Call ${owner.phone}`}) WHERE of = 'owners' AND id = ${ownerId}`,
  );
  expect(await erase(db, ownerId, "Wilhelmina Stråhle", at(30))).toMatchObject({ answer: { jobs: expect.any(Number) } });
  expect(await swept({ db }, ownerId)).toBe(true);
}, 30_000);
afterAll(() => opened.close());

const verdict = async (of = db) => {
  const { mismatch, erased } = await verifyShop(of);
  return mismatch ? mismatchText(mismatch.what) : `${erased} erased`;
};

describe("an owner who was erased", () => {
  it("is named by no row of any table any more", async () => {
    const { kept } = await tablesOf(db);
    const found: string[] = [];
    for (const { name, columns, blobs } of kept)
      for (const row of await values<unknown[]>(db, sql`SELECT * FROM ${sql.identifier(name)}`))
        for (const [n, cell] of row.entries())
          for (const text of names)
            if (!blobs.includes(columns[n]!) && typeof cell === "string" && cell.includes(text))
              found.push(`${name}.${columns[n]}: ${text}`);
    expect(found).toEqual([]);
  });

  it("stands in no byte of the database file, nor of its log", async () => {
    const [[, , path]] = (await values<[number, string, string]>(db, sql`PRAGMA database_list`)) as [[number, string, string]];
    const whole = Buffer.concat([await readFile(path), await readFile(`${path}-wal`).catch(() => Buffer.alloc(0))]);
    expect(whole.includes("Wilhelmina")).toBe(true);
    expect(names.filter((name) => whole.includes(name))).toEqual([]);
  });

  it("is found by no search, and stands in no block of the search's indexes", async () => {
    for (const name of names) expect(await search(db, wordsIn(name), 10), name).toEqual([]);
    const blocks = () =>
      values(db, sql`SELECT hex(block) FROM search_words_data UNION ALL SELECT hex(block) FROM search_codes_data`);
    const left = await blocks();
    const [first, ...rest] = searchRebuilt(db);
    await db.batch([first!, ...rest]);
    expect(left).toEqual(await blocks());
  });

  it("leaves totals, hashes and the chain as they were", async () => {
    expect(await books()).toEqual(before);
    expect(agreedTo(await answersOf(db, story.jobId))).toMatchObject({ by: "erased", amount: expect.any(Number) });
    expect((await stands(db, story.jobId)).spent()?.total).toBeGreaterThan(0);
    expect(await sortedTriggers()).toEqual(triggers);
  });

  it("is told of by verify as erased, not as broken", async () => {
    expect(await verdict()).toBe("1 erased");
  });

  it("has PDFs no more, but their hashes", async () => {
    expect(await issues.pdf(db, "draft-2")).toEqual(new Uint8Array());
    expect((await issues.find(db, "draft-2"))?.pdfHash).toMatch(/^[0-9a-f]{64}$/);
  });

  it("opens nothing by an old link or code", async () => {
    expect(await ownerLinks.byFragment(db, story.first.secret.fragment)).toBeUndefined();
    expect(await ownerLinks.byCode(db, "J-2026-0002", story.first.secret.code)).toBeUndefined();
    expect(await ownerLinks.byCode(db, "J-2026-0002", "")).toBeUndefined();
  });

  it("is erased once", async () => {
    expect(await erase(db, ownerId, "Someone", at(31))).toEqual({ ok: true, answer: { jobs: 0, units: 0 } });
    expect(await erase(db, "nobody", "Someone", at(31))).toMatchObject({ refusal: { is: "not found" } });
  });
});

describe("what is changed after an erasure", () => {
  it.each([
    [
      "an answer's amount",
      sql`UPDATE agreements SET amount = amount + 1 WHERE id = 'answer-1'`,
      /'answer-1' of agreements .* changed/,
    ],
    [
      "an erased event's content",
      sql`UPDATE events SET content = json_set(content, '$.answer', 'declined') WHERE what = 'answered'`,
      /does not match its hash/,
    ],
    [
      "an erased revision's input",
      sql`UPDATE estimates SET input = json_set(input, '$.unit.maker', 'Other') WHERE id = 'draft-2'`,
      /does not match its content hash/,
    ],
    [
      "a PDF put in the place of the one that is gone",
      sql`UPDATE issues SET pdf = x'25504446' WHERE id = 'draft-2'`,
      /PDF of revision 2/,
    ],
    [
      "the erasure itself",
      sql`UPDATE events SET content = json_set(content, '$.by', 'Someone') WHERE what = 'personal data erased'`,
      /does not match its hash/,
    ],
  ])("%s is found", async (_, statement, said) => {
    const folder = await mkdtemp(join(tmpdir(), "ohmwright-erased-"));
    await db.run(sql`VACUUM INTO ${join(folder, "copy.db")}`);
    const copy = await connectFile(`file:${folder}/copy.db`);
    try {
      for (const { name } of await triggersOf(copy.db)) await copy.db.run(sql`DROP TRIGGER ${sql.identifier(name)}`);
      await copy.db.run(statement);
      expect(await verdict(copy.db)).toMatch(said);
    } finally {
      copy.close();
      await rm(folder, { recursive: true });
    }
  });
});

describe("an owner whose job was closed", () => {
  it("is erased from the account too, which still adds up", async () => {
    const other = await shop();
    await closed(other.db, TAPE_ECHO);
    const { ownerId: id } = (await jobs.find(other.db, TAPE_ECHO))!;
    const owner = (await owners.find(other.db, id))!;
    const why = { corrects: "closed", reason: `${owner.name} wants it warranted for longer`, warrantyDays: 120 };
    answerOf(await close(other.db, { id: "again", job: TAPE_ECHO, when: at(601) }, closing(why)));
    const told = async () => JSON.stringify(await eventsOf(other.db, TAPE_ECHO));
    expect(await told()).toContain("Ottilie");
    const [, before] = await closeOuts.ofJob(other.db, TAPE_ECHO);
    expect((await erase(other.db, id, "Wilhelmina Stråhle", at(3000))).ok).toBe(true);
    const [, after] = await closeOuts.ofJob(other.db, TAPE_ECHO);
    expect(after!.reason).toBe("erased wants it warranted for longer");
    expect(JSON.stringify([after, await estimates.ofJob(other.db, TAPE_ECHO)])).not.toContain(owner.name);
    expect(await told()).not.toContain("Ottilie");
    expect(after!.result.account.totals).toEqual(before!.result.account.totals);
    expect([after!.contentHash, after!.pdfHash]).toEqual([before!.contentHash, before!.pdfHash]);
    expect(await closeOuts.pdf(other.db, after!.id)).toEqual(new Uint8Array());
    expect(await verdict(other.db)).toBe("1 erased");
  });
});

describe("a text without what a person is known by", () => {
  it("holds no name of four letters or more, whatever stands around it", () => {
    fc.assert(
      fc.property(fc.string(), fc.string({ minLength: 4 }), fc.string(), (left, name, right) => {
        fc.pre(name.trim().length >= 4 && !"erased".includes(name.trim().toLowerCase()));
        const rest = withoutKnown(`${left}${name.trim()}${right}`, known([name]));
        expect(rest === "erased" || !rest.replaceAll("erased", "\u0000").includes(name.trim())).toBe(true);
      }),
    );
  });

  it("keeps words that merely hold a short name", () => {
    expect(withoutKnown("Tie the cable down", known(["Ti"]))).toBe("Tie the cable down");
    expect(withoutKnown("Ti", known(["Ti"]))).toBe("erased");
    expect(withoutKnown("Rang Tilda Moor about it", known(["Tilda Moor"]))).toBe("Rang erased about it");
  });
});
