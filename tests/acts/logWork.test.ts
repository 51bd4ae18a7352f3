import { describe, expect, it, onTestFinished } from "vitest";
import { shapeFaults } from "../../src/acts/fault.js";
import { jobAsItStands } from "../../src/acts/job.js";
import { logWork } from "../../src/acts/logWork.js";
import { owedDeclined } from "../../src/acts/reckoning.js";
import { agreedLimit } from "../../src/estimating/agreement/limit.js";
import { logged as comesTo, lookingLimit, worthOfLooking } from "../../src/estimating/agreement/workLog.js";
import { connectFile } from "../../src/records/connectFile.js";
import type { Database } from "../../src/records/database.js";
import { type Override, overridesOf } from "../../src/records/overrides.js";
import { owners } from "../../src/records/owners.js";
import { settings } from "../../src/records/settings.js";
import { eventsOf } from "../../src/records/trail.js";
import { entriesOf, type LogEntryValue } from "../../src/records/workLog.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { visitor, words } from "../http/support/noScript.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { draftSaved, nextDraft } from "../records/support/drafts.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, log as logged, not, stands, tick } from "./support/bench.js";

const WHY = { by: "Wilhelmina Stråhle", reason: "our own fault, not billed" };

/** Billed as it comes, up to the ceiling. */
const BY_TIME = { pricing: { is: "time and parts with ceiling", confidencePercent: 95 } } as const;

/** A tape echo whose first revision is agreed to, without its options. */
async function agreed(policy?: object) {
  const { db } = await shop();
  const draft = await draftOf(db, TAPE_ECHO);
  if (policy) {
    const input = { ...draft.input, policy: { ...draft.input.policy, ...policy } };
    await draftSaved(db, draft.id, 1, { ...draft, input }, at(0));
  }
  const { record } = await issued(db, draft.id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  let n = 0;
  const log = (entry: Partial<LogEntryValue>, override?: typeof WHY) => {
    n += 1;
    return logged(db, { id: `log-${n}`, job: TAPE_ECHO, when: at(3) }, entry, override);
  };
  return { db, record, log };
}

it("no time is logged as 0 minutes, with or without a part", () => {
  for (const part of [{}, { item: "tune", partType: "film" }]) {
    const sent = { person: "Ines", minutes: 0, ...part };
    const read = logWork.fields.safeParse(sent);
    expect(read.success ? [] : shapeFaults(read.error.issues, sent, logWork.fields)).toEqual([
      {
        pointer: "/minutes",
        name: "number out of range",
        detail: "Minutes is 0; give what it took, or leave it empty where only a part was used.",
      },
    ]);
  }
});

async function heldTo(db: Database) {
  const job = await stands(db, TAPE_ECHO);
  return { input: job.agreed()!.input, limit: job.limit()!, spent: job.spent()! };
}

/** The most that parts of one entry may still sell for, with the sundries and the freight they bring. */
async function room(db: Database): Promise<number> {
  const job = await stands(db, TAPE_ECHO);
  const { upTo } = job.limit()!;
  let [fits, passes] = [0, upTo];
  while (passes - fits > 1) {
    const parts = Math.floor((fits + passes) / 2);
    if (comesTo(job.input()!, job.agreed()!, [...job.logged(), { item: "w01", parts }]).total > upTo) passes = parts;
    else fits = parts;
  }
  return fits;
}

describe("the work log", () => {
  it("refuses a day that has not come, and says which day it is", async () => {
    const { db, log } = await agreed();
    const entry = { item: "w01", person: "Wilhelmina Stråhle", minutes: 5, workedOn: "2030-01-01" };
    expect(await log(entry)).toMatchObject({
      refusal: {
        errors: [
          {
            pointer: "/workedOn",
            name: "worked ahead",
            detail: "Day is 1 January 2030, which is after today, 25 November 2026; give the day the work was done.",
          },
        ],
      },
    });
    expect(await entriesOf(db, TAPE_ECHO)).toEqual([]);
  });

  it("takes agreed work, opening, and possible work that was agreed in advance", async () => {
    const { db, log } = await agreed();
    for (const entry of [{ item: "w01", minutes: 12.5, parts: 340 }, { minutes: 20 }, { item: "w17", minutes: 5 }])
      expect(await log(entry)).toMatchObject({ ok: true });
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { item: "w01", minutes: 12.5, parts: 340 },
      { minutes: 20 },
      { item: "w17" },
    ]);
  });

  it("refuses work before an answer, and lets it through only with a name and a reason on record", async () => {
    const { db } = await shop();
    const log = (override?: typeof WHY) =>
      logged(db, { id: "log", job: TAPE_ECHO, when: at(1) }, { item: "w02", minutes: 5 }, override);
    expect(await log()).toMatchObject(not("work unagreed", { overridable: true }));
    expect(await log(WHY)).toMatchObject({ ok: true, answer: { overrideId: "log-2" } });
    expect(await overridesOf(db, TAPE_ECHO)).toMatchObject([{ id: "log-2", of: "work log", refusal: "nothing agreed", ...WHY }]);
    expect((await eventsOf(db, TAPE_ECHO)).slice(-2).map(({ is }) => is)).toEqual(["limit overridden", "work logged"]);
  });

  it.each([
    ["the diagnosis fee, with its tax", { diagnosis: true }],
    ["the most that the owner said to owe", { diagnosis: true, diagnosisLimit: 6000 }],
  ])(
    "takes time for opening before an answer up to what the intake receipt authorises, %s, and no other work",
    async (_, policy) => {
      const { db } = await shop();
      const draft = await draftOf(db, TAPE_ECHO);
      const input = { ...draft.input, policy: { ...draft.input.policy, ...policy } };
      await draftSaved(db, draft.id, 1, { ...draft, input }, at(0));
      const book = (await stands(db, TAPE_ECHO)).input()!;
      const limit = lookingLimit(book);
      if (!("diagnosisLimit" in policy)) expect(limit).toBeGreaterThan(book.rateBook.fees.diagnosis.amount);
      // The longest opening that is worth no more.
      let longest = 0;
      while (worthOfLooking(book, [{ minutes: longest + 1 }]) <= limit) longest++;
      expect(longest).toBeGreaterThan(10);
      let n = 0;
      const log = (entry: Partial<LogEntryValue>) => logged(db, { id: `log-${n++}`, job: TAPE_ECHO, when: at(1) }, entry);
      expect(await log({ minutes: longest - 5 })).toMatchObject({ ok: true });
      expect(await log({ minutes: 6 })).toMatchObject(not("work unagreed", { overridable: true }));
      expect(await log({ minutes: 5 })).toMatchObject({ ok: true });
      expect(await log({ item: "w02", minutes: 1 })).toMatchObject(not("work unagreed", { overridable: true }));
      expect(await log({ own: "Have a look", minutes: 1 })).toMatchObject(not("work unagreed", { overridable: true }));
      expect(await overridesOf(db, TAPE_ECHO)).toEqual([]);
      // On the owner's word at the counter: nothing that a later answer leaves out keeps the job from being closed.
      const { record } = await issued(db, draft.id);
      recordOf(await answer(db, "no", await given(db, record.id, { answer: "declined" }), at(2)));
      const job = await stands(db, TAPE_ECHO);
      expect(job.log().time.map((each) => ["minutes" in each && each.minutes, each.override?.reason])).toEqual([
        [longest - 5, "Looked into before an answer, as the intake receipt allows."],
        [5, "Looked into before an answer, as the intake receipt allows."],
      ]);
      expect(owedDeclined(job)).toBe(job.revision(record.id)!.sheet!.ifDeclined.amount);
      expect((await verifyShop(db)).mismatch).toBeUndefined();
    },
  );

  it("logs an entry once that is sent twice at the same time", async () => {
    const { db } = await agreed();
    const made = { job: TAPE_ECHO, when: at(3), once: "one key" };
    const twice = await Promise.all([1, 2].map(() => logged(db, made, { item: "w01", minutes: 5 })));
    expect(twice.map((outcome) => [outcome.ok, "replayed" in outcome]).sort()).toEqual([
      [true, false],
      [true, true],
    ]);
    expect(await entriesOf(db, TAPE_ECHO)).toHaveLength(1);
    expect((await eventsOf(db, TAPE_ECHO)).filter(({ is }) => is === "work logged")).toHaveLength(1);
  });

  it("refuses an option that was left and work that came with a later draft", async () => {
    const { db, log } = await agreed();
    expect(await log({ item: "w20", minutes: 5 })).toMatchObject(
      not("work unagreed", { detail: expect.stringContaining("the owner left this option") }),
    );
    const next = await nextDraft(db, TAPE_ECHO, "second", at(4));
    if (!next.record) throw new Error(next.is);
    const items = [...next.record.input.items.filter(({ id }) => id !== "w01"), { ...next.record.input.items[0]!, id: "extra" }];
    await draftSaved(db, "second", 1, { ...next.record, input: { ...next.record.input, items } }, at(5));
    expect(await log({ item: "extra", minutes: 5 })).toMatchObject(
      not("work unagreed", { detail: expect.stringContaining("not in the revision the owner agreed to") }),
    );
    // Dropped by the draft, but agreed and perhaps done.
    expect(await log({ item: "w01", minutes: 5 })).toMatchObject({ ok: true });
  });

  it("of a job billed by its time stops at the limit to the minor unit, and records by how much an override passes it", async () => {
    const { db, log } = await agreed(BY_TIME);
    const { limit, spent } = await heldTo(db);
    expect(spent).toMatchObject({ total: 0, withoutTax: 0 });
    const fits = await room(db);
    expect(await log({ item: "w01", parts: fits + 1 })).toMatchObject(
      not("limit passed", { detail: expect.stringContaining("tax included"), overridable: true }),
    );
    expect(await log({ item: "w01", parts: fits })).toMatchObject({ ok: true });
    expect(await log({ item: "w01", parts: 100 })).toMatchObject(not("limit passed"));
    expect(await log({ item: "w01", parts: 100 }, WHY)).toMatchObject({ ok: true });
    const [{ over }] = (await overridesOf(db, TAPE_ECHO)) as [Override];
    expect(over).toBe((await heldTo(db)).spent.total - limit.upTo);
  });

  it("of work billed as agreed refuses no hour of it: the bill stays what it was, and what passes it is told", async () => {
    const { db, log } = await agreed();
    const { limit } = await heldTo(db);
    expect(await log({ item: "w01", minutes: 6000 })).toMatchObject({ ok: true });
    expect(await log({ item: "w02", minutes: 11 })).toMatchObject({ ok: true });
    const job = await stands(db, TAPE_ECHO);
    expect(job.spent()!.total).toBeGreaterThan(limit.upTo);
    expect(job.bill()).toMatchObject({ totals: { total: limit.agreed }, over: 0 });
    expect(await overridesOf(db, TAPE_ECHO)).toEqual([]);
    expect(await log({ item: "w20", minutes: 5 })).toMatchObject(not("work unagreed"));
  });

  it("of work billed as agreed refuses possible work whose price would pass the limit", async () => {
    // What the owner allowed has room for the play head, and not for the motor beside it.
    const { db, log } = await agreed({ ceiling: 75_000 });
    expect(await log({ item: "w17", minutes: 5 })).toMatchObject({ ok: true });
    expect(await log({ item: "w18", minutes: 5 })).toMatchObject(not("limit passed", { overridable: true }));
    expect(await log({ item: "w18", minutes: 5 }, WHY)).toMatchObject({ ok: true });
    const [{ over }] = (await overridesOf(db, TAPE_ECHO)) as [Override];
    const job = await stands(db, TAPE_ECHO);
    expect(over).toBe(job.bill()!.over);
    expect(job.bill()!.totals.total).toBe(75_000);
  });

  it("measures without tax where the profile does (16 CCR 2722(b): sales tax is not part of the estimate)", async () => {
    const { db } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    const input = { ...draft.input, policy: { ...draft.input.policy, profile: "us-ca" } };
    await draftSaved(db, draft.id, 1, { ...draft, input }, at(0));
    const party = { address: ["1 Larkholt Rise"], phone: "01632 960999", registration: "R-1" };
    const { owner, settings: shopNow } = (await jobAsItStands(db, TAPE_ECHO))!;
    await db.batch([owners.changed(db, owner, party, at(0)).write, settings.changed(db, shopNow, party, at(0)).write]);
    const { record } = await issued(db, draft.id, at(1));
    recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
    const job = await stands(db, TAPE_ECHO);
    expect(job.limit()).toMatchObject({ withTax: false, upTo: job.agreed()!.sheet.totals.withoutTax });
  });

  it("of a job billed by its time never passes the limit without a record, however many log at once", async () => {
    const { db, log } = await agreed(BY_TIME);
    const parts = Math.floor((await room(db)) / 3);
    const outcomes = await Promise.all(Array.from({ length: 8 }, () => log({ item: "w01", parts })));
    expect(outcomes.filter(({ ok }) => ok)).toHaveLength(3);
    for (const outcome of outcomes) if (!outcome.ok) expect(outcome).toMatchObject(not("limit passed"));
    const after = await heldTo(db);
    expect(after.spent.total).toBeLessThanOrEqual(after.limit.upTo);
  });

  it("keeps all of thirty entries that are made at once, also where two servers share the file", async () => {
    const { db } = await agreed();
    const [file] = (await db.run("PRAGMA database_list")).rows;
    const other = await connectFile(`file:${String(file!.file)}`);
    onTestFinished(other.close);
    const made = (at: number) => ({ job: TAPE_ECHO, when: "2026-11-25T10:00:00.000Z", once: `key ${at}` });
    const all = await Promise.all(
      Array.from({ length: 30 }, (_, at) => logged(at % 2 ? db : other.db, made(at), { item: "w01", minutes: 1 })),
    );
    expect(all.filter(({ ok }) => !ok)).toEqual([]);
    expect((await stands(db, TAPE_ECHO)).entries).toHaveLength(30);
    expect((await verifyShop(other.db)).mismatch).toBeUndefined();
  });

  it("knows its items and labour classes", async () => {
    const { log } = await agreed();
    const wrong = (name: string, pointer: string) => not("input refused", { errors: [{ name, pointer }] });
    expect(await log({ item: "nothing", minutes: 1 })).toMatchObject(wrong("work unknown", "/item"));
    expect(await log({ item: "w01", minutes: 1, labourClass: "nobody" })).toMatchObject(
      wrong("labour class unknown", "/labourClass"),
    );
  });
});

describe("possible work that was logged", () => {
  it("raises a limit that rests on the estimated amount, and not before", async () => {
    const { db, log } = await agreed({ profile: "us-md-pg" });
    const before = await heldTo(db);
    expect(await log({ item: "w17", minutes: 1 })).toMatchObject({ ok: true });
    const after = await heldTo(db);
    expect(after.limit).toEqual(agreedLimit(before.input, ["w17"]));
    expect(before.limit).toEqual(agreedLimit(before.input));
  });
});

it("is not refused for what was found before: an hour of agreed work adds nothing to the bill", async () => {
  const { db, log } = await agreed();
  for (const item of ["w17", "w18"])
    answerOf(await tick(db, { job: TAPE_ECHO, when: at(3) }, { item, count: 1, person: "Ines" }));
  expect((await stands(db, TAPE_ECHO)).bill()!.over).toBeGreaterThan(0);
  for (const entry of [{ item: "w01", minutes: 5 }, { minutes: 5 }]) expect(await log(entry)).toMatchObject({ ok: true });
});

it("work ticked off counts against the limit by the figure that is shown, and the page names an override only where one is on record", async () => {
  const opened = await shop();
  const { db } = opened;
  const draft = await draftOf(db, TAPE_ECHO);
  const limit = { ...draft.input.policy, ...BY_TIME };
  await draftSaved(db, draft.id, 1, { ...draft, input: { ...draft.input, policy: limit } }, at(0));
  const { record } = await issued(db, draft.id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  let n = 0;
  const log = (entry: Partial<LogEntryValue>, override?: typeof WHY) =>
    logged(db, { id: `log-${n++}`, job: TAPE_ECHO, when: at(3) }, entry, override);
  answerOf(await log({ item: "w02", partKind: "drive-belt" }));
  answerOf(await tick(db, { id: "done", job: TAPE_ECHO, when: at(4) }, { item: "w02", count: 1, person: "Ines" }));
  const figures = async () => {
    const job = await stands(db, TAPE_ECHO);
    return { spent: job.spent()!.total, upTo: job.limit()!.upTo };
  };
  for (const minutes of [640, 320, 160, 80, 40, 20, 10, 5, 2, 1]) {
    const outcome = await log({ item: "w01", minutes });
    if (!outcome.ok) expect(outcome).toMatchObject(not("limit passed"));
    const { spent, upTo } = await figures();
    expect(spent).toBeLessThanOrEqual(upTo);
  }
  expect(await log({ item: "w01", minutes: 600 })).toMatchObject(not("limit passed"));
  const shown = async () => words((await visitor(opened).get(`/jobs/${TAPE_ECHO}/bench`)).html);
  expect(await shown()).not.toContain("which is above it");
  // What is ticked off beyond it is told for what it is, and holds the next entry.
  answerOf(await tick(db, { id: "more", job: TAPE_ECHO, when: at(5) }, { item: "w03", count: 1, person: "Ines" }));
  expect(await shown()).toMatch(/which is above it\s*\./);
  expect(await log({ item: "w01", minutes: 1 })).toMatchObject(not("limit passed"));
  answerOf(await log({ item: "w01", minutes: 600 }, WHY));
  expect(await shown()).toContain("which is above it by an override");
});
