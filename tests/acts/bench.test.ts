/** What the bench put on record, as the close-out reads it. */
import { describe, expect, it } from "vitest";
import { switchTimer } from "../../src/acts/timer.js";
import { tickedOnly } from "../../src/estimating/agreement/workLog.js";
import type { LogEntryValue } from "../../src/records/workLog.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { shop } from "../http/support/shop.js";
import { agreedJob } from "../records/support/closed.js";
import { draftSaved } from "../records/support/drafts.js";
import { at, draftOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, log, not, read, stands, start, stop, tick } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

/** `policy`: of the revision that is agreed to. */
async function bench(policy?: object) {
  const { db } = await (policy ? shop() : agreedShop());
  if (policy) {
    const draft = await draftOf(db, TAPE_ECHO);
    const input = { ...draft.input, policy: { ...draft.input.policy, ...policy } };
    await draftSaved(db, draft.id, draft.version, { ...draft, input }, at(0));
    await agreedJob(db);
  }
  const made = (id: string, when = at(3), once?: string) => ({ id, job: TAPE_ECHO, when, ...(once !== undefined && { once }) });
  let n = 0;
  const logged = async (entry: Partial<LogEntryValue>, override?: { by: string; reason: string }) => {
    n += 1;
    return answerOf(await log(db, made(`log-${n}`, at(2 + n)), entry, override));
  };
  const started = (id: string, person = "Ines", item = "w02") =>
    start(db, made(id, at(1), id), { person, item, startedAt: "2026-11-25T10:00:00+00:00" });
  const stopped = (endedAt: string, once?: string) => stop(db, made("over", at(90), once), { person: "Ines", endedAt });
  return { db, made, logged, started, stopped };
}

describe("the engine's log of a job", () => {
  it("tells time, pieces and running timers apart, with who let what through, and leaves bare amounts out", async () => {
    const { db, logged: log, started } = await bench();
    await log({ item: "w02", minutes: 12.5, partKind: "drive-belt", paidPrice: 450, paidPer: 3, partReason: "bought in threes" });
    await log({
      assembly: "case",
      startedAt: "2026-11-25T09:00:00+01:00",
      endedAt: "2026-11-25T08:20:00Z",
      labourClass: "bench",
    });
    await log({ item: "w20", minutes: 5 }, { by: "Wilhelmina", reason: "asked on the telephone" });
    await log({ item: "w02", parts: 340 });
    await started("timer-1", "Tamsin");
    expect((await stands(db, TAPE_ECHO)).log()).toEqual({
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
      parts: [
        { id: "log-1", item: "w02", part: { kind: "drive-belt" }, count: 1, state: "reproduction", paid: { price: 450, per: 3 } },
      ],
    });
    expect((await stands(db, TAPE_ECHO)).entries.at(-1)).toMatchObject({ id: "log-4", parts: 340 });
  });

  it("tells a part of the catalogue that no revision names as its type, so that the job can be closed", async () => {
    const { db, logged: log } = await bench();
    await db.run(
      `INSERT INTO part_kinds (id, version, created_at, updated_at, type, name) VALUES ('odd-jack', 1, 'x', 'x', 'jack', 'Odd jack')`,
    );
    const why = { by: "Wilhelmina", reason: "the jack was cracked too" };
    await log({ item: "w02", partKind: "odd-jack", note: "from the drawer" }, why);
    expect((await stands(db, TAPE_ECHO)).log().parts).toMatchObject([
      { part: { type: "jack" }, note: "Odd jack: from the drawer", override: why },
    ]);
    const { rows } = await db.run("SELECT kind, beyond - change AS pieces FROM stock_movements WHERE why = 'used on job'");
    expect(rows.map(({ kind, pieces }) => [kind, pieces])).toEqual([["odd-jack", 1]]);
  });

  it("has the latest count of each work, and the readings in order, each once for each key", async () => {
    const { db, made } = await bench();
    for (const [id, count] of [
      ["a", 1],
      ["b", 3],
      ["b", 3],
    ] as const)
      expect((await tick(db, made(id, at(count), id), { item: "w01", count, person: "Ines" })).ok).toBe(true);
    expect((await stands(db, TAPE_ECHO)).done).toEqual({ w01: 3 });
    expect((await stands(db, TAPE_ECHO)).tickOffs).toHaveLength(2);
    const reading = { label: "cell voltage", expected: 3, found: 2.4, person: "Ines" };
    for (const id of ["r", "r"]) expect((await read(db, made(id, at(5), id), reading)).ok).toBe(true);
    expect((await stands(db, TAPE_ECHO)).readings).toEqual([{ ...reading, unit: "V", id: "r", jobId: TAPE_ECHO, at: at(5) }]);
  });
});

it("work ticked off and not timed is used at the time and with the parts it was agreed at, until it is timed", async () => {
  const { db, made, logged } = await bench();
  const { input, sheet } = (await stands(db, TAPE_ECHO)).agreed()!;
  const partsOf = (item: string) =>
    sheet.lines.filter(({ sort, from }) => sort === "part" && from.some((by) => by.is === "item" && by.id === item));
  const { id: item, count } = input.items.find(({ id, certainty }) => certainty.is === "planned" && partsOf(id).length === 1)!;
  const line = sheet.lines.find(({ id }) => id === `labour:${item}`)!;
  const spent = async () => (await stands(db, TAPE_ECHO)).spent()!.withoutTax;
  expect(await spent()).toBe(0);
  answerOf(await tick(db, made("all", at(5), "all"), { item, count, person: "Ines" }));
  const ticked = await spent();
  const { agreedWork, logged: entries, done: counts } = await stands(db, TAPE_ECHO);
  expect(tickedOnly(input, agreedWork()!, entries(), counts)).toEqual([{ item, minutes: line.minutes, pieces: count }]);
  expect(tickedOnly(input, agreedWork()!, [{ item, parts: 100 }], counts)).toEqual([{ item, minutes: line.minutes }]);
  // Less the discount of the demo.
  expect(ticked).toBeGreaterThan(line.amount);
  await logged({ item, minutes: 1 });
  expect(await spent()).toBeLessThan(ticked);
  expect(await spent()).toBeGreaterThan(0);
});

it("work is ticked off beyond what was agreed only where an override let some of that very work be logged", async () => {
  const { db, made, logged } = await bench();
  const ticked = (item: string) => tick(db, made(item, at(9)), { item, count: 1, person: "Ines" });
  const why = { by: "Wilhelmina", reason: "asked on the telephone" };
  const other = await logged({ item: "w02", partKind: "el-10u-50", partCount: 1 }, why);
  expect(other).toHaveProperty("overrideId");
  expect(await ticked("w20")).toMatchObject(not("work unagreed"));
  await logged({ item: "w20", minutes: 5 }, why);
  expect(await ticked("w20")).toMatchObject({ ok: true });
});

describe("a timer", () => {
  it("that is switched from logs its time as it would when stopped: until when, how long, the note and who let it through", async () => {
    const { db, made, logged } = await bench({ pricing: { is: "time and parts with ceiling", confidencePercent: 95 } });
    const switched = (when: number, to: string, stops: object = {}) =>
      done(switchTimer, deskAt(db, at(when)), { person: "Ines", item: to, ...stops }, { job: TAPE_ECHO });
    answerOf(await start(db, made("first", at(1)), { person: "Ines", item: "w02" }));
    answerOf(await switched(10, "w01", { worked: 4, note: "the belt had melted" }));
    const why = { by: "Wilhelmina", reason: "asked on the telephone" };
    await logged({ item: "w02", minutes: 6000, person: "Tamsin" }, why);
    const stops = { endedAt: at(20) };
    expect(await switched(30, "w02", stops)).toMatchObject({ ok: false });
    answerOf(await switched(30, "w02", { ...stops, override: why }));
    expect((await stands(db, TAPE_ECHO)).entries.filter(({ person }) => person === "Ines")).toMatchObject([
      { id: "first", item: "w02", startedAt: at(1), endedAt: at(5), note: "the belt had melted" },
      { item: "w01", startedAt: at(10), endedAt: at(20), overrideId: expect.any(String) },
    ]);
  });

  it("is started once and stopped once, however often and from however many tablets it is sent", async () => {
    const { db, started, stopped } = await bench();
    const starts = await Promise.all([started("a"), started("b"), started("a")]);
    const refused = starts.flatMap((each) => (each.ok ? [] : each.refusal.errors!.map(({ name }) => name)));
    expect(refused).toEqual(starts[0].ok ? ["two timers"] : ["two timers", "two timers"]);
    const [running] = (await stands(db, TAPE_ECHO)).timers;
    const stops = await Promise.all([1, 2, 3].map((each) => stopped("2026-11-25T10:30:00Z", each < 3 ? "one key" : undefined)));
    expect(stops.filter(({ ok }) => ok).length).toBeGreaterThan(0);
    for (const each of stops) if (!each.ok) expect(each).toMatchObject(not("no timer running"));
    const after = await stands(db, TAPE_ECHO);
    expect(after.entries.map(({ id }) => id)).toEqual([running!.id]);
    expect(after.timers).toEqual([]);
  });

  it("may run on one work while another person works on another, and not on work that is not agreed", async () => {
    const { started } = await bench();
    expect((await started("a")).ok).toBe(true);
    expect((await started("b", "Tamsin", "w01")).ok).toBe(true);
    expect(await started("c", "Ottmar", "w20")).toMatchObject(
      not("work unagreed", { detail: expect.stringContaining("the owner left this option") }),
    );
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
