import { sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { estimates } from "../../src/records/estimates.js";
import { jobs } from "../../src/records/jobs.js";
import { owners } from "../../src/records/owners.js";
import { search, searchRebuilt, wordsIn } from "../../src/records/search.js";
import { units } from "../../src/records/units.js";
import { shop } from "../http/support/shop.js";
import { draftSaved } from "./support/drafts.js";
import { change, put } from "./support/put.js";

const AT = "2026-11-25T10:00:00.000Z";

async function shopWith() {
  const { db } = await shop();
  await put(db, owners, "owner", { name: "Séraphine Öberg-Łuk", phone: "+46 70 555 01 23", email: "seraphine@example.org" }, AT);
  await put(db, units, "unit", { ownerId: "owner", maker: "Halvard", model: "Drumwright 66", serial: "HD66-00417" }, AT);
  const value = { ownerId: "owner", unitId: "unit", arrivedOn: "2026-11-25", reported: "snare mute, résumé of faults by mail" };
  await put(db, jobs, "job", value, AT);
  const find = async (typed: string) => (await search(db, wordsIn(typed), 50)).map(({ jobId }) => jobId);
  return { db, find, value };
}

describe("finding a job", () => {
  it("finds it by owner, unit, serial, fault, phone, e-mail and number, without accents or case", async () => {
    const { find } = await shopWith();
    for (const typed of [
      "seraphine",
      "ÖBERG",
      "öberg-łuk",
      "halv drum",
      "66-004",
      "00417",
      "snare",
      "resume",
      "555 01",
      "seraphine@example.org",
      "sera snar 0041",
    ]) {
      expect(await find(typed), typed).toEqual(["job"]);
    }
    // Ł has no letter beneath it in Unicode (UAX 15): it is found as it is written.
    expect(await find("oberg-luk")).toEqual([]);
    expect(await find("J-2026")).toContain("job");
  });

  it("finds a piece of a number anywhere, a piece of a name only at its beginning, and both together", async () => {
    const { find } = await shopWith();
    for (const typed of ["0417", "D66", "417 seraphine", "0417 555 snare"]) expect(await find(typed), typed).toEqual(["job"]);
    for (const typed of ["raphine", "0417 nowhere", "0417 9999", "wright"]) expect(await find(typed), typed).toEqual([]);
  });

  it("wants every word, and gives the newest first", async () => {
    const { db, find, value } = await shopWith();
    expect(await find("snare halvard nowhere")).toEqual([]);
    await put(db, jobs, "later", { ...value, reported: "no snare again" }, AT);
    expect(await find("snare")).toEqual(["later", "job"]);
  });

  it("follows what is changed: a name, a serial, a fault found on the bench", async () => {
    const { db, find } = await shopWith();
    await change(db, owners, "owner", { name: "Tomasine Vell", email: "vell@example.org" }, AT, 1);
    expect(await find("seraphine")).toEqual([]);
    expect(await find("tomasine")).toEqual(["job"]);
    await change(db, units, "unit", { ownerId: "owner", maker: "Halvard", model: "Drumwright 66", serial: "ZZ-9981" }, AT, 1);
    expect(await find("00417")).toEqual([]);
    expect(await find("z-998")).toEqual(["job"]);
    const [draft] = (await estimates.list(db, { limit: 10 })).rows.filter(({ issuedAt }) => issuedAt === undefined);
    const input = { ...draft!.input, unit: { ...draft!.input.unit, found: "leaking verdigrised cell" } };
    await draftSaved(db, draft!.id, draft!.version, { ...draft!, input }, AT);
    expect(await find("verdigr")).toEqual([draft!.jobId]);
  });

  it("takes anything that can be typed as words, never as a query", async () => {
    const { db, find } = await shopWith();
    for (const typed of [
      '"',
      '" OR "',
      "snare NOT halvard",
      "who:snare",
      "(snare",
      "sn*re",
      "NEAR(snare mute)",
      "'; DROP TABLE jobs; --",
    ])
      expect(await find(typed), typed).not.toContain("none");
    expect(await find('nowhere" OR "snare')).toEqual([]);
    expect(await find("who:snare")).toEqual([]);
    expect((await jobs.list(db, { limit: 1 })).rows).toHaveLength(1);
    expect(wordsIn("a - 7 ö")).toEqual([]);
    expect(wordsIn("x ".repeat(50))).toEqual([]);
    expect(wordsIn("ab ".repeat(50))).toHaveLength(8);
  });

  it("scans no table: both indexes are asked, then rows by their keys", async () => {
    const { db } = await shopWith();
    const seen: string[] = [];
    const spy = new Proxy(db, {
      get: (target, name) =>
        name === "all"
          ? async (query: Parameters<typeof db.all>[0]) => {
              const plan = await target.all<{ detail: string }>(sql`EXPLAIN QUERY PLAN ${query as ReturnType<typeof sql>}`);
              seen.push(...plan.map(({ detail }) => detail));
              return target.all(query);
            }
          : Reflect.get(target, name),
    });
    await search(spy, ["snare", "00417"], 50);
    expect(seen.some((step) => step.includes("search_words VIRTUAL TABLE INDEX"))).toBe(true);
    expect(seen.filter((step) => /^SCAN (?!(search_(words|codes)|json_each) VIRTUAL TABLE INDEX)/.test(step))).toEqual([]);
  });

  it("is whole again after its indexes are made anew", async () => {
    const { db, find } = await shopWith();
    await db.run(sql`INSERT INTO search_words (search_words) VALUES ('delete-all')`);
    expect(await find("snare")).toEqual([]);
    const [first, ...rest] = searchRebuilt(db);
    await db.batch([first!, ...rest]);
    expect(await find("snare")).toEqual(["job"]);
    await db.run(sql`INSERT INTO search_words (search_words, rank) VALUES ('integrity-check', 1)`);
  });
});
