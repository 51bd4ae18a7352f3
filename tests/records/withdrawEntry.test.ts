/** A wrong entry of the work log: it stays on record, and counts nowhere. */
import { describe, expect, it } from "vitest";
import { countKind } from "../../src/acts/countStock.js";
import { engineLog } from "../../src/records/benchLog.js";
import { changedAfterClosing } from "../../src/records/closed.js";
import { closeJob } from "../../src/records/closing.js";
import { logWork } from "../../src/records/logWork.js";
import { loggedOn } from "../../src/records/openNeeds.js";
import { overridesOf } from "../../src/records/overrides.js";
import { startTimer } from "../../src/records/runTimer.js";
import { standingOf } from "../../src/records/standing.js";
import { movementsOf, stockOf } from "../../src/records/stock.js";
import { withdrawEntry } from "../../src/records/withdrawEntry.js";
import { entriesOf, everyEntryOf, type LogEntryValue } from "../../src/records/workLog.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { deskAt, done } from "../acts/support/desk.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { closing, worked } from "./support/closed.js";
import { at, TAPE_ECHO } from "./support/livedIn.js";

const WHY = { by: "Tamsin", reason: "200 typed for 20" };
const BELT = "drive-belt";

async function bench() {
  const { db } = await agreedShop();
  const log = (id: string, entry: Partial<LogEntryValue>, override?: { by: string; reason: string }, when = at(3)) => {
    const whole = { person: "Ines", workedOn: "2026-11-25", ...entry };
    return logWork(db, TAPE_ECHO, { id, overrideId: `over-${id}`, entry: whole, override }, when);
  };
  const withdraw = (entryId: string, id = `w-${entryId}`, when = at(20)) =>
    withdrawEntry(db, TAPE_ECHO, { ...WHY, id, entryId }, when);
  return { db, log, withdraw };
}

describe("a withdrawn entry", () => {
  it("stays on record with who and why, and is gone from the log, the limit, the parts and the shelf", async () => {
    const { db, log, withdraw } = await bench();
    await done(countKind, deskAt(db, at(1)), { kind: BELT, counted: 3, reason: "looked", by: "Ines" }, {});
    const before = await standingOf(db, TAPE_ECHO);
    expect((await log("right", { item: "w02", minutes: 20 })).is).toBe("logged");
    const spent = (await standingOf(db, TAPE_ECHO))!.agreed!.spent.total;
    expect(spent).toBeGreaterThan(before!.agreed!.spent.total);
    const five = { item: "w02", minutes: 9, partKind: BELT, partCount: 5, paidPrice: 10 };
    expect(await log("wrong", five, WHY)).toMatchObject({ is: "logged" });
    expect((await stockOf(db, [BELT])).get(BELT)).toBe(0);
    expect((await loggedOn(db, TAPE_ECHO)).get("w02")).toBe(5);

    expect(await withdraw("wrong")).toMatchObject({ is: "withdrawn", record: { ...WHY, entryId: "wrong", at: at(20) } });
    expect((await entriesOf(db, TAPE_ECHO)).map(({ id }) => id)).toEqual(["right"]);
    expect(await everyEntryOf(db, TAPE_ECHO)).toMatchObject([{ id: "right" }, { id: "wrong", withdrawal: WHY }]);
    const read = await engineLog(db, TAPE_ECHO);
    expect([read.time.map(({ id }) => id), read.parts]).toEqual([["right"], []]);
    expect((await standingOf(db, TAPE_ECHO))!.agreed!.spent.total).toBe(spent);
    expect((await loggedOn(db, TAPE_ECHO)).get("w02")).toBe(0);
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
    await log("wrong", { item: "w02", minutes: 200 });
    const two = await Promise.all([withdraw("wrong", "a"), withdraw("wrong", "b"), withdraw("wrong", "a")]);
    expect(two.map(({ is }) => is).sort()).toEqual(
      two[0].is === "withdrawn"
        ? ["withdrawn", "withdrawn", "withdrawn already"]
        : ["withdrawn", "withdrawn already", "withdrawn already"],
    );
    expect((await log("wrong", { item: "w02", minutes: 200 })).is).toBe("logged");
    expect(await startTimer(db, TAPE_ECHO, { id: "wrong", person: "Ines", item: "w02", startedAt: at(2) })).toMatchObject({
      is: "started",
    });
    expect(await entriesOf(db, TAPE_ECHO)).toEqual([]);
    expect(await withdraw("nothing")).toEqual({ is: "entry unknown" });
    expect(await withdrawEntry(db, "nobody", { ...WHY, id: "x", entryId: "wrong" }, at(4))).toEqual({ is: "missing" });
  });

  it("lets the right time be logged in its place, also where both would overlap", async () => {
    const { log, withdraw } = await bench();
    const time = { item: "w02", startedAt: "2026-11-25T08:00:00Z", endedAt: "2026-11-25T09:00:00Z" };
    expect((await log("wrong", time)).is).toBe("logged");
    const right = { ...time, item: "w01" };
    expect((await log("right", right)).is).toBe("refused");
    await withdraw("wrong");
    expect((await log("right", right)).is).toBe("logged");
  });

  it("keeps the override that let it through", async () => {
    const { db, log, withdraw } = await bench();
    await log("wrong", { item: "w20", minutes: 5 }, WHY);
    await withdraw("wrong");
    expect(await overridesOf(db, TAPE_ECHO)).toMatchObject([{ id: "over-wrong", refusal: "option not chosen" }]);
    expect((await everyEntryOf(db, TAPE_ECHO))[0]).toMatchObject({ overrideId: "over-wrong" });
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
    const first = await closeJob(db, TAPE_ECHO, closing(), at(600));
    if (first.is !== "closed") throw new Error(first.is);
    expect(await changedAfterClosing(db, TAPE_ECHO)).toBe(false);

    expect((await withdraw("wrong", "w", at(700))).is).toBe("withdrawn");
    expect(await log("right", { item: "w01", minutes: 6 }, undefined, at(701))).toMatchObject({ is: "job closed" });
    expect((await log("right", { item: "w01", minutes: 6 }, WHY, at(701))).is).toBe("logged");
    expect((await overridesOf(db, TAPE_ECHO)).map(({ refusal }) => refusal)).toEqual(["job closed"]);
    expect(await changedAfterClosing(db, TAPE_ECHO)).toBe(true);

    const corrected = { ...closing({ corrects: first.record.id, reason: "200 typed for 20" }), id: "again" };
    const second = await closeJob(db, TAPE_ECHO, corrected, at(800));
    if (second.is !== "closed") throw new Error(JSON.stringify(second));
    const minutes = (record: typeof first.record) => record.result.closeOut.attended.actual;
    expect(minutes(first.record) - minutes(second.record)).toBe(54);
    expect(await changedAfterClosing(db, TAPE_ECHO)).toBe(false);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});
