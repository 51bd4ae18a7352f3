/** What the bench put on record, as the close-out reads it. */
import { describe, expect, it } from "vitest";
import { amountsOnly, doneCounts, engineLog } from "../../src/records/benchLog.js";
import { logWork } from "../../src/records/logWork.js";
import { readingsOf } from "../../src/records/readings.js";
import { startTimer, stopTimer } from "../../src/records/runTimer.js";
import { takeReading, tickOff } from "../../src/records/tickOff.js";
import { timersOf } from "../../src/records/timers.js";
import { entriesOf, type LogEntryValue } from "../../src/records/workLog.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { at, TAPE_ECHO } from "./support/livedIn.js";

async function bench() {
  const { db } = await agreedShop();
  let n = 0;
  const log = (entry: Partial<LogEntryValue>, override?: { by: string; reason: string }) => {
    n += 1;
    const whole = { person: "Ines", workedOn: "2026-11-25", ...entry };
    return logWork(db, TAPE_ECHO, { id: `log-${n}`, overrideId: `over-${n}`, entry: whole, override }, at(n));
  };
  const start = (id: string, person = "Ines", item = "w02") =>
    startTimer(db, TAPE_ECHO, { id, person, item, startedAt: "2026-11-25T10:00:00+00:00" });
  const stop = (endedAt: string) =>
    stopTimer(db, TAPE_ECHO, "Ines", { overrideId: "over", endedAt, workedOn: "2026-11-25" }, at(90));
  return { db, log, start, stop };
}

describe("the engine's log of a job", () => {
  it("tells time, pieces and running timers apart, with who let what through, and leaves bare amounts out", async () => {
    const { db, log, start } = await bench();
    await log({ item: "w02", minutes: 12.5, partKind: "drive-belt", paidPrice: 450, paidPer: 3 });
    await log({
      assembly: "case",
      startedAt: "2026-11-25T09:00:00+01:00",
      endedAt: "2026-11-25T08:20:00Z",
      labourClass: "bench",
    });
    await log({ item: "w20", minutes: 5 }, { by: "Wilhelmina", reason: "asked on the telephone" });
    await log({ item: "w02", parts: 340 });
    await start("timer-1", "Tamsin");
    expect(await engineLog(db, TAPE_ECHO)).toEqual({
      time: [
        { id: "log-1", person: "Ines", work: { is: "item", id: "w02" }, minutes: 12.5 },
        {
          ...{ id: "log-2", person: "Ines", work: { is: "access", assembly: "case" }, labourClass: "bench" },
          ...{ startedAt: "2026-11-25T08:00:00.000Z", endedAt: "2026-11-25T08:20:00.000Z" },
        },
        {
          ...{ id: "log-3", person: "Ines", work: { is: "item", id: "w20" }, minutes: 5 },
          override: { by: "Wilhelmina", reason: "asked on the telephone" },
        },
        { id: "timer-1", person: "Tamsin", work: { is: "item", id: "w02" }, startedAt: "2026-11-25T10:00:00.000Z" },
      ],
      parts: [{ id: "log-1", item: "w02", part: { kind: "drive-belt" }, count: 1, state: "new", paid: { price: 450, per: 3 } }],
    });
    expect(await amountsOnly(db, TAPE_ECHO)).toMatchObject([{ id: "log-4", parts: 340 }]);
  });

  it("tells a part of the catalogue that no revision names as its type, so that the job can be closed", async () => {
    const { db, log } = await bench();
    await db.run(
      `INSERT INTO part_kinds (id, version, created_at, updated_at, type, name) VALUES ('odd-jack', 1, 'x', 'x', 'jack', 'Odd jack')`,
    );
    const why = { by: "Wilhelmina", reason: "the jack was cracked too" };
    expect(await log({ item: "w02", partKind: "odd-jack", note: "from the drawer" }, why)).toMatchObject({ is: "logged" });
    expect((await engineLog(db, TAPE_ECHO)).parts).toMatchObject([
      { part: { type: "jack" }, note: "Odd jack: from the drawer", override: why },
    ]);
    const { rows } = await db.run("SELECT kind, beyond - change AS pieces FROM stock_movements WHERE why = 'used on job'");
    expect(rows.map(({ kind, pieces }) => [kind, pieces])).toEqual([["odd-jack", 1]]);
  });

  it("has the latest count of each work, and the readings in order", async () => {
    const { db } = await bench();
    const tick = (id: string, count: number) => tickOff(db, TAPE_ECHO, id, { item: "w01", count, person: "Ines" }, at(count));
    for (const [id, count] of [
      ["a", 1],
      ["b", 3],
      ["b", 2],
    ] as const)
      expect((await tick(id, count)).is).toBe("kept");
    expect(await doneCounts(db, TAPE_ECHO)).toEqual({ w01: 3 });
    const reading = { label: "cell voltage", expected: 3, found: 2.4, unit: "V", person: "Ines" };
    for (const id of ["r", "r"]) expect((await takeReading(db, TAPE_ECHO, id, reading, at(5))).is).toBe("kept");
    expect(await readingsOf(db, TAPE_ECHO)).toEqual([{ ...reading, id: "r", jobId: TAPE_ECHO, at: at(5) }]);
  });
});

describe("a timer", () => {
  it("is started once and stopped once, however often and from however many tablets it is sent", async () => {
    const { db, start, stop } = await bench();
    const starts = await Promise.all([start("a"), start("b"), start("a")]);
    expect(starts.map((each) => (each.is === "refused" ? each.problems[0]!.name : each.is)).sort()).toEqual(
      starts[0].is === "started" ? ["started", "started", "two timers"] : ["started", "two timers", "two timers"],
    );
    const [running] = await timersOf(db, TAPE_ECHO);
    const stops = await Promise.all([stop("2026-11-25T10:30:00Z"), stop("2026-11-25T10:30:00Z")]);
    expect(stops.filter((each) => each.is === "logged").length).toBeGreaterThan(0);
    expect((await entriesOf(db, TAPE_ECHO)).map(({ id }) => id)).toEqual([running!.id]);
    expect(await start(running!.id)).toMatchObject({ is: "started" });
    expect(await timersOf(db, TAPE_ECHO)).toEqual([]);
  });

  it("may run on one work while another person works on another, and not on work that is not agreed", async () => {
    const { start } = await bench();
    expect((await start("a")).is).toBe("started");
    expect((await start("b", "Tamsin", "w01")).is).toBe("started");
    expect(await start("c", "Ottmar", "w20")).toEqual({ is: "not agreed", why: "option not chosen" });
  });
});

it("looks for a person's other time by an index", async () => {
  const { db } = await bench();
  const { rows } = await db.run(
    "EXPLAIN QUERY PLAN SELECT * FROM work_log WHERE person = 'Ines' AND started_at >= 'a' AND started_at < 'b' AND ended_at > 'a' AND job_id <> 'x'",
  );
  expect(rows.map(({ detail }) => detail)).toEqual([
    "SEARCH work_log USING INDEX work_log_person (person=? AND started_at>? AND started_at<?)",
  ]);
});
