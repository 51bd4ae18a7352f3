/** A form saved beside others who change the same owner, unit, job or draft; and a new job, which stands whole or not at all. */
import type { Client } from "@libsql/client";
import { describe, expect, it } from "vitest";
import type { Database } from "../../../src/records/database.js";
import { estimates } from "../../../src/records/estimates.js";
import { jobs } from "../../../src/records/jobs.js";
import { owners } from "../../../src/records/owners.js";
import { units } from "../../../src/records/units.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { type Filled, filledIn, type Seen, visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";
import { type Story, story } from "../support/story.js";

type Row = Record<string, unknown>;

async function changed({ opened }: Pick<Story, "opened">, path: string, keys: Row): Promise<void> {
  const answer = await opened.call(path);
  const {
    id: _,
    version: __,
    createdAt: ___,
    updatedAt: ____,
    number: _____,
    state: ______,
    next: _______,
    nextBy: ________,
    ...rest
  } = (await answer.json()) as Row;
  const put = await opened.send("PUT", path, { ...rest, ...keys }, { "if-match": answer.headers.get("etag")! });
  expect(put.status, await put.clone().text()).toBe(200);
}

/** A draft's form, open while others work; and the records behind it. */
async function open() {
  const told = await story();
  const { ownerId, unitId } = (await jobs.find(told.opened.db, told.jobId))!;
  const form = await told.desk.get(`/estimates/${told.estimateId}?open=all`);
  const at = { owner: `/api/owners/${ownerId}`, unit: `/api/units/${unitId}`, job: `/api/jobs/${told.jobId}` };
  const records = async () => {
    const { db } = told.opened;
    const [owner, unit, job] = [await owners.find(db, ownerId), await units.find(db, unitId), await jobs.find(db, told.jobId)];
    return { owner: owner!, unit: unit!, job: job!, draft: (await estimates.find(db, told.estimateId))! };
  };
  return { ...told, form, at, records };
}

describe("a new job's form", () => {
  it("writes the unit, the owner and the visit as they were typed", async () => {
    const { opened, desk } = await story();
    const typed = {
      "owner.name": "Nerys Quillfeather",
      "unit.maker": "Thornwick",
      "unit.model": "TR-4",
      "unit.reported": "no sound",
    };
    const saved = await desk.press(await desk.get("/estimates/new?open=intake+grid+map"), "Save the estimate", typed);
    const draft = (await estimates.find(opened.db, /estimates\/([^?]+)/.exec(saved.path)![1]!))!;
    const job = (await jobs.find(opened.db, draft.jobId))!;
    expect(await units.find(opened.db, job.unitId)).toMatchObject({ maker: "Thornwick", model: "TR-4" });
    expect(await owners.find(opened.db, job.ownerId)).toMatchObject({ name: "Nerys Quillfeather" });
    expect(job.reported).toBe("no sound");
    expect(draft.input.unit).toMatchObject({ maker: "Thornwick", model: "TR-4", reported: "no sound" });
  });
});

describe("a draft's form that was open meanwhile", () => {
  it("leaves what a colleague changed of owner, unit and visit, and writes what was typed here", async () => {
    const { opened, desk, form, at, records } = await open();
    await changed({ opened }, at.owner, { phone: "01632 960111", email: undefined });
    await changed({ opened }, at.unit, { serial: "NEW-1" });
    await changed({ opened }, at.job, { reported: "Now it smokes, too." });
    const saved = await desk.press(form, "Save", { "unit.condition": "one foot is gone" });
    expect(words(saved.html)).toContain("Saved.");
    const { owner, unit, job, draft } = await records();
    expect([owner.phone, owner.email, unit.serial]).toEqual(["01632 960111", undefined, "NEW-1"]);
    expect(job).toMatchObject({ reported: "Now it smokes, too.", condition: "one foot is gone" });
    expect(draft.input.unit).toMatchObject({ serial: "NEW-1", reported: "Now it smokes, too.", condition: "one foot is gone" });
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
  });

  it("shows both versions beside what both changed, keeps everything typed, and keeps yours when saved again", async () => {
    const { opened, desk, form, at, records } = await open();
    await changed({ opened }, at.owner, { phone: "01632 960111" });
    await changed({ opened }, at.job, { reported: "Now it smokes, too." });
    const typed = { "owner.phone": "01632 960222", "unit.reported": "It hums.", "unit.accessories": "a cover" };
    const before = await records();
    const refused = await desk.press(form, "Save", typed);
    expect(refused.status).toBe(409);
    expect(await records()).toEqual(before);
    const read = words(refused.html);
    expect(read).toContain("Owner's telephone: someone else changed it meanwhile; by now it reads '01632 960111'.");
    expect(read).toContain("by now it reads 'Now it smokes, too.'");
    expect(refused.html).toMatch(/Owner&#39;s telephone<\/th><td>01632 960222<\/td><td>01632 960111<\/td>/);
    const still = new Map(filledIn(refused, "Save").pairs);
    for (const [name, text] of Object.entries(typed)) expect(still.get(name)).toBe(text);
    expect(words((await desk.press(refused, "Save")).html)).toContain("Saved.");
    const { owner, job } = await records();
    expect([owner.phone, job.reported, job.accessories]).toEqual(["01632 960222", "It hums.", ["a cover"]]);
  });

  it("that says nothing of what it was drawn from undoes nothing: it is shown both versions", async () => {
    const { desk, form, records } = await open();
    // As a page from before an upgrade sends it: nothing says what it was drawn from.
    const { path, pairs } = filledIn(form, "Save", { "owner.phone": "01632 960222" });
    const old = pairs.filter(([name]) => name !== "meta.drawn");
    expect((await desk.send(path, old)).status).toBe(409);
    expect((await records()).owner.phone).not.toBe("01632 960222");
  });

  it("is saved beside another's, each with a change of its own, and the later one is shown what else moved", async () => {
    const { desk, form: first, records } = await open();
    const form = await desk.press(first, "Save");
    expect(words((await desk.press(form, "Save", { "unit.serial": "A-1" })).html)).toContain("Saved.");
    expect(words((await desk.press(form, "Save", { "owner.phone": "01632 960333" })).html)).toContain("Saved.");
    const { owner, unit } = await records();
    expect([unit.serial, owner.phone]).toEqual(["A-1", "01632 960333"]);
    const third = await desk.press(form, "Save", { "terms.queue": "33" });
    expect(words(third.html)).toContain("Saved.");
    const late = await desk.press(form, "Save", { "terms.queue": "44" });
    expect(late.status).toBe(409);
    expect(late.html).toMatch(/Days until the bench is free<\/th><td>44<\/td><td>33<\/td>/);
  });

  it("does not put a map in the place of one that someone else kept meanwhile, until told to", async () => {
    const { opened, desk, form, records } = await open();
    const { unit } = await records();
    const path = `/api/models/${unit.modelId}`;
    const { map } = (await (await opened.call(path)).json()) as { map: { assemblies: { name: string }[] } };
    const [first, ...others] = map.assemblies;
    await changed({ opened }, path, { map: { ...map, assemblies: [{ ...first, notes: "mind the clip" }, ...others] } });
    const refused = await desk.press(form, "Save", { "meta.keepModel": "on" });
    expect(refused.status).toBe(409);
    expect(words(refused.html)).toContain("is on record and reads otherwise.");
    expect(JSON.stringify(await (await opened.call(path)).json())).toContain("mind the clip");
    expect(words((await desk.press(refused, "Save")).html)).toContain("Saved.");
    expect(JSON.stringify(await (await opened.call(path)).json())).not.toContain("mind the clip");
  });
});

describe("facts of the unit and the visit", () => {
  it("are read by a draft from their records, in its price and on its pages, and frozen when it is issued", async () => {
    const { opened, at, estimateId, records, desk, jobId } = await open();
    const path = `/api/estimates/${estimateId}`;
    const before = await opened.call(path);
    await changed({ opened }, at.unit, { serial: "NEW-1", declaredValue: 100 });
    const after = await opened.call(path, { headers: { "if-none-match": before.headers.get("etag")! } });
    expect(after.status).toBe(200);
    const draft = (await after.json()) as { input: { unit: Row }; sheet: { warnings: Row[] } };
    expect(draft.input.unit).toMatchObject({ serial: "NEW-1", declaredValue: 100 });
    // Dearer than the unit is worth.
    expect(draft.sheet.warnings.map(({ is }) => is)).toContain("value share");
    const { jobId: job, rateBookId, rateBookVersion, input } = (await before.json()) as Row;
    const value = { jobId: job, rateBookId, rateBookVersion, input };
    expect((await opened.send("PUT", path, value, { "if-match": before.headers.get("etag")! })).status).toBe(412);
    expect((await desk.get(`/estimates/${estimateId}?open=intake`)).html).toContain('value="NEW-1"');
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();

    const issued = await opened.send("POST", `${path}/issue`, { by: "Orla" }, { "if-match": after.headers.get("etag")! });
    expect(issued.status).toBe(200);
    await changed({ opened }, at.unit, { serial: "NEWER-2" });
    expect((await records()).draft).toMatchObject({ input: { unit: { serial: "NEW-1" } } });
    expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
    const next = (await (await opened.send("POST", `/api/jobs/${jobId}/estimates`, {})).json()) as { input: { unit: Row } };
    expect(next.input.unit.serial).toBe("NEWER-2");
  });

  it("that a program tells with a draft go to their records, and never undo what stands there", async () => {
    const { opened, estimateId, jobId, at, records } = await open();
    const { draft, unit } = await records();
    const { rateBookId, rateBookVersion, input } = draft;
    const put = (serial: string) =>
      opened.send(
        "PUT",
        `/api/estimates/${estimateId}`,
        { jobId, rateBookId, rateBookVersion, input: { ...input, unit: { ...input.unit, serial } } },
        { "if-match": `"${draft.version}"` },
      );
    expect((await put("BY-PROGRAM")).status).toBe(200);
    expect((await records()).unit).toMatchObject({ serial: "BY-PROGRAM", version: unit.version + 1 });
    expect((await put("AGAIN")).status).toBe(412);
    await opened.send("POST", `/api/estimates/${estimateId}/issue`, { by: "Orla" }, { "if-match": "*" });
    await changed({ opened }, at.job, { condition: undefined });
    const value = { jobId, rateBookId, rateBookVersion, input: { ...input, unit: { ...input.unit, serial: "OTHER" } } };
    const refused = await opened.send("POST", "/api/estimates", value);
    expect(refused.status).toBe(422);
    expect(await refused.json()).toMatchObject({
      errors: [{ pointer: "/input/unit/serial", type: "/problems/changed-meanwhile" }],
    });
  });
});

const SMALL = {
  "owner.name": "Nerys Quillfeather",
  "unit.maker": "Threnwick",
  "unit.model": "Cadence 3",
  "unit.reported": "silent",
  "assembly.a1.name": "Main board",
  "cells.a1.p:film": "4",
  "meta.keepModel": "on",
};

async function counts(db: Database): Promise<Row> {
  const tables = ["owners", "units", "jobs", "estimates", "events", "models", "search_entries"];
  const of = async (table: string) => (await db.run(`SELECT count(*) AS n FROM ${table}`)).rows[0]!.n;
  return Object.fromEntries(await Promise.all(tables.map(async (table) => [table, await of(table)])));
}

describe("a new job", () => {
  const open = async () => {
    const opened = await shop();
    const desk = visitor(opened);
    const form = await desk.get("/estimates/new?open=intake+grid+map");
    const save = (filled: Filled): Promise<Seen> => desk.press(form, "Save the estimate", { ...SMALL, ...filled });
    return { ...opened, save };
  };

  it("sent four times at once under one token and in four wordings is taken in once, and three are told", async () => {
    const { db, save } = await open();
    const before = (await jobs.list(db, { limit: 100 })).rows.length;
    const answers = await Promise.all(["1", "2", "3", "4"].map((count) => save({ "cells.a1.p:film": count })));
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409]);
    const [kept] = answers.filter(({ html }) => words(html).includes("Saved."));
    expect(answers.filter(({ html }) => words(html).includes("Saved."))).toHaveLength(1);
    expect((await jobs.list(db, { limit: 100 })).rows).toHaveLength(before + 1);
    const told = answers.filter(({ status }) => status === 409);
    for (const { html } of told) expect(html).toMatch(/Film capacitor, Main board<\/th><td>\d<\/td><td>\d<\/td>/);
    const count = new Map(filledIn(kept!, "Save").pairs);
    expect([...count].some(([name, text]) => /^cells\..*film$/.test(name) && /^[1-4]$/.test(text))).toBe(true);
  });

  it("the same form four times at once is one job", async () => {
    const { db, save } = await open();
    const before = await counts(db);
    const answers = await Promise.all([1, 2, 3, 4].map(() => save({})));
    expect(new Set(answers.map(({ status, path }) => `${status} ${path}`)).size).toBe(1);
    const after = await counts(db);
    for (const table of Object.keys(after)) expect(Number(after[table]) - Number(before[table])).toBe(1);
  });

  it("is not left half by any statement that fails: nothing of it stands, and the same form then takes it in", async () => {
    const { db, save } = await open();
    const { $client: client } = db as unknown as { readonly $client: Client };
    const batch = client.batch.bind(client);
    const before = await counts(db);
    let statements = 0;
    let failing = 0;
    client.batch = async (all, mode) => {
      const isWrite = all.some((each) =>
        /^\s*(insert|update)/i.test(typeof each === "string" ? each : "sql" in each ? each.sql : each[0]),
      );
      if (!isWrite || failing === 0) return batch(all, mode);
      statements = all.length;
      // The nth is followed by one that the database cannot carry out, as when it is cut off there.
      return batch([...all.slice(0, failing), "INSERT INTO no_such_table VALUES (1)", ...all.slice(failing)], mode);
    };
    for (failing = 1; failing <= Math.max(1, statements); failing += 1) {
      expect((await save({})).status).toBe(500);
      expect(await counts(db), `after statement ${failing}`).toEqual(before);
    }
    expect(statements).toBeGreaterThanOrEqual(6);
    failing = 0;
    expect(words((await save({})).html)).toContain("Saved.");
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});
