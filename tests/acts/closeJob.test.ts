import { describe, expect, it } from "vitest";
import { closeOutMismatch } from "../../src/acts/checked/closeOutMismatch.js";
import { closedJobs, observe, pastJobs } from "../../src/acts/closedJobs.js";
import { type Closing, untouchedBy } from "../../src/acts/closeJob.js";
import { standings } from "../../src/acts/standing.js";
import { accuracyBoard } from "../../src/estimating/closeout/accuracy/board.js";
import { costsOf, dearest } from "../../src/estimating/closeout/accuracy/costliest.js";
import { observationsOf } from "../../src/estimating/closeout/learning/observation.js";
import { standardId, standardNamed } from "../../src/estimating/closeout/learning/standard.js";
import { type Agreement, answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { contentHash } from "../../src/records/contentHash.js";
import { issues } from "../../src/records/issues.js";
import { observations } from "../../src/records/observations.js";
import { outcomes, outcomesOf } from "../../src/records/outcomes.js";
import { overridesOf } from "../../src/records/overrides.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { standardCosts } from "../../src/records/standardCosts.js";
import { eventsOf } from "../../src/records/trail.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { agreedJob, closed, closing, HAND, logged, worked } from "../records/support/closed.js";
import { issue, nextDraft, outgoing } from "../records/support/drafts.js";
import { at, given, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, close, not, stands } from "./support/bench.js";

describe("closing a job", () => {
  it("puts account, PDF, outcome and observations on record, once, and verify agrees", async () => {
    const { db } = await shop();
    await agreedJob(db);
    await worked(db, TAPE_ECHO, 1.2);
    expect((await stands(db, TAPE_ECHO)).closedOn).toBeUndefined();
    const made = { job: TAPE_ECHO, when: at(600) };
    const both = await Promise.all([1, 2].map(() => close(db, { ...made, id: "closed", once: "one key" }, closing())));
    expect(both.map(({ ok }) => ok)).toEqual([true, true]);
    expect(await close(db, { ...made, when: at(601) }, closing())).toMatchObject(not("closed already"));
    expect((await stands(db, TAPE_ECHO)).closedOn).toBe("2026-12-04");
    expect((await nextDraft(db, TAPE_ECHO, "late", at(602))).is).toBe("done");
    expect(await issue(db, "late", 1, outgoing(), at(603))).toMatchObject({
      is: "job closed",
      detail: expect.stringContaining("4 December 2026"),
    });
    const [{ estimateId }] = (await answersOf(db, TAPE_ECHO)) as [Agreement];
    const no = { answer: "declined", corrects: `yes ${TAPE_ECHO}` } as const;
    expect((await answer(db, "no", await given(db, estimateId, no), at(604))).is).toBe("job closed");
    const [record, ...more] = await closeOuts.ofJob(db, TAPE_ECHO);
    expect(more).toEqual([]);
    expect((await eventsOf(db, TAPE_ECHO)).filter(({ is }) => is === "closed out")).toHaveLength(1);
    const { account, closeOut, margin, planned } = record!.result;
    expect(account.totals).toMatchObject({ prepaid: 5000, due: account.totals.total - 5000 });
    expect(margin!.margin).toBeLessThan(planned!.margin);

    const outcome = (await outcomesOf(db, TAPE_ECHO))[0]!;
    expect(outcome).toMatchObject({ month: "2026-12", model: "Hallorin Skep 3", billedTotal: account.totals.total });
    expect([outcome.actual, outcome.cost]).toEqual([closeOut!.total.actual, margin!.revenue - margin!.margin]);
    expect(outcome.p50).toBeLessThan(outcome.p80);
    expect((await standings(db, [TAPE_ECHO], new Date(at(1)))).get(TAPE_ECHO)).toMatchObject({
      ...{ state: "closed", next: "take what is unpaid", closedOn: "2026-12-04", amount: account.totals.total },
    });
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("refuses before an agreement, and names what keeps the log from being closed", async () => {
    const { db } = await shop();
    expect(await close(db, { job: "no job", when: at(1) }, closing())).toMatchObject(not("not found"));
    expect(await close(db, { job: TAPE_ECHO, when: at(1) }, closing())).toMatchObject(not("nothing agreed"));
    await agreedJob(db);
    await logged(db, TAPE_ECHO, [
      { item: "w01", startedAt: "2026-11-25T09:00:00.000Z", endedAt: "2026-11-25T10:00:00.000Z" },
      { item: "w02", startedAt: "2026-11-25T09:30:00.000Z", endedAt: "2026-11-25T10:30:00.000Z" },
    ]);
    const outcome = await close(db, { job: TAPE_ECHO, when: at(5) }, closing({ warrantyDays: -1 }));
    expect(outcome).toMatchObject(
      not("input refused", {
        errors: [
          { name: "times overlap", pointer: "/log/time/1/startedAt" },
          { name: "count negative", pointer: "/warrantyDays" },
        ],
      }),
    );
    // Beside what else is wrong too, and a wrong count makes no fault of the log by itself.
    const { count } = (await stands(db, TAPE_ECHO)).agreed()!.input.items.find(({ id }) => id === "w01")!;
    for (const given of [count + 1, -1, 0.5]) {
      const wrong = await close(db, { job: TAPE_ECHO, when: at(5) }, closing({ done: { w01: given }, oldParts: { is: "kept" } }));
      const pointers = ["/oldParts/why", "/done/w01", "/log/time/1/startedAt"];
      expect(wrong).toMatchObject(not("input refused", { errors: pointers.map((pointer) => ({ pointer })) }));
    }
    expect((await stands(db, TAPE_ECHO)).closedOn).toBeUndefined();
  });

  it("keeps a bill within the limit, and lets it pass only by an override that is on record", async () => {
    const { db } = await shop();
    await agreedJob(db);
    await worked(db, TAPE_ECHO, 3);
    const basis = "time and parts";
    const held = answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, closing({ basis })));
    const { held: over, limit, totals } = held.result.account;
    expect(over.over).toBeGreaterThan(0);
    // Rounded tax can leave it a unit below.
    expect(limit.upTo - totals.total).toBeOneOf([0, 1]);
    expect(await overridesOf(db, TAPE_ECHO)).toEqual([]);
    const above = { by: HAND, reason: "the owner asked for it at the counter" };
    const corrected = closing({ basis, above, corrects: "closed", reason: "agreed by word" });
    const passed = answerOf(await close(db, { id: "again", job: TAPE_ECHO, when: at(601) }, corrected));
    expect(passed.result.account.totals.total).toBe(limit.upTo + over.over);
    expect(passed.overrideId).toBe("again-2");
    expect(await overridesOf(db, TAPE_ECHO)).toMatchObject([{ id: "again-2", of: "close-out", ...above, over: over.over }]);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});

describe("agreed work that nothing was logged on", () => {
  /** Agreed, with twenty minutes on the first piece of work and nothing on the others. */
  async function barelyLogged() {
    const { db } = await shop();
    await agreedJob(db);
    await logged(db, TAPE_ECHO, [{ item: "w01", minutes: 20 }]);
    const agreed = (await stands(db, TAPE_ECHO)).agreed()!;
    const planned = agreed.input.items.filter(({ certainty, count }) => certainty.is === "planned" && count > 0);
    const rest = planned.flatMap(({ id }) => (id === "w01" ? [] : [id]));
    return {
      db,
      agreed,
      rest,
      with: (untouched: Closing["untouched"]) => closing({ basis: "fixed price", ...(untouched && { untouched }) }),
    };
  }
  const unsaid = ({ untouched: _, ...value }: Closing): Closing => value;

  it("is asked about piece by piece, and the job stays open until all of it is said", async () => {
    const { db, rest } = await barelyLogged();
    const asked = await close(db, { job: TAPE_ECHO, when: at(600) }, unsaid(closing()));
    const detail = expect.stringMatching(/^Nothing was logged on '[^']+', '[^']+' and \d+ more\. Say whether it was done/);
    expect(asked).toMatchObject(
      not("input refused", { errors: [{ pointer: "/untouched/all", name: "untouched work", detail }] }),
    );
    const butOne = { each: Object.fromEntries(rest.slice(1).map((id) => [id, "as planned" as const])) };
    expect(await close(db, { job: TAPE_ECHO, when: at(600) }, closing({ untouched: butOne }))).toMatchObject(
      not("input refused", { errors: [{ pointer: `/untouched/each/${rest[0]}`, name: "untouched work" }] }),
    );
    expect((await stands(db, TAPE_ECHO)).closedOn).toBeUndefined();
    const some = { each: { [rest[0]!]: "not done" as const } };
    expect(await close(db, { job: TAPE_ECHO, when: at(601) }, closing({ untouched: some }))).toMatchObject(not("input refused"));
    const timed = { all: "not done" as const, each: { w01: "not done" as const } };
    expect(await close(db, { job: TAPE_ECHO, when: at(602) }, closing({ untouched: timed }))).toMatchObject(
      not("input refused", { errors: [{ pointer: "/untouched/each/w01", name: "work not untouched" }] }),
    );
  });

  it("with time and no piece in the log is asked about too, and its parts are billed or left out as it is said", async () => {
    const closedAs = async (unlogged?: Closing["unlogged"]) => {
      const { db } = await shop();
      await agreedJob(db);
      await logged(db, TAPE_ECHO, [{ item: "w02", minutes: 20 }]);
      const { unlogged: _, ...value } = closing({ basis: "time and parts" });
      const outcome = await close(
        db,
        { id: "closed", job: TAPE_ECHO, when: at(600) },
        { ...value, ...(unlogged && { unlogged }) },
      );
      return { db, outcome };
    };
    const detail = expect.stringMatching(/^Time was logged on '.+', and no piece\./);
    expect((await closedAs()).outcome).toMatchObject(
      not("input refused", { errors: [{ pointer: "/unlogged", name: "parts unlogged", detail }] }),
    );
    const [planned, none] = [await closedAs("as planned"), await closedAs("none used")];
    const [billed, left] = [planned, none].map(({ outcome }) => answerOf(outcome).result);
    const linesOf = (result: typeof billed) => result!.account.lines.filter(({ part }) => part?.kind === "drive-belt");
    const pieces = (result: typeof billed) => linesOf(result).reduce((sum, { count = 0 }) => sum + count, 0);
    expect(pieces(billed) - pieces(left)).toBe(1);
    expect(billed!.margin!.parts).toBeGreaterThan(left!.margin!.parts);
    for (const { db } of [planned, none]) expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it.each(["done, not timed", "as planned"] as const)(
    "'%s' is billed as agreed, earns nothing more, and is no observation",
    async (how) => {
      const { db, agreed, rest, with: closedWith } = await barelyLogged();
      const { id, result } = answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, closedWith({ all: how })));
      const { account, margin, planned } = result;
      const closeOut = result.closeOut!;
      expect([id, account.totals.total]).toEqual(["closed", agreed.sheet.totals.total]);
      const w01 = closeOut.rows.find(({ id: row }) => row === "labour:w01")!;
      const spared = w01.minutes!.allowed - 20;
      // Beside the twenty minutes all costs what was planned, 28.00 an hour, and at most a billing step of a quarter of an hour a class.
      const beyond = margin!.labour - (planned!.labour - (spared * 2800) / 60);
      expect(beyond).toBeGreaterThanOrEqual(-2);
      expect(beyond).toBeLessThanOrEqual((2 * 15 * 2800) / 60);
      const rows = closeOut.rows.filter(({ item, minutes }) => rest.includes(item ?? "") && minutes && minutes.allowed > 0);
      expect(rows.length).toBeGreaterThan(3);
      for (const row of rows) {
        expect(row, row.id).toMatchObject({ logged: false, untimed: how === "as planned" ? how : "done" });
        expect([row.minutes!.actual, row.variance.efficiency], row.id).toEqual([row.minutes!.allowed, expect.closeTo(0, -1)]);
      }
      const { attended } = closeOut;
      if (how === "done, not timed") expect(attended.actual).toBe(20);
      else expect(attended.actual).toBeGreaterThan(20);
      expect(account.worked.attended).toBe(20);
      const book = (await rateBooks.findVersion(db, agreed.input.rateBook.id, agreed.input.rateBook.version))!.book;
      expect((await observations(db, book)).map(({ line }) => line)).toEqual(["labour:w01"]);
      expect((await verifyShop(db)).mismatch).toBeUndefined();
    },
  );

  it("that was not done is not billed, each as it is said", async () => {
    const { db, agreed, rest, with: closedWith } = await barelyLogged();
    const untouched = { all: "done, not timed", each: { [rest[0]!]: "not done" } } as const;
    const { result } = answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, closedWith(untouched)));
    expect(result.account.totals.total).toBeLessThan(agreed.sheet.totals.total);
    expect(result.account.lines.some(({ id }) => id === `labour:${rest[0]}`)).toBe(false);
    expect(result.account.lines.some(({ id }) => id === `labour:${rest[1]}`)).toBe(true);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("is not asked about where parts were used on it or it was ticked off: it was done", async () => {
    const { db, rest } = await barelyLogged();
    const job = await stands(db, TAPE_ECHO);
    const asked = (done: Record<string, number>) =>
      untouchedBy({ ...job, done } as typeof job, {}).flatMap(({ item, how }) => (how ? [] : [item.id]));
    expect(asked({})).toEqual(rest);
    expect(asked({ [rest[0]!]: 1 })).toEqual(rest.slice(1));
  });
});

describe("what boards and learning read", () => {
  it("is what the engine says of the jobs, also after a correction", async () => {
    const { db } = await shop();
    const first = await closed(db, TAPE_ECHO, {}, 1.1);
    const [past] = await closedJobs(db, 10);
    const book = (await rateBooks.findVersion(db, past!.rateBook.id, past!.rateBook.version))!.book;
    const { currency } = first.result.closeOut!;
    const check = async () => {
      const [{ input, log } = past!] = await closedJobs(db, 10);
      const said = observationsOf({ job: TAPE_ECHO, input, log }, book)!;
      const kept = await observations(db, book);
      const byLine = (list: typeof said) => new Map(list.map((each) => [each.line, each]));
      expect(said.length).toBeGreaterThan(5);
      expect(byLine(kept)).toEqual(byLine([...said]));
      const ranked = dearest(await standardCosts(db, book, currency));
      expect(ranked).toEqual(dearest(costsOf(said, book)));
      for (const { rests } of said)
        for (const { standard } of rests) expect(standardNamed(standardId(standard), book)).toEqual(standard);
    };
    await check();
    const { costs: _, ...rest } = closing();
    const corrected = {
      ...rest,
      corrects: "closed",
      reason: "one jack was not cleaned",
      done: { w02: 0 },
      closedOn: "2027-01-08",
    };
    answerOf(await close(db, { id: "again", job: TAPE_ECHO, when: at(700) }, corrected));
    await check();
    expect(await standardCosts(db, book, currency, { to: "2026-12" })).toSatisfy((rows: { jobs: number; cost: number }[]) =>
      rows.every(({ jobs, cost }) => jobs === 0 && cost === 0),
    );
    expect((await outcomesOf(db, TAPE_ECHO))[0]).toMatchObject({ closeOutId: "again", month: "2027-01", cost: null });
    expect((await closeOuts.standing(db, TAPE_ECHO))?.id).toBe("again");
    expect((await stands(db, TAPE_ECHO)).closedOn).toBe("2026-12-04");
    expect((await verifyShop(db)).mismatch).toBeUndefined();

    const board = accuracyBoard(await outcomes(db, { currency }));
    expect(board.byModel).toMatchObject([{ model: "Hallorin Skep 3", accuracy: { jobs: 1 } }]);
    expect(await outcomes(db, { currency, model: "another" })).toEqual([]);
    expect(await pastJobs(db, 10)).toMatchObject([{ job: TAPE_ECHO, actual: (await outcomesOf(db, TAPE_ECHO))[0]!.actual }]);
    // A later version of the book has observed nothing until it is asked to.
    const next = { ...book, version: book.version + 1 };
    expect(await observations(db, next)).toEqual([]);
    const records = await closeOuts.newest(db, 10);
    expect([await observe(db, next, records), await observe(db, next, records)]).toEqual([1, 0]);
    expect(await observations(db, next)).toHaveLength((await observations(db, book)).length);
  });

  it("is read by index, never by a scan of what is on record", async () => {
    const { db } = await shop();
    const plan = async (statement: string) =>
      (await db.run(`EXPLAIN QUERY PLAN ${statement}`)).rows.map((row) => String(row.detail)).join("; ");
    expect(await plan("SELECT * FROM outcomes WHERE model = 'x' AND closed_on >= '2026'")).toContain("outcomes_model");
    expect(await plan("SELECT closed_on FROM outcomes WHERE job_id IN ('a', 'b')")).toMatch(/SEARCH outcomes/);
    expect(await plan("SELECT * FROM observations WHERE rate_book_id = 'b' AND rate_book_version = 1")).toContain(
      "observations_book",
    );
    expect(await plan("SELECT * FROM observations WHERE standard = 's' AND closed_on > '2026'")).toContain(
      "observations_standard",
    );
    expect(await plan("SELECT closed_on FROM close_outs WHERE job_id = 'j' AND corrects IS NULL")).toMatch(/SEARCH close_outs/);
  });
});

describe("a close-out from before some of it was told", () => {
  it("is verified by all else that it tells, and by nothing less", async () => {
    const { db } = await shop();
    const given = closing({ untouched: { all: "done, not timed" } });
    await agreedJob(db);
    answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, given));
    const record = (await stands(db, TAPE_ECHO)).closeOut!;
    const issued = await issues.ofJob(db, TAPE_ECHO);
    const { closeOut: compared, account } = record.result;
    expect(account.worked.untimed).toBeGreaterThan(0);
    const wrong = async (closeOut: object, billed: object) => {
      const result = JSON.parse(
        JSON.stringify({ ...record.result, closeOut: { ...compared, ...closeOut }, account: { ...account, ...billed } }),
      );
      const older = { ...record, result, contentHash: await contentHash({ basis: record.basis, result }) };
      // Corrected since: the row that boards read is of the later one.
      const found = await closeOutMismatch(db, older, [older, { ...record, id: "later", corrects: "closed" }], issued, undefined);
      return found?.is === "close-out" ? found.what : found;
    };
    const { untimed: _, ...worked } = account.worked;
    const { charged: __, ...attended } = compared!.attended;
    const likely = { ...attended, allowed: attended.allowed - 5 };
    const scope = [{ cause: { is: "found and done" }, amount: 1, categories: [] }];
    const before = { fitted: undefined, since: undefined, worked };
    expect(await wrong({}, {})).toBeUndefined();
    expect(await wrong({ attended: likely, scope }, before)).toBeUndefined();
    // Told, and told wrong: nothing is forgiven.
    expect(await wrong({ attended: { ...likely, charged: "expected" } }, {})).toBe("figures");
    expect(await wrong({ scope: [{ ...scope[0]!, cause: { is: "not done" } }] }, {})).toBe("figures");
    expect(await wrong({}, { worked })).toBe("figures");
    expect(await wrong({}, { ...before, worked: { ...worked, attended: worked.attended + 1 } })).toBe("figures");
    expect(await wrong({ attended: likely, scope, total: { ...compared!.total, actual: 1 } }, before)).toBe("figures");
  });
});
