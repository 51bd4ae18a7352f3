import { describe, expect, it } from "vitest";
import { agreedLimit } from "../../src/estimating/agreement/limit.js";
import { estimates } from "../../src/records/estimates.js";
import { logWork } from "../../src/records/logWork.js";
import { nextDraft } from "../../src/records/nextDraft.js";
import { overridesOf } from "../../src/records/overrides.js";
import { standingOf } from "../../src/records/standing.js";
import { eventsOf } from "../../src/records/trail.js";
import { entriesOf, type LogEntryValue } from "../../src/records/workLog.js";
import { shop } from "../http/support/shop.js";
import { answer } from "./support/answer.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "./support/livedIn.js";

const WHY = { by: "Wilhelmina Stråhle", reason: "our own fault, not billed" };

/** A tape echo whose first revision is agreed to, without its options. */
async function agreed(policy?: object) {
  const { db } = await shop();
  const draft = await draftOf(db, TAPE_ECHO);
  if (policy) {
    const input = { ...draft.input, policy: { ...draft.input.policy, ...policy } };
    await estimates.replace(db, draft.id, 1, { ...draft, input }, at(0));
  }
  const { record } = await issued(db, draft.id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  let n = 0;
  const log = (entry: Partial<LogEntryValue>, override?: typeof WHY) => {
    n += 1;
    const whole = { person: "Wilhelmina", workedOn: "2026-11-25", ...entry };
    return logWork(db, TAPE_ECHO, { id: `log-${n}`, overrideId: `over-${n}`, entry: whole, override }, at(3));
  };
  return { db, record, log };
}

describe("the work log", () => {
  it("takes agreed work, opening, and possible work that was agreed in advance", async () => {
    const { db, log } = await agreed();
    for (const entry of [{ item: "w01", minutes: 12.5, parts: 340 }, { minutes: 20 }, { item: "w17", minutes: 5 }])
      expect(await log(entry)).toMatchObject({ is: "logged" });
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { item: "w01", minutes: 12.5, parts: 340 },
      { minutes: 20 },
      { item: "w17" },
    ]);
  });

  it("refuses everything before an answer, and lets it through only with a name and a reason on record", async () => {
    const { db } = await shop();
    const entry = { item: "w01", minutes: 5, person: "Wilhelmina", workedOn: "2026-11-25" };
    const log = (override?: typeof WHY) => logWork(db, TAPE_ECHO, { id: "log", overrideId: "over", entry, override }, at(1));
    expect(await log()).toEqual({ is: "not agreed", why: "nothing agreed" });
    expect(await log(WHY)).toMatchObject({ is: "logged", record: { overrideId: "over" }, override: { ...WHY, of: "work log" } });
    expect(await overridesOf(db, TAPE_ECHO)).toMatchObject([{ id: "over", refusal: "nothing agreed", ...WHY }]);
    expect((await eventsOf(db, TAPE_ECHO)).slice(-2).map(({ is }) => is)).toEqual(["limit overridden", "work logged"]);
  });

  it("logs an entry once that is sent twice at the same time", async () => {
    const { db } = await agreed();
    const entry = { item: "w01", minutes: 5, person: "Wilhelmina", workedOn: "2026-11-25" };
    const twice = [1, 2].map(() => logWork(db, TAPE_ECHO, { id: "same", overrideId: "over", entry }, at(3)));
    for (const outcome of await Promise.all(twice)) expect(outcome).toMatchObject({ is: "logged", record: { id: "same" } });
    expect(await entriesOf(db, TAPE_ECHO)).toHaveLength(1);
    expect((await eventsOf(db, TAPE_ECHO)).filter(({ is }) => is === "work logged")).toHaveLength(1);
  });

  it("refuses an option that was left and work that came with a later draft", async () => {
    const { db, log } = await agreed();
    expect(await log({ item: "w20", minutes: 5 })).toEqual({ is: "not agreed", why: "option not chosen" });
    const next = await nextDraft(db, TAPE_ECHO, "second", at(4));
    if (next.is !== "added") throw new Error(next.is);
    const items = [...next.record.input.items.filter(({ id }) => id !== "w01"), { ...next.record.input.items[0]!, id: "extra" }];
    await estimates.replace(db, "second", 1, { ...next.record, input: { ...next.record.input, items } }, at(5));
    expect(await log({ item: "extra", minutes: 5 })).toEqual({ is: "not agreed", why: "not in what was agreed" });
    // Dropped by the draft, but agreed and perhaps done.
    expect(await log({ item: "w01", minutes: 5 })).toMatchObject({ is: "logged" });
  });

  it("stops at the limit to the minor unit, and records by how much an override passes it", async () => {
    const { db, log } = await agreed();
    const standing = (await standingOf(db, TAPE_ECHO))!;
    const { limit, spent } = standing.agreed!;
    const left = limit.upTo - (limit.withTax ? spent.total : spent.withoutTax);
    // Parts carry 20 % tax here, so so much net fills what is left.
    const fits = Math.floor((left * 100) / 120);
    expect(await log({ item: "w01", parts: fits + 2 })).toMatchObject({ is: "above limit", withTax: true });
    expect(await log({ item: "w01", parts: fits })).toMatchObject({ is: "logged" });
    const over = await log({ item: "w01", parts: 100 });
    expect(over).toMatchObject({ is: "above limit" });
    const passed = await log({ item: "w01", parts: 100 }, WHY);
    expect(passed).toMatchObject({ is: "logged", override: { over: (over as { by: number }).by } });
  });

  it("measures without tax where the profile does (16 CCR 2722(b): sales tax is not part of the estimate)", async () => {
    const { db } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    const input = { ...draft.input, policy: { ...draft.input.policy, profile: "us-ca" } };
    await estimates.replace(db, draft.id, 1, { ...draft, input }, at(0));
    const party = { address: ["1 Larkholt Rise"], phone: "01632 960999", registration: "R-1" };
    const paperwork = {
      shop: { name: "Larkholt Bench", ...party },
      owner: { name: "Ottilie Vantongeren", ...party },
      number: "J-2026-0002",
      revision: 1,
      date: "2026-11-25",
    };
    const { record } = await issued(db, draft.id, at(1), { paperwork });
    recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
    const { agreed: stands } = (await standingOf(db, TAPE_ECHO))!;
    expect(stands!.limit).toMatchObject({ withTax: false, upTo: stands!.sheet.totals.withoutTax });
  });

  it("never passes the limit without a record, however many log at once", async () => {
    const { db, log } = await agreed();
    const { limit, spent } = (await standingOf(db, TAPE_ECHO))!.agreed!;
    const parts = Math.floor((((limit.upTo - spent.total) / 3) * 100) / 120);
    const outcomes = await Promise.all(Array.from({ length: 8 }, () => log({ item: "w01", parts })));
    expect(outcomes.filter(({ is }) => is === "logged")).toHaveLength(3);
    expect(outcomes.filter(({ is }) => is === "above limit")).toHaveLength(5);
    const after = (await standingOf(db, TAPE_ECHO))!.agreed!;
    expect(after.spent.total).toBeLessThanOrEqual(after.limit.upTo);
  });

  it("knows its items and labour classes", async () => {
    const { log } = await agreed();
    const wrong = (name: string, pointer: string) => ({ is: "refused", problems: [expect.objectContaining({ name, pointer })] });
    expect(await log({ item: "nothing", minutes: 1 })).toEqual(wrong("work unknown", "/item"));
    expect(await log({ item: "w01", minutes: 1, labourClass: "nobody" })).toEqual(wrong("labour class unknown", "/labourClass"));
  });
});

describe("possible work that was logged", () => {
  it("raises a limit that rests on the estimated amount, and not before", async () => {
    const { db, log } = await agreed({ profile: "us-md-pg" });
    const before = (await standingOf(db, TAPE_ECHO))!.agreed!;
    expect(await log({ item: "w17", minutes: 1 })).toMatchObject({ is: "logged" });
    const after = (await standingOf(db, TAPE_ECHO))!.agreed!;
    expect(after.limit).toEqual(agreedLimit(before.input, ["w17"]));
    expect(before.limit).toEqual(agreedLimit(before.input));
  });
});
