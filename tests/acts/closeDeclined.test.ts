import { describe, expect, it } from "vitest";
import { closeDeclined, type HandingBack } from "../../src/acts/closeDeclined.js";
import { closedJobs } from "../../src/acts/closedJobs.js";
import { eraseOwner } from "../../src/acts/erasure/eraseOwner.js";
import { owed } from "../../src/acts/owed.js";
import { jobsInEach, standings } from "../../src/acts/standing.js";
import { takePayment } from "../../src/acts/takePayment.js";
import { accuracyBoard } from "../../src/estimating/closeout/accuracy/board.js";
import type { Policy } from "../../src/estimating/input.js";
import type { Database } from "../../src/records/database.js";
import { estimates } from "../../src/records/estimates.js";
import { observations } from "../../src/records/observations.js";
import { newestClosed, outcomes, outcomesOf } from "../../src/records/outcomes.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { agreedJob, closing, HAND } from "../records/support/closed.js";
import { draftSaved, nextDraft } from "../records/support/drafts.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, close, log, type Made, not, stands } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const DAY = "2026-11-25";
const handing = (changed: Partial<HandingBack> = {}): HandingBack => ({
  ...{ by: HAND, closedOn: DAY, to: "Ottilie Vantongeren", accessories: ["foot switch"], note: "closed up as it came" },
  ...{ oldParts: { is: "returned" }, costs: { otherwise: 2800 } },
  ...changed,
});
const handBack = (db: Database, made: Made, value: HandingBack) =>
  done(closeDeclined, deskAt(db, made.when, made.id), value, { job: made.job }, made.once);
const pay = (db: Database, what: "deposit" | "decline fee" | "refund", amount: number, when: string) =>
  done(takePayment, deskAt(db, when), { for: what, amount, on: DAY, how: "cash", by: HAND }, { job: TAPE_ECHO });
const override = { by: HAND, reason: "told to open it at the counter" };

/** Issued with these terms and declined; `minutes`: opened and looked at for so long. */
async function declined(db: Database, minutes: number, policy: Policy = {}, corrects?: string) {
  const { id, version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
  await draftSaved(db, id, version, { jobId, rateBookId, rateBookVersion, input: { ...input, policy } }, at(0));
  const { record } = await issued(db, id);
  if (minutes > 0)
    answerOf(await log(db, { id: "looked", job: TAPE_ECHO, when: at(2) }, { item: input.items[0]!.id, minutes }, override));
  recordOf(await answer(db, "no", await given(db, record.id, { answer: "declined", ...(corrects && { corrects }) }), at(3)));
  return { sheet: record.sheet!, rateBook: (await rateBooks.findVersion(db, rateBookId, rateBookVersion))!.book };
}

const account = async (db: Database) => (await stands(db, TAPE_ECHO)).closeOut!.result.account;
const FEE = { diagnosis: true } as const;

it("says all that is wrong with a hand-back at once", async () => {
  const { db } = await shop();
  await declined(db, 6, FEE);
  const wrong = { closedOn: "2026-11-24", oldParts: { is: "kept" } } as const;
  const refused = await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing(wrong));
  const pointers = ["/closedOn", "/oldParts/why"];
  expect(refused).toMatchObject(not("input refused", { errors: pointers.map((pointer) => ({ pointer })) }));
  answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
  const corrected = { ...handing({ oldParts: { is: "kept" } }), corrects: "back" };
  expect(await handBack(db, { id: "again", job: TAPE_ECHO, when: at(10) }, corrected)).toMatchObject(
    not("input refused", { errors: ["/oldParts/why", "/reason"].map((pointer) => ({ pointer })) }),
  );
});

describe("what is owed for a declined job", () => {
  it("is the diagnosis fee and the time logged, tax on top, while that stays below what the paper promised", async () => {
    const { db } = await shop();
    const { sheet, rateBook } = await declined(db, 6, FEE);
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    const { lines, totals, held, limit } = await account(db);
    const bench = rateBook.labourClasses.find(({ id }) => id === lines[1]!.labourClass!.id)!;
    const time = Math.round((6 * bench.ratePerHour) / 60);
    expect(lines.map(({ amount }) => amount)).toEqual([rateBook.fees.diagnosis.amount, time]);
    expect(totals.withoutTax).toBe(rateBook.fees.diagnosis.amount + time);
    expect(totals.total).toBeLessThan(sheet.ifDeclined.amount);
    expect([held.over, limit]).toEqual([
      0,
      { agreed: sheet.ifDeclined.amount, upTo: sheet.ifDeclined.amount, withTax: true, by: "if declined" },
    ]);
  });

  it("never passes the figure 'if declined after opening', nor the diagnosis limit agreed", async () => {
    const { db } = await shop();
    const { sheet } = await declined(db, 600, { ...FEE, diagnosisLimit: 4000 });
    expect(sheet.ifDeclined).toMatchObject({ amount: 4000, limited: true });
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    const { totals, held } = await account(db);
    // Rounded tax can leave it a unit below.
    expect(4000 - totals.total).toBeOneOf([0, 1]);
    expect(held.over).toBeGreaterThan(0);
  });

  it("is nothing where neither a fee nor a limit for finding the fault was on the paper, whatever was logged", async () => {
    const { db } = await shop();
    await declined(db, 60);
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    const { lines, totals, notCharged } = await account(db);
    expect([lines, totals.total]).toEqual([[], 0]);
    expect(notCharged).toBeGreaterThan(0);
    expect((await standings(db, [TAPE_ECHO], new Date(at(9)))).get(TAPE_ECHO)).toMatchObject({
      state: "closed",
      next: "nothing",
    });
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("is the limit's or the fee's alone where nothing was logged: the limit asks for nothing by itself", async () => {
    for (const [policy, owed] of [
      [{ diagnosisLimit: 9000 }, 0],
      [FEE, 1],
    ] as const) {
      const { db } = await shop();
      const { rateBook } = await declined(db, 0, policy);
      answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
      expect((await account(db)).totals.withoutTax).toBe(owed * rateBook.fees.diagnosis.amount);
    }
  });
});

describe("closing a declined job", () => {
  it("puts the account, its PDF and the hand-back on record, once, and verify agrees", async () => {
    const { db } = await shop();
    await declined(db, 30, FEE);
    expect((await jobsInEach(db)).get("declined")).toBe(1);
    const made = { job: TAPE_ECHO, when: at(9) };
    const both = await Promise.all([1, 2].map(() => handBack(db, { ...made, id: "back", once: "one key" }, handing())));
    expect(both.map(({ ok }) => ok)).toEqual([true, true]);
    expect(await handBack(db, { ...made, when: at(10) }, handing())).toMatchObject(not("closed already"));
    const job = await stands(db, TAPE_ECHO);
    expect([job.closedOn, job.closeOut!.agreementId, job.closeOuts.length]).toEqual([DAY, "no", 1]);
    expect((await account(db)).handBack).toEqual({
      ...{ to: "Ottilie Vantongeren", accessories: ["foot switch"], note: "closed up as it came" },
    });
    expect((await jobsInEach(db)).get("declined")).toBeUndefined();
    const late = await log(db, { job: TAPE_ECHO, when: at(11) }, { item: "w01", minutes: 5 });
    expect(late).toMatchObject(not("job closed"));
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("charges what was logged on work that a later revision dropped, looking too, where all that was agreed is taken back", async () => {
    for (const looking of [false, true]) {
      const { db } = await shop();
      const first = await agreedJob(db);
      const { sheet, input } = (await estimates.find(db, first.id))!;
      const { id: item } = input.items.find(({ id, part }) => {
        const line = sheet!.lines.find((each) => each.id === `labour:${id}`);
        return line && (looking ? line.sort === "inspection" : part);
      })!;
      answerOf(await log(db, { id: "worked", job: TAPE_ECHO, when: at(3) }, { item, minutes: 60 }));
      const { id, version, ...next } = (await nextDraft(db, TAPE_ECHO, "second", at(4))).record!;
      const without = { ...next.input, items: next.input.items.filter((each) => each.id !== item) };
      await draftSaved(db, id, version, { ...next, input: without }, at(5));
      await issued(db, id, at(6));
      recordOf(await answer(db, "no", await given(db, id, { answer: "declined" }), at(7)));
      const back = { answer: "declined", channel: "in person", corrects: `yes ${TAPE_ECHO}`, reason: "taken back" } as const;
      // What is drafted since has it again.
      const third = (await nextDraft(db, TAPE_ECHO, "third", at(7))).record!;
      await draftSaved(db, "third", third.version, { ...next, input: { ...next.input, items: input.items } }, at(8));
      recordOf(await answer(db, "back", await given(db, first.id, back), at(8)));
      const { total } = owed(await stands(db, TAPE_ECHO));
      answerOf(await handBack(db, { id: "closed", job: TAPE_ECHO, when: at(9) }, handing({ agreedThen: "charged" })));
      const { totals, agreedThen } = await account(db);
      expect(agreedThen!.amount).toBeGreaterThan(0);
      expect(totals.total).toBe(total);
      expect((await verifyShop(db)).mismatch).toBeUndefined();
    }
  });

  it("charges no work that was logged on an override after the refusal, but for looking", async () => {
    const { db } = await shop();
    await declined(db, 6, FEE);
    const { total } = owed(await stands(db, TAPE_ECHO));
    const { items } = (await stands(db, TAPE_ECHO)).latest!.input;
    const { id: item } = items.find(({ part }) => part)!;
    answerOf(await log(db, { id: "ran on", job: TAPE_ECHO, when: at(5) }, { item, minutes: 20 }, override));
    expect(owed(await stands(db, TAPE_ECHO)).total).toBe(total);
    answerOf(await log(db, { id: "refitted", job: TAPE_ECHO, when: at(6) }, { minutes: 2 }));
    expect(owed(await stands(db, TAPE_ECHO)).total).toBeGreaterThan(total!);
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    const { notCharged, lines } = await account(db);
    expect(notCharged).toBeGreaterThan(0);
    expect(lines.map(({ id }) => id)).not.toContain(`labour:${item}`);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("refuses what is not declined, what was agreed before, another total than was seen, and parts kept without a reason", async () => {
    const { db } = await shop();
    const back = (changed: Partial<HandingBack> = {}) => handBack(db, { job: TAPE_ECHO, when: at(9) }, handing(changed));
    expect(await handBack(db, { job: "no job", when: at(9) }, handing())).toMatchObject(not("not found"));
    await declined(db, 30, FEE);
    expect(await back({ seen: 1 })).toMatchObject(not("price differs"));
    expect(await back({ closedOn: "2026-11-24" })).toMatchObject({ refusal: { errors: [{ name: "closed before agreed" }] } });
    expect(await back({ oldParts: { is: "kept" } })).toMatchObject({ refusal: { errors: [{ pointer: "/oldParts/why" }] } });
    expect(await close(db, { job: TAPE_ECHO, when: at(9) }, closing())).toMatchObject(not("nothing agreed"));
    expect((await stands(db, TAPE_ECHO)).closeOuts).toEqual([]);
    // A later revision that is declined leaves what was agreed before: that job is closed with its account.
    const other = await shop();
    await agreedJob(other.db);
    expect((await nextDraft(other.db, TAPE_ECHO, "second", at(4))).is).toBe("done");
    await issued(other.db, "second", at(5));
    recordOf(await answer(other.db, "second no", await given(other.db, "second", { answer: "declined" }), at(6)));
    expect(await handBack(other.db, { job: TAPE_ECHO, when: at(9) }, handing())).toMatchObject(not("not declined"));
  });

  it("credits what was paid: a deposit above what is owed is given back, and then nothing is left to do", async () => {
    const { db } = await shop();
    await declined(db, 0, FEE);
    const next = async () => (await standings(db, [TAPE_ECHO], new Date(at(20)))).get(TAPE_ECHO)!.next;
    answerOf(await pay(db, "decline fee", 2000, at(4)));
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    const { totals, payments } = await account(db);
    expect(payments).toEqual([{ on: DAY, for: "decline fee", amount: 2000 }]);
    expect(totals).toMatchObject({ prepaid: 2000, due: totals.total - 2000 });
    expect(await next()).toBe("take what is unpaid");
    expect(await pay(db, "decline fee", totals.due + 1, at(10))).toMatchObject({
      refusal: { errors: [{ name: "more than owed" }] },
    });
    answerOf(await pay(db, "decline fee", totals.due, at(10)));
    expect(await next()).toBe("nothing");

    const other = await shop();
    const { rateBook } = await declined(other.db, 0, FEE);
    answerOf(
      await done(
        takePayment,
        deskAt(other.db, at(4)),
        { for: "deposit", amount: 20_000, on: DAY, how: "card", by: HAND, beyond: true },
        { job: TAPE_ECHO },
      ),
    );
    answerOf(await handBack(other.db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    const paidBack = (await account(other.db)).totals;
    expect([paidBack.withoutTax, paidBack.due]).toEqual([rateBook.fees.diagnosis.amount, paidBack.total - 20_000]);
    const stand = async () => (await standings(other.db, [TAPE_ECHO], new Date(at(20)))).get(TAPE_ECHO)!;
    expect(await stand()).toMatchObject({ next: "pay back what is over", paid: 20_000, amount: paidBack.total });
    answerOf(await pay(other.db, "refund", -paidBack.due, at(10)));
    expect(await stand()).toMatchObject({ next: "nothing", paid: paidBack.total });
    expect((await verifyShop(other.db)).mismatch).toBeUndefined();
  });

  it("is corrected by a record on top, which wants a reason", async () => {
    const { db } = await shop();
    await declined(db, 30, FEE);
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    const again = (changed: Partial<HandingBack>) =>
      handBack(db, { id: "again", job: TAPE_ECHO, when: at(10) }, handing({ corrects: "back", ...changed }));
    expect(await again({})).toMatchObject({ refusal: { errors: [{ name: "reason missing" }] } });
    answerOf(await again({ reason: "the switch was forgotten", accessories: [] }));
    const job = await stands(db, TAPE_ECHO);
    expect([job.closeOut!.id, job.closeOuts.length, (await account(db)).handBack!.accessories]).toEqual(["again", 2, []]);
    expect((await outcomesOf(db, TAPE_ECHO))[0]!.closeOutId).toBe("again");
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});

describe("what a declined job says", () => {
  it("of what was earned, and nothing of how near estimates are or of any standard", async () => {
    const { db } = await shop();
    const { rateBook } = await declined(db, 90, FEE);
    const { result } = answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    expect(result.closeOut).toBeUndefined();
    expect(result.margin).toMatchObject({ revenue: result.account.totals.withoutTax, labour: 4200 });
    const { currency } = rateBook;
    const earned = { jobs: 1, revenue: result.margin!.revenue, cost: 4200, margin: result.margin!.margin };
    const board = accuracyBoard(await outcomes(db, { currency }));
    expect(board.overall).toBeUndefined();
    expect(board.byMonth).toMatchObject([{ month: "2026-11", earned }]);
    expect(board.byModel).toEqual([{ model: "Hallorin Skep 3", earned: expect.objectContaining(earned) }]);
    expect([await newestClosed(db, { currency }, 9), await closedJobs(db, 9), await observations(db, rateBook)]).toEqual([
      [],
      [],
      [],
    ]);
  });

  it("of whom it went to is erased with its owner, and verify still agrees", async () => {
    const { db } = await shop();
    await declined(db, 30, FEE);
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing({ to: "a neighbour" })));
    const before = (await account(db)).totals;
    const { ownerId } = (await stands(db, TAPE_ECHO)).job;
    answerOf(await done(eraseOwner, deskAt(db, at(20)), { by: HAND }, { owner: ownerId }));
    const left = await account(db);
    expect([left.totals, left.handBack]).toEqual([before, { to: "erased", accessories: ["erased"], note: "erased" }]);
    expect(JSON.stringify((await stands(db, TAPE_ECHO)).closeOuts)).not.toMatch(/neighbour|foot switch|as it came/);
    expect((await estimates.ofJob(db, TAPE_ECHO)).length).toBe(1);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("of work on a draft is what the log names, where the unit was taken back before anything was issued", async () => {
    const { db } = await shop();
    const why = { by: HAND, reason: "asked on the telephone" };
    answerOf(await log(db, { job: TAPE_ECHO, when: at(3) }, { item: "w01", minutes: 5 }, why));
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing()));
    expect((await stands(db, TAPE_ECHO)).closeOut!.basis.current!.input.items.map(({ id }) => id)).toEqual(["w01"]);
  });

  it("loses what tells of the owner where the unit was taken back before anything was issued too", async () => {
    const { db } = await shop();
    answerOf(await handBack(db, { id: "back", job: TAPE_ECHO, when: at(9) }, handing({ to: "a neighbour" })));
    const { owner, job } = await stands(db, TAPE_ECHO);
    const kept = async () => JSON.stringify((await stands(db, TAPE_ECHO)).closeOuts);
    expect(await kept()).toContain(owner.name);
    answerOf(await done(eraseOwner, deskAt(db, at(20)), { by: HAND }, { owner: job.ownerId }));
    for (const told of [owner.name, "a neighbour", "closed up as it came"]) expect(await kept()).not.toContain(told);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});
