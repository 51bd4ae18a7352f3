/** An extra fault of the demo shop's tape echo (invented), as a person types it and as a program sends it. */
import { describe, expect, it } from "vitest";
import tapeEcho from "../../fixtures/demo/tape-echo.json";
import { addExtraFault, baseOf, priceExtraFault } from "../../src/acts/extraFault.js";
import { jobAsItStands } from "../../src/acts/job.js";
import { readForm, typedFrom } from "../../src/acts/readForm.js";
import { extraFault } from "../../src/estimating/agreement/extraFault.js";
import type { Database } from "../../src/records/database.js";
import { estimates } from "../../src/records/estimates.js";
import { shop } from "../http/support/shop.js";
import { at, draftOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { deskAt, done } from "./support/desk.js";

/** Of the map that the tape echo is estimated on. */
const demoPlaces = () => tapeEcho.map.assemblies;

const TONGUE = { locale: "en-GB", currency: "GBP" };

/** What comes of the form: the item, or what is wrong by field. */
async function typed(db: Database, fields: Record<string, string>) {
  const read = readForm(addExtraFault.fields, typedFrom(new URLSearchParams(fields)), TONGUE);
  if (!read.ok) return { item: undefined, errors: Object.fromEntries(read.errors) as Record<string, string> };
  const outcome = await done(addExtraFault, deskAt(db, at(1)), read.value, { job: TAPE_ECHO });
  if (outcome.ok) return { item: (await draftOf(db, TAPE_ECHO)).input.items.at(-1)!, errors: {} as Record<string, string> };
  return {
    item: undefined,
    errors: Object.fromEntries((outcome.refusal.errors ?? []).map(({ pointer, detail }) => [pointer.slice(1), detail])) as Record<
      string,
      string
    >,
  };
}

describe("an extra fault", () => {
  it("replaces one of the part on the unit as a whole when nothing else is said", async () => {
    const { db } = await shop();
    const { rateBook } = (await jobAsItStands(db, TAPE_ECHO))!.input()!;
    const { item } = await typed(db, { reason: "cracked", part: "Jack" });
    expect(item).toMatchObject({
      ...{ operation: "replace", count: 1, certainty: { is: "planned" }, reason: "cracked" },
      part: { type: rateBook.partTypes.find(({ name }) => name === "Jack")!.id },
    });
    expect(item).not.toHaveProperty("assembly");
  });

  it("knows assemblies, work and parts by the names a person reads, whatever the case, and each gets an id of its own", async () => {
    const { db } = await shop();
    const [assembly] = (await draftOf(db, TAPE_ECHO)).input.map!.assemblies;
    const { item } = await typed(db, { reason: "dirty", work: "clean a BOARD", where: assembly!.name.toUpperCase(), count: "2" });
    expect(item).toMatchObject({ assembly: assembly!.id, count: 2 });
    expect(item).not.toHaveProperty("part");
    await typed(db, { reason: "cracked", part: "Jack" });
    const ids = (await draftOf(db, TAPE_ECHO)).input.items.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("brings along what the catalogue knows of a part that the job had no use for", async () => {
    const { db } = await shop();
    const before = (await draftOf(db, TAPE_ECHO)).input;
    await typed(db, { reason: "worn", part: "output-pentode" });
    const { kinds, offers } = (await draftOf(db, TAPE_ECHO)).input;
    expect(before.kinds?.map(({ id }) => id)).not.toContain("output-pentode");
    expect(kinds?.map(({ id }) => id)).toContain("output-pentode");
    expect(offers?.some(({ kind }) => kind === "output-pentode")).toBe(true);
  });

  it("is an option that is not chosen, or possible work with its chance", async () => {
    const { db } = await shop();
    const option = await typed(db, { reason: "nicer", part: "Jack", certainty: "optional" });
    expect(option.item!.certainty).toEqual({ is: "optional", chosen: false });
    const possible = await typed(db, { reason: "worn", part: "Jack", certainty: "if found", chance: "25 %" });
    expect(possible.item!.certainty).toEqual({ is: "if found", probability: 0.25 });
  });

  it.each([
    [{ part: "Jack" }, "reason"],
    [{ reason: "odd" }, "work"],
    [{ reason: "odd", part: "flux capacitor" }, "part"],
    [{ reason: "odd", work: "polish" }, "work"],
    [{ reason: "odd", part: "Jack", where: "the attic" }, "where"],
    [{ reason: "odd", part: "Jack", count: "several" }, "count"],
    [{ reason: "odd", part: "Jack", count: "-2" }, "count"],
    [{ reason: "odd", part: "Jack", certainty: "if found" }, "chance"],
    [{ reason: "odd", part: "Jack", certainty: "perhaps" }, "certainty"],
  ])("%o is named beside its field: %s, and nothing is added", async (fields, field) => {
    const { db } = await shop();
    const before = await estimates.ofJob(db, TAPE_ECHO);
    const { item, errors } = await typed(db, fields as Record<string, string>);
    expect(item).toBeUndefined();
    expect(Object.keys(errors)).toEqual([field]);
    expect(errors[field]).toMatch(/^[A-Z].*\.$/);
    expect(await estimates.ofJob(db, TAPE_ECHO)).toEqual(before);
  });

  it("is told what is wrong with an amount in the money it was typed in", async () => {
    const { db } = await shop();
    const said = async (fields: Record<string, string>) => (await typed(db, { reason: "odd", ...fields })).errors;
    expect(await said({ ownPart: "Felt", partCost: "-4" })).toEqual({
      partCost: "What one costs is -£4.00; give at least £0.00.",
    });
    expect(await said({ own: "Straighten", price: "99999999999999" })).toEqual({
      price: "Fixed price each is £99,999,999,999,999.00; give at most £90,071,992,547,409.91.",
    });
  });

  it("is priced as the engine prices it, and nothing is kept", async () => {
    const { db } = await shop();
    const job = (await jobAsItStands(db, TAPE_ECHO))!;
    const outcome = await done(priceExtraFault, deskAt(db, at(1)), { reason: "cracked", part: "Jack" }, { job: TAPE_ECHO });
    const base = baseOf(job, job.latest!, new Date(at(1)));
    const item = { id: "x", operation: "replace", count: 1, part: { type: "jack" }, certainty: { is: "planned" as const } };
    const { now, later } = extraFault(base, { items: [item] }) as Extract<ReturnType<typeof extraFault>, { ok: true }>;
    expect(outcome).toMatchObject({ ok: true, answer: { now, later } });
    expect((await jobAsItStands(db, TAPE_ECHO))!.revisions).toEqual(job.revisions);
  });

  it("says what a used part in own words carries for pieces that prove bad, and less where a better share is said", async () => {
    const { db } = await shop();
    const ask = async (more: object) => {
      const said = { reason: "dead", ownPart: "Voice chip", part: "IC, 16 pins", partCost: 9500, ...more };
      return done(priceExtraFault, deskAt(db, at(1)), said as never, { job: TAPE_ECHO });
    };
    expect(await ask({})).not.toHaveProperty("answer.margin");
    expect(await ask({ partState: "used" })).toMatchObject({
      answer: {
        margin: expect.stringMatching(
          /^The part carries £\d+\.\d\d margin: by the rate book \d+\s?% of used pieces are expected to be good, so \d pieces may be bought for 1\.$/,
        ),
      },
    });
    expect(await ask({ partState: "used", partGood: 100 })).not.toHaveProperty("answer.margin");
    expect(await ask({ partState: "used", partGood: 80 })).toHaveProperty(
      "answer.margin",
      expect.stringMatching(/margin: 80\s?% of the pieces are expected to be good/),
    );
  });

  it("is offered its usual companions, which come in beside it only where they are taken", async () => {
    const { db } = await shop();
    const bare = { reason: "hums", part: "Voltage regulator", where: "Supply board" };
    const offered = async (said: object) => {
      const outcome = await done(priceExtraFault, deskAt(db, at(1)), said as never, { job: TAPE_ECHO });
      const { companions = [], total } = (outcome as { answer: { companions?: { operation: { id: string } }[]; total: number } })
        .answer;
      return { names: companions.map(({ operation }) => operation.id), total };
    };
    const usual = ["safety-test", "function-test"];
    const draft = await draftOf(db, TAPE_ECHO);
    const items = draft.input.items.filter(({ operation }) => !usual.includes(operation ?? ""));
    await estimates.changed(db, draft, { input: { ...draft.input, items } }, at(1)).write;
    const plain = await offered(bare);
    expect(plain.names).toEqual(usual);
    const taken = await offered({ ...bare, also: usual });
    expect(taken.names).toEqual([]);
    expect(taken.total).toBeGreaterThan(plain.total);
    const said = { ...bare, also: usual } as never;
    expect(await done(addExtraFault, deskAt(db, at(1)), said, { job: TAPE_ECHO })).toMatchObject({ ok: true });
    const added = (await draftOf(db, TAPE_ECHO)).input.items.slice(items.length);
    expect(added.map(({ operation }) => operation)).toEqual(["replace", ...usual]);
    expect(new Set(added.map(({ id }) => id)).size).toBe(added.length);
    expect(added.at(-1)!.reason).toMatch(/\w+\.$/);
    const unknown = await done(priceExtraFault, deskAt(db, at(1)), { ...bare, also: ["no-such"] } as never, { job: TAPE_ECHO });
    expect(unknown).toMatchObject({ ok: false, refusal: { errors: [{ name: "operation unknown" }] } });
  });

  it("is refused on top of what somebody else changed since it was priced", async () => {
    const { db } = await shop();
    const { id, version } = await draftOf(db, TAPE_ECHO);
    const said = { reason: "cracked", part: "Jack", base: `${id}:${version}` };
    const add = () => done(addExtraFault, deskAt(db, at(1)), said, { job: TAPE_ECHO });
    const both = await Promise.all([add(), add()]);
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
    expect(both.find(({ ok }) => !ok)).toMatchObject({ refusal: { is: "version moved" } });
  });
});

describe("an extra fault at a place that the map does not have", () => {
  const FOUND = { reason: "a corroded link", work: "Clean a board", where: "Battery tray" };
  const placed = async (db: Database, fields: Record<string, string>) => {
    const { item, errors } = await typed(db, { ...FOUND, ...fields });
    const { map } = (await draftOf(db, TAPE_ECHO)).input;
    return { item, errors, place: map?.assemblies.find(({ id }) => id === item?.assembly) };
  };
  const [first] = demoPlaces();

  it("comes onto the job's map behind what is named, with its fasteners, and is what the work stands on", async () => {
    const { db } = await shop();
    const { place } = await placed(db, { placeBehind: first!.id, "placeFasteners.screw": "4", "placeFasteners.ribbon": "1" });
    const fasteners = [
      { kind: "screw", count: 4 },
      { kind: "ribbon", count: 1 },
    ];
    expect(place).toEqual({
      ...{ id: "place1", name: "Battery tray", sort: "board", behind: [first!.id] },
      access: { by: "fasteners", fasteners },
    });
    const { sheet } = await draftOf(db, TAPE_ECHO);
    expect(sheet!.lines.some(({ id }) => id === "access:place1")).toBe(true);
    expect(sheet!.access.removal.map(({ id }) => id)).toEqual(expect.arrayContaining([first!.id, "place1"]));
  });

  it("goes by its size and mounting where no fasteners are counted, and is what it is said to be", async () => {
    const { db } = await shop();
    const { place } = await placed(db, { placeSize: "small", placeMounting: "behind another", placeSort: "shelf" });
    expect(place).toMatchObject({ sort: "shelf", access: { by: "standard", size: "small", mounting: "behind another" } });
    expect(place).not.toHaveProperty("behind");
  });

  it("costs no opening where it stands open now; a later visit pays it", async () => {
    const { db } = await shop();
    const asked = { ...FOUND, placeFasteners: { screw: 4 } };
    const price = async (more: object) => {
      const outcome = await done(priceExtraFault, deskAt(db, at(1)), { ...asked, ...more }, { job: TAPE_ECHO });
      if (!outcome.ok || !("answer" in outcome)) throw new Error(JSON.stringify(outcome));
      return outcome.answer;
    };
    const [closed, open] = [await price({}), await price({ placeOpen: true })];
    expect(closed.now.opens).toEqual(["Battery tray"]);
    expect(open.now.opens).toEqual([]);
    expect(open.now.price).toBeLessThan(closed.now.price);
    expect(open.later).toEqual(closed.later);
  });

  it("can be reached by the next fault under its name", async () => {
    const { db } = await shop();
    const one = await placed(db, { "placeFasteners.screw": "4" });
    const two = await placed(db, { count: "2", where: "battery TRAY" });
    expect([one.item!.assembly, two.item!.assembly]).toEqual(["place1", "place1"]);
  });

  it.each([
    [{ where: "Battery tray" }, "where", "If it is not on this unit's map, say below how it is reached."],
    [{ where: "", placeSize: "small", placeMounting: "on top" }, "where", "Where is missing"],
    [{ where: first!.name, placeSize: "small", placeMounting: "on top" }, "where", "on this unit's map with the way to it"],
    [{ placeBehind: "the moon", placeSize: "small", placeMounting: "on top" }, "placeBehind", "'the moon' is not known"],
    [{ placeBehind: first!.id }, "placeSize", "count what holds the place"],
    [{ placeSize: "small" }, "placeMounting", "Mounting is missing"],
    [{ "placeFasteners.screw": "-1" }, "placeFasteners", "screw"],
    [{ "placeFasteners.string": "2" }, "placeFasteners", "string"],
  ])("%o is named beside its field: %s, and nothing is added", async (fields, field, text) => {
    const { db } = await shop();
    const before = await estimates.ofJob(db, TAPE_ECHO);
    const { item, errors } = await placed(db, fields as Record<string, string>);
    expect([item, Object.keys(errors)]).toEqual([undefined, [field]]);
    expect(errors[field]).toContain(text);
    expect(await estimates.ofJob(db, TAPE_ECHO)).toEqual(before);
  });
});
