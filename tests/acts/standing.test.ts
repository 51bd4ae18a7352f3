/** Each state of a job, and each thing that can be next in it. The demo shop (invented). */
import { expect, it } from "vitest";
import { countShelf } from "../../src/acts/countStock.js";
import { placeOrder } from "../../src/acts/order.js";
import { owed } from "../../src/acts/owed.js";
import { openClaims } from "../../src/acts/partsToGet.js";
import { inJobState, jobsInEach, type Standing, standingOfJob, standings } from "../../src/acts/standing.js";
import { takePayment } from "../../src/acts/takePayment.js";
import { partOf } from "../../src/estimating/resolve.js";
import type { Database } from "../../src/records/database.js";
import { jobs } from "../../src/records/jobs.js";
import { offersFor } from "../../src/records/offers.js";
import { ownerLinks } from "../../src/records/ownerLinks.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { BARE_JOB, shop } from "../http/support/shop.js";
import { answer, asks, replies } from "../records/support/answer.js";
import { closing, HAND } from "../records/support/closed.js";
import { draftSaved, nextDraft } from "../records/support/drafts.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, close, log, stands, tick } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const DAY = 24 * 60;
const stand = async (db: Database, when: number, job = TAPE_ECHO): Promise<Standing> =>
  (await standings(db, [job], new Date(at(when)), { amounts: true })).get(job)!;
/** One way to look at it for all: what the list is narrowed by, what is counted, and what stands there. */
async function is(db: Database, when: number, state: Standing["state"], next: Standing["next"], job = TAPE_ECHO) {
  const found = await stand(db, when, job);
  expect([found.state, found.next]).toEqual([state, next]);
  expect((await jobsInEach(db)).get(state) ?? 0).toBeGreaterThan(state === "closed" ? -1 : 0);
  const listed = await jobs.list(db, { limit: 50 }, await inJobState(db, state));
  expect(listed.rows.map(({ id }) => id)).toContain(job);
  return found;
}
const pay = async (db: Database, what: "deposit" | "balance" | "refund", amount: number, when: number) =>
  answerOf(
    await done(
      takePayment,
      deskAt(db, at(when)),
      { for: what, amount, on: at(when).slice(0, 10), how: "card", by: HAND, beyond: true },
      { job: TAPE_ECHO },
    ),
  );

/** Issued, with all of its work or with that which takes no part. */
async function offered(db: Database, which: "all" | "without parts") {
  const { id, version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
  const items = input.items.filter((item) => which === "all" || !partOf(item));
  await draftSaved(db, id, version, { jobId, rateBookId, rateBookVersion, input: { ...input, items } }, at(0));
  return issued(db, id);
}
async function agreed(which: "all" | "without parts", deposit: "paid" | "awaited" = "paid") {
  const { db } = await shop();
  const { record } = await offered(db, which);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  const { deposit: awaited } = owed(await stands(db, TAPE_ECHO));
  if (deposit === "paid" && awaited > 0) await pay(db, "deposit", awaited, 2);
  return { db, record };
}
const finished = async (db: Database) => {
  for (const { id, count, certainty } of (await stands(db, TAPE_ECHO)).agreed()!.input.items)
    if (certainty.is === "planned" && count > 0)
      answerOf(await tick(db, { job: TAPE_ECHO, when: at(5) }, { item: id, count, person: HAND }));
};

it("a draft is put right where it has problems or nothing in it, and issued where it has none", async () => {
  const { db } = await shop();
  expect(await is(db, 0, "draft", "issue the estimate")).not.toHaveProperty("amount");
  await is(db, 0, "draft", "put the estimate right", BARE_JOB);
  const { id, version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
  await draftSaved(db, id, version, { jobId, rateBookId, rateBookVersion, input: { ...input, items: [] } }, at(0));
  await is(db, 0, "draft", "count the work");
  // A later draft on top of an answer: the owner waits for the new one.
  const other = await agreed("all");
  expect((await nextDraft(other.db, TAPE_ECHO, "second", at(4))).is).toBe("done");
  expect((await is(other.db, 4, "draft", "issue the estimate")).amount).toBe(owed(await stands(other.db, TAPE_ECHO)).total);
});

it("comes to what is agreed with what was found so far of it, also while a draft of the next revision is open, and without it once that was a mistake", async () => {
  const { db } = await shop();
  const { id, version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
  const eye = {
    id: "eye",
    own: { name: "Replace the tuning eye", price: 4000 },
    count: 1,
    certainty: { is: "if found", probability: 0.4 },
  } as const;
  await draftSaved(
    db,
    id,
    version,
    { jobId, rateBookId, rateBookVersion, input: { ...input, items: [...input.items, eye] } },
    at(0),
  );
  const { record } = await issued(db, id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  const before = (await stand(db, 3)).amount!;
  const ticked = async (count: number, when: number) =>
    answerOf(await tick(db, { job: TAPE_ECHO, when: at(when) }, { item: "eye", count, person: HAND }));
  const comes = async (found: number, when: number) => {
    const job = await stands(db, TAPE_ECHO);
    expect(owed(job)).toMatchObject({ total: before + found, ...(found > 0 && { found }) });
    expect((await stand(db, when)).amount).toBe(before + found);
    expect((await standingOfJob(db, job, new Date(at(when)))).amount).toBe(before + found);
  };
  await ticked(1, 4);
  const found = record.sheet!.ifFound.find((group) => group.id === "eye")!.price;
  await comes(found, 5);
  expect((await nextDraft(db, TAPE_ECHO, "second", at(6))).is).toBe("done");
  await comes(found, 7);
  await ticked(0, 8);
  await comes(0, 9);
});

it("comes to what is agreed with a possible service of which a piece was ticked off", async () => {
  const { db } = await shop();
  const { id, version, jobId, rateBookId, input } = await draftOf(db, TAPE_ECHO);
  const old = (await rateBooks.find(db, rateBookId))!;
  const operation = old.book.operations.find(({ sort }) => sort !== "replacement")!.id;
  const yearly = {
    id: "yearly",
    name: "Yearly service",
    price: 6000,
    work: [{ operation, count: 1 }],
    source: { basis: "demo" },
  } as const;
  await rateBooks.changed(db, old, { services: [yearly] }, at(0)).write;
  const item = { id: "svc", service: "yearly", count: 1, certainty: { is: "if found", probability: 0.4 } } as const;
  const added = { jobId, rateBookId, rateBookVersion: old.version + 1, input: { ...input, items: [...input.items, item] } };
  await draftSaved(db, id, version, added, at(0));
  const { record } = await issued(db, id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  answerOf(await tick(db, { job: TAPE_ECHO, when: at(4) }, { item: "svc/1", count: 1, person: HAND }));
  const { total } = owed(await stands(db, TAPE_ECHO));
  expect(total).toBeGreaterThan((await standings(db, [TAPE_ECHO], new Date(at(5)))).get(TAPE_ECHO)!.amount!);
  expect((await stand(db, 5)).amount).toBe(total);
});

it("ready: a service is done once each of its pieces is logged or ticked off in full, or the service itself is ticked off", async () => {
  const { db } = await shop();
  const { id, version, jobId, rateBookId, input } = await draftOf(db, TAPE_ECHO);
  const old = (await rateBooks.find(db, rateBookId))!;
  const operation = old.book.operations.find(({ sort }) => sort !== "replacement")!.id;
  const yearly = {
    ...{ id: "yearly", name: "Yearly service", price: 6000, source: { basis: "demo" } as const },
    work: [
      { operation, count: 2 },
      { operation, count: 1 },
    ],
  };
  await rateBooks.changed(db, old, { services: [yearly] }, at(0)).write;
  const items = [{ id: "svc", service: "yearly", count: 2, certainty: { is: "planned" } as const }];
  const changed = { jobId, rateBookId, rateBookVersion: old.version + 1, input: { ...input, items } };
  await draftSaved(db, id, version, changed, at(0));
  const { record } = await issued(db, id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  const ticked = async (item: string, count: number, when: number) => {
    answerOf(await tick(db, { job: TAPE_ECHO, when: at(when) }, { item, count, person: HAND }));
    return (await stand(db, when + 1)).state;
  };
  expect(await ticked("svc/1", 3, 3)).not.toBe("ready");
  expect(await ticked("svc/1", 4, 5)).not.toBe("ready");
  expect(await ticked("svc/2", 2, 7)).toBe("ready");
  expect(await ticked("svc/2", 1, 9)).not.toBe("ready");
  answerOf(await log(db, { job: TAPE_ECHO, when: at(11) }, { item: "svc/2", minutes: 5 }));
  await is(db, 12, "ready", "close and hand back");
  expect(await ticked("svc/1", 0, 13)).not.toBe("ready");
  expect(await ticked("svc", 2, 15)).toBe("ready");
});

it("with the owner: an answer is awaited, a question replied to first, and the offer renewed when it has ended", async () => {
  const { db } = await shop();
  const { secret, record } = await offered(db, "all");
  expect(await is(db, 1, "with the owner", "await the answer")).toMatchObject({ by: record.sheet!.validUntil });
  const link = (await ownerLinks.find(db, secret.fragment.split(".")[0]!))!;
  await asks(db, "why", link, "Why the roller?", at(2));
  await is(db, 2, "with the owner", "reply to a question");
  await replies(db, "because", "why", { by: HAND, text: "It is flat on one side." }, at(3));
  expect(await is(db, 3, "with the owner", "await the answer")).not.toHaveProperty("amount");
  await is(db, 60 * DAY, "with the owner", "renew the offer");
});

it("answered: the deposit is taken, then the answer read, or the work begun where its parts are in", async () => {
  const { db } = await agreed("without parts", "awaited");
  const job = await stands(db, TAPE_ECHO);
  const { deposit, total } = owed(job);
  expect(await is(db, 3, "answered", "take the deposit")).toMatchObject({ deposit, amount: total, currency: "GBP" });
  await pay(db, "deposit", deposit - 1, 3);
  expect(await is(db, 3, "answered", "take the deposit")).toMatchObject({ deposit: 1, paid: deposit - 1 });
  await pay(db, "deposit", 1, 4);
  expect(await is(db, 4, "answered", "read the answer")).not.toHaveProperty("deposit");

  const stocked = await agreed("all");
  const wanted = await openClaims(stocked.db);
  const kinds = wanted.flatMap(({ part, pieces }) => (part.kind && pieces > 0 ? [[part.kind, 99] as const] : []));
  const counted = { counted: Object.fromEntries(kinds), reason: "shelf counted", by: HAND };
  answerOf(await done(countShelf, deskAt(stocked.db, at(3)), counted, {}));
  await is(stocked.db, 4, "answered", "begin, parts are in");
});

it("waiting for parts: they are ordered, and then awaited; the deposit before either", async () => {
  const { db } = await agreed("all", "awaited");
  await is(db, 3, "waiting for parts", "take the deposit");
  await pay(db, "deposit", owed(await stands(db, TAPE_ECHO)).deposit, 3);
  await is(db, 3, "waiting for parts", "order parts");
  const wanted = (await openClaims(db)).flatMap(({ part, toGet }) => (part.kind && toGet > 0 ? [part.kind] : []));
  for (const { id, kind, source } of await offersFor(db, [...new Set(wanted)])) {
    if (!wanted.includes(kind)) continue;
    wanted.splice(0, wanted.length, ...wanted.filter((each) => each !== kind));
    const order = { source, orderedOn: "2026-11-25", by: HAND, lines: [{ offer: id, packs: 50 }] };
    answerOf(await done(placeOrder, deskAt(db, at(4), `order ${id}`), order, {}));
  }
  await is(db, 5, "waiting for parts", "await parts");
});

it("on the bench: the work goes on until the day it was promised for, that day it is finished, and after it is late", async () => {
  const { db, record } = await agreed("without parts");
  answerOf(await log(db, { job: TAPE_ECHO, when: at(3) }, { item: record.input.items[0]!.id, minutes: 5 }));
  const { by } = await is(db, 4, "on the bench", "go on with the work");
  const days = record.sheet!.days.total;
  expect(by).toBe(at(days * DAY).slice(0, 10));
  await is(db, days * DAY, "on the bench", "finish today");
  await is(db, (days + 1) * DAY, "on the bench", "finish, it is late");
});

it("ready: once all agreed work is logged or ticked off it is closed and handed back", async () => {
  const { db } = await agreed("without parts");
  await finished(db);
  await is(db, 6, "ready", "close and hand back");
  // How far a piece is, is what was said last.
  const { id } = (await stands(db, TAPE_ECHO)).agreed()!.input.items.find(({ certainty }) => certainty.is === "planned")!;
  answerOf(await tick(db, { job: TAPE_ECHO, when: at(7) }, { item: id, count: 0, person: HAND }));
  expect((await stand(db, 8)).state).not.toBe("ready");
});

it("closed: what is unpaid is taken, what is over paid back, and then nothing is left; the amount is what was billed", async () => {
  const { db } = await agreed("without parts");
  await finished(db);
  const { result } = answerOf(
    await close(db, { id: "closed", job: TAPE_ECHO, when: at(7) }, closing({ closedOn: "2026-11-25", payments: [] })),
  );
  const { total, due } = result.account.totals;
  expect(await is(db, 8, "closed", "take what is unpaid")).toMatchObject({ amount: total, closedOn: "2026-11-25" });
  await pay(db, "balance", due + 500, 9);
  expect(await is(db, 9, "closed", "pay back what is over")).toMatchObject({ amount: total, paid: total + 500 });
  await pay(db, "refund", 500, 10);
  await is(db, 10, "closed", "nothing");
});

it("declined: the unit is handed back, and no amount stands there that nobody agreed to", async () => {
  const { db } = await shop();
  const { record } = await offered(db, "all");
  recordOf(await answer(db, "no", await given(db, record.id, { answer: "declined" }), at(2)));
  const found = await is(db, 3, "declined", "hand back");
  expect(found).not.toHaveProperty("amount");
  expect(found).not.toHaveProperty("deposit");
});

it("the deposit is the one promised for what was agreed, on the record of the answer, the board and the job alike", async () => {
  const { db } = await shop();
  const { record } = await offered(db, "all");
  const struck = record.input.items.filter((item) => item.certainty.is === "planned" && partOf(item)).map(({ id }) => id);
  const said = await given(db, record.id, { answer: "part agreed", struck });
  const kept = recordOf(await answer(db, "part", said, at(2)));
  const job = await stands(db, TAPE_ECHO);
  expect(kept.deposit).toBe(job.agreed()!.sheet.deposit.amount);
  expect(kept.deposit).toBeLessThan(record.sheet!.deposit.amount);
  expect((await stand(db, 3)).deposit).toBe(kept.deposit);
  expect(owed(job).deposit).toBe(kept.deposit);
});

it("a deposit that a later revision adds to holds no work up once work began on the one that was paid", async () => {
  const { db } = await agreed("all");
  const paid = owed(await stands(db, TAPE_ECHO)).paid;
  const grown = async (id: string, when: number) => {
    expect((await nextDraft(db, TAPE_ECHO, id, at(when))).is).toBe("done");
    const { version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
    const items = input.items.map((item) => (partOf(item) ? { ...item, count: item.count * 2 } : item));
    await draftSaved(db, id, version, { jobId, rateBookId, rateBookVersion, input: { ...input, items } }, at(when));
    const { record } = await issued(db, id);
    recordOf(await answer(db, `yes ${id}`, await given(db, record.id), at(when + 1)));
    return record.sheet!.deposit.amount - paid;
  };
  const more = await grown("second", 4);
  expect(more).toBeGreaterThan(0);
  expect(owed(await stands(db, TAPE_ECHO)).deposit).toBe(more);
  expect(await is(db, 6, "waiting for parts", "take the deposit")).toMatchObject({ deposit: more });

  answerOf(await log(db, { job: TAPE_ECHO, when: at(6) }, { minutes: 5 }));
  const { total, due, deposit } = owed(await stands(db, TAPE_ECHO));
  expect([deposit, due]).toEqual([0, total! - paid]);
  expect(await is(db, 7, "waiting for parts", "order parts")).not.toHaveProperty("deposit");

  // Given back, there is none that work began on.
  await pay(db, "refund", 1, 8);
  expect(owed(await stands(db, TAPE_ECHO)).deposit).toBe(more + 1);
  expect(await is(db, 8, "waiting for parts", "take the deposit")).toMatchObject({ deposit: more + 1 });
});
