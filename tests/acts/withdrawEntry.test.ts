/** A wrong entry of the work log: it stays on record, and counts nowhere. */
import { describe, expect, it } from "vitest";
import type { Closing } from "../../src/acts/closeJob.js";
import { compared } from "../../src/acts/compared.js";
import { countKind } from "../../src/acts/countStock.js";
import { openJobs } from "../../src/acts/partsToGet.js";
import { correctEntry } from "../../src/acts/withdrawEntry.js";
import type { CloseOutRecord } from "../../src/records/closeOuts.js";
import type { Database } from "../../src/records/database.js";
import { estimates } from "../../src/records/estimates.js";
import { overridesOf } from "../../src/records/overrides.js";
import { movementsOf, stockOf } from "../../src/records/stock.js";
import { entriesOf, everyEntryOf } from "../../src/records/workLog.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { shop } from "../http/support/shop.js";
import { agreedJob, closing, worked } from "../records/support/closed.js";
import { draftSaved, nextDraft } from "../records/support/drafts.js";
import { at, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, close, log as logged, not, stands, tick, withdraw as withdrawn } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const WHY = { by: "Tamsin", reason: "200 typed for 20" };
const BELT = "drive-belt";

async function bench() {
  const { db } = await agreedShop();
  const log = (id: string, entry: Parameters<typeof logged>[2], override?: typeof WHY, when = at(3), once?: string) =>
    logged(db, { id, job: TAPE_ECHO, when, ...(once !== undefined && { once }) }, entry, override);
  const withdraw = (entry: string, id = `w-${entry}`, when = at(20)) =>
    withdrawn(db, { id, job: TAPE_ECHO, when, once: id }, entry, WHY);
  return { db, log, withdraw };
}

const usedOn = async (db: Database, item: string) => (await openJobs(db)).find(({ id }) => id === TAPE_ECHO)?.logged.get(item);

describe("a withdrawn entry", () => {
  it("stays on record with who and why, and is gone from the log, the limit, the parts and the shelf", async () => {
    const { db, log, withdraw } = await bench();
    await done(countKind, deskAt(db, at(1)), { kind: BELT, counted: 3, reason: "looked", by: "Ines" }, {});
    const before = (await stands(db, TAPE_ECHO)).spent()!.total;
    answerOf(await log("right", { item: "w02", minutes: 20 }));
    const spent = (await stands(db, TAPE_ECHO)).spent()!.total;
    expect(spent).toBeGreaterThan(before);
    const five = { item: "w02", minutes: 9, partKind: BELT, partCount: 5, beyond: true, paidPrice: 10, partReason: "from a lot" };
    answerOf(await log("wrong", five, WHY));
    expect((await stockOf(db, [BELT])).get(BELT)).toBe(0);
    expect(await usedOn(db, "w02")).toBe(5);

    expect(await withdraw("wrong")).toMatchObject({ ok: true, answer: { ...WHY, entryId: "wrong", at: at(20) } });
    expect((await entriesOf(db, TAPE_ECHO)).map(({ id }) => id)).toEqual(["right"]);
    expect(await everyEntryOf(db, TAPE_ECHO)).toMatchObject([{ id: "right" }, { id: "wrong", withdrawal: WHY }]);
    const read = (await stands(db, TAPE_ECHO)).log();
    expect([read.time.map(({ id }) => id), read.parts]).toEqual([["right"], []]);
    expect((await stands(db, TAPE_ECHO)).spent()!.total).toBe(spent);
    expect(await usedOn(db, "w02")).toBe(0);
    // The count had three of the five: three go back.
    expect((await stockOf(db, [BELT])).get(BELT)).toBe(3);
    expect((await movementsOf(db, BELT)).map(({ why, change, beyond }) => [why, change, beyond]).slice(0, 2)).toEqual([
      ["put back", 3, -2],
      ["used on job", -3, 2],
    ]);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("is withdrawn once, by whoever came first, and does not come back when it is sent again", async () => {
    const { db, log, withdraw } = await bench();
    const send = () => log("wrong", { item: "w02", minutes: 200 }, undefined, at(3), "one key");
    answerOf(await send());
    const two = await Promise.all([withdraw("wrong", "a"), withdraw("wrong", "b"), withdraw("wrong", "a")]);
    const refused = two.flatMap((each) => (each.ok ? [] : [each.refusal.is]));
    expect(refused).toEqual(Array(two[0].ok ? 1 : 2).fill("entry withdrawn already"));
    expect(await send()).toMatchObject({ ok: true, replayed: {} });
    expect(await entriesOf(db, TAPE_ECHO)).toEqual([]);
    expect(await withdraw("nothing")).toMatchObject(not("log entry unknown"));
    expect(await withdrawn(db, { job: "nobody", when: at(4) }, "wrong", WHY)).toMatchObject(not("not found"));
  });

  it("lets the right time be logged in its place, also where both would overlap", async () => {
    const { log, withdraw } = await bench();
    const time = { item: "w02", startedAt: "2026-11-25T08:00:00Z", endedAt: "2026-11-25T09:00:00Z" };
    answerOf(await log("wrong", time));
    const right = { ...time, item: "w01" };
    expect(await log("right", right)).toMatchObject(not("input refused", { errors: [{ name: "times overlap" }] }));
    await withdraw("wrong");
    answerOf(await log("right", right));
  });

  it("and the right one are written together or not at all, the right one judged without the wrong", async () => {
    const { db, log } = await bench();
    const time = { item: "w02", startedAt: "2026-11-25T08:00:00Z", endedAt: "2026-11-25T09:00:00Z", person: "Ines" };
    answerOf(await log("wrong", time));
    const correct = (id: string, value: object, entry = "wrong") =>
      done(correctEntry, deskAt(db, at(20), id), { ...time, ...value, withdrawal: WHY }, { job: TAPE_ECHO, entry });
    const standing = async () => [await everyEntryOf(db, TAPE_ECHO), await overridesOf(db, TAPE_ECHO)];
    const before = await standing();
    expect(await correct("a", { item: "nothing" })).toMatchObject(not("input refused"));
    expect(await correct("b", { item: "w20" })).toMatchObject(not("work unagreed", { overridable: true }));
    expect(await correct("c", {}, "nothing")).toMatchObject(not("log entry unknown"));
    expect(await standing()).toEqual(before);
    expect(await correct("d", { item: "w01" })).toMatchObject({ ok: true, answer: { item: "w01" } });
    expect((await everyEntryOf(db, TAPE_ECHO)).map(({ item, withdrawal }) => [item, withdrawal?.reason])).toEqual([
      ["w02", WHY.reason],
      ["w01", undefined],
    ]);
    expect(await correct("e", {})).toMatchObject(not("entry withdrawn already"));
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("keeps the override that let it through", async () => {
    const { db, log, withdraw } = await bench();
    await log("wrong", { item: "w20", minutes: 5 }, WHY);
    await withdraw("wrong");
    expect(await overridesOf(db, TAPE_ECHO)).toMatchObject([{ id: "wrong-2", refusal: "option not chosen" }]);
    expect((await everyEntryOf(db, TAPE_ECHO))[0]).toMatchObject({ overrideId: "wrong-2" });
  });

  it("and its withdrawal are never changed, deleted or put on another job", async () => {
    const { db, log, withdraw } = await bench();
    await log("wrong", { item: "w02", minutes: 200 });
    await withdraw("wrong");
    await log("other", { item: "w02", minutes: 2 });
    for (const statement of [
      "UPDATE log_withdrawals SET reason = 'none'",
      "DELETE FROM log_withdrawals",
      "REPLACE INTO log_withdrawals SELECT 'z', job_id, at, entry_id, withdrawn_by, reason FROM log_withdrawals",
      `INSERT INTO log_withdrawals SELECT 'z', (SELECT id FROM jobs WHERE id <> '${TAPE_ECHO}' LIMIT 1), at, 'other', 'x', 'y' FROM log_withdrawals`,
    ])
      await expect(db.run(statement), statement).rejects.toThrow();
  });
});

describe("a log that changes after closing", () => {
  it("waits for the close-out's correction, which reckons from the log as it then stands", async () => {
    const { db, log, withdraw } = await bench();
    await log("wrong", { item: "w01", minutes: 60 });
    await worked(db, TAPE_ECHO);
    const closed = async (id: string, when: string, more: Partial<Closing> = {}) => {
      answerOf(await close(db, { id, job: TAPE_ECHO, when }, closing(more)));
      return (await stands(db, TAPE_ECHO)).closeOut!;
    };
    const changed = async () => (await stands(db, TAPE_ECHO)).changedAfterClosing;
    const first = await closed("first", at(600));
    expect(await changed()).toBe(false);

    answerOf(await withdraw("wrong", "w", at(700)));
    const right = { item: "w01", minutes: 6 };
    expect(await log("right", right, undefined, at(701))).toMatchObject(not("job closed", { overridable: true }));
    answerOf(await log("right", right, WHY, at(701)));
    expect((await overridesOf(db, TAPE_ECHO)).map(({ refusal }) => refusal)).toEqual(["job closed"]);
    expect(await changed()).toBe(true);

    const second = await closed("again", at(800), { corrects: "first", reason: "200 typed for 20" });
    const minutes = ({ result }: CloseOutRecord) => result.closeOut!.attended.actual;
    expect(minutes(first) - minutes(second)).toBe(54);
    expect(await changed()).toBe(false);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});

describe("possible work that was logged or ticked off by mistake", () => {
  const EYE = { id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 1 } as const;
  const OFTEN = { is: "if found", probability: 0.4 } as const;

  /** Agreed to with an eye that may have to be replaced, and a draft of revision 2 begun before or after something is done. */
  async function drafted(first = async (_: Database): Promise<unknown> => undefined) {
    const { db } = await shop();
    const [draft] = await estimates.ofJob(db, TAPE_ECHO);
    const items = [...draft!.input.items, { ...EYE, certainty: OFTEN }];
    await draftSaved(db, draft!.id, draft!.version, { ...draft!, input: { ...draft!.input, items } }, at(0));
    await agreedJob(db);
    await first(db);
    expect((await nextDraft(db, TAPE_ECHO, "second", at(2))).is).toBe("done");
    const eye = async () => {
      const { input, sheet } = (await stands(db, TAPE_ECHO)).draft!;
      return [input.items.find(({ id }) => id === "eye")!.certainty.is, sheet!.ifFound.some(({ id }) => id === "eye")];
    };
    return { db, eye };
  }
  const made = (id: string, minute: number) => ({ id, job: TAPE_ECHO, when: at(minute) });
  const ticked = async (db: Database, count: number, minute: number) =>
    answerOf(await tick(db, made(`t${minute}`, minute), { item: "eye", count, person: "Ines" }));
  const eyeLogged = async (db: Database, id: string, minute: number) =>
    answerOf(await logged(db, made(id, minute), { item: "eye", minutes: 12 }));
  const goes = async (db: Database, id: string, minute: number) =>
    answerOf(await withdrawn(db, made(`w-${id}`, minute), id, WHY));

  it("is a chance again in an open draft once nothing is left that says it was found", async () => {
    const { db, eye } = await drafted();
    await eyeLogged(db, "one", 3);
    await eyeLogged(db, "two", 4);
    await ticked(db, 1, 5);
    expect(await eye()).toEqual(["planned", false]);
    await goes(db, "one", 6);
    await ticked(db, 0, 7);
    expect(await eye()).toEqual(["planned", false]);
    await goes(db, "two", 8);
    expect(await eye()).toEqual(["if found", true]);
    expect(compared(await stands(db, TAPE_ECHO)).changes?.rows ?? []).toEqual([]);
    await ticked(db, 1, 9);
    expect(await eye()).toEqual(["planned", false]);
    await ticked(db, 0, 10);
    expect(await eye()).toEqual(["if found", true]);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("is a chance again in a draft that was begun after it, and what the shop plans otherwise of it stays", async () => {
    const { db, eye } = await drafted((first) => eyeLogged(first, "one", 1));
    expect(await eye()).toEqual(["planned", false]);
    await goes(db, "one", 6);
    expect(await eye()).toEqual(["if found", true]);
    await eyeLogged(db, "two", 7);
    const { draft } = await stands(db, TAPE_ECHO);
    const items = draft!.input.items.map((item) =>
      item.id === "eye" ? { ...item, certainty: { is: "optional" as const, chosen: false } } : item,
    );
    await draftSaved(db, draft!.id, draft!.version, { ...draft!, input: { ...draft!.input, items } }, at(8));
    await goes(db, "two", 9);
    expect(await eye()).toEqual(["optional", false]);
  });

  it("stays planned where the shop planned it by hand before anything was done", async () => {
    const { db, eye } = await drafted();
    const { draft } = await stands(db, TAPE_ECHO);
    const items = draft!.input.items.map((item) =>
      item.id === "eye" ? { ...item, certainty: { is: "planned" as const } } : item,
    );
    await draftSaved(db, draft!.id, draft!.version, { ...draft!, input: { ...draft!.input, items } }, at(3));
    await ticked(db, 1, 4);
    await ticked(db, 0, 5);
    expect(await eye()).toEqual(["planned", false]);
  });

  it("follows the entry that is put in place of the wrong one", async () => {
    const { db, eye } = await drafted();
    const corrected = async (wrong: string, minute: number, item: string) =>
      answerOf(
        await done(
          correctEntry,
          deskAt(db, at(minute), `c${minute}`),
          { person: "Ines", workedOn: "2026-11-25", item, minutes: 12, withdrawal: WHY },
          { job: TAPE_ECHO, entry: wrong },
        ),
      );
    await eyeLogged(db, "one", 3);
    const { id: other } = await corrected("one", 4, "w02");
    expect(await eye()).toEqual(["if found", true]);
    const { id: again } = await corrected(other, 5, "eye");
    expect(await eye()).toEqual(["planned", false]);
    await corrected(again, 6, "eye");
    expect(await eye()).toEqual(["planned", false]);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});
