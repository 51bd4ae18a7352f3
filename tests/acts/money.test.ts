/** What counts as paid, what lies on the shelf and what a part cost, where several acts meet. The demo shop (invented). */
import { describe, expect, it } from "vitest";
import { bringIn } from "../../src/acts/bringIn.js";
import { mergePartKind } from "../../src/acts/mergePartKind.js";
import { placeOrder } from "../../src/acts/order.js";
import { depositAwaited, owed, paidUnrecorded } from "../../src/acts/owed.js";
import { takePayment } from "../../src/acts/takePayment.js";
import type { Database } from "../../src/records/database.js";
import { goodsInTestsTable } from "../../src/records/goodsIn.js";
import { offers } from "../../src/records/offers.js";
import { partKinds } from "../../src/records/partKinds.js";
import { stockMovementsTable, stockOf } from "../../src/records/stock.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { shop } from "../http/support/shop.js";
import { agreedJob, closing, HAND, worked } from "../records/support/closed.js";
import { draftSaved } from "../records/support/drafts.js";
import { at, draftOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { put } from "../records/support/put.js";
import { answerOf, close, log, stands } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const pay = async (db: Database, what: "deposit" | "balance" | "refund", amount: number, when: number, more: object = {}) =>
  answerOf(
    await done(
      takePayment,
      deskAt(db, at(when)),
      { for: what, amount, on: "2026-11-25", how: "cash", by: HAND, beyond: true, ...more },
      { job: TAPE_ECHO },
    ),
  );

describe("what an estimate says was paid before", () => {
  const told = async (db: Database) => {
    const job = await stands(db, TAPE_ECHO);
    return { ...owed(job), total: job.agreed()?.sheet.totals.total, unrecorded: paidUnrecorded(job) };
  };

  it("counts until a payment of any amount is on record, and no more once the job is closed", async () => {
    const { db } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    const input = { ...draft.input, policy: { ...draft.input.policy, prepaid: 4200 } };
    await draftSaved(db, draft.id, draft.version, { ...draft, input }, at(0));
    expect(owed(await stands(db, TAPE_ECHO))).toMatchObject({ paid: 0 });
    await agreedJob(db);
    const before = await told(db);
    expect(before).toMatchObject({ paid: 4200, due: before.total! - 4200, unrecorded: { amount: 4200, counts: true } });
    await pay(db, "deposit", 1000, 4);
    const after = await told(db);
    expect(after).toMatchObject({ paid: 1000, due: after.total! - 1000, unrecorded: { amount: 4200, counts: false } });
    await pay(db, "deposit", 4200, 5);
    expect(await told(db)).toMatchObject({ paid: 5200 });
    expect((await told(db)).unrecorded).toBeUndefined();
    await worked(db, TAPE_ECHO);
    const { payments: _, ...value } = closing();
    const account = answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, value)).result.account;
    expect(await told(db)).toMatchObject({ paid: 5200, due: account.totals.total - 5200, deposit: 0 });
  });

  it("is nothing where the estimate says nothing of it", async () => {
    const { db } = await agreedShop();
    expect(await told(db)).toMatchObject({ paid: 0 });
    expect((await told(db)).unrecorded).toBeUndefined();
  });

  it("counts towards the deposit like any payment, which never falls below nothing", () => {
    expect([depositAwaited(1000, 0), depositAwaited(1000, 400), depositAwaited(1000, 1000), depositAwaited(1000, 1400)]).toEqual([
      ...[1000, 600, 0, 0],
    ]);
  });
});

it("asks once about the same sum for the same within a day, and takes it when that is said", async () => {
  const { db } = await agreedShop();
  await pay(db, "balance", 2944, 3, { beyond: undefined });
  const again = (on: string, more: object = {}) =>
    done(
      takePayment,
      deskAt(db, at(3000)),
      { for: "balance", amount: 2944, on, how: "cash", by: HAND, ...more },
      { job: TAPE_ECHO },
    );
  const asked = { refusal: { errors: [{ name: "paid already" }] } };
  expect(await again("2026-11-25")).toMatchObject(asked);
  expect(await again("2026-11-26")).toMatchObject({
    refusal: {
      errors: [
        {
          pointer: "/amount",
          detail: "Amount: balance of £29.44 is on record of 25 November 2026 already; tick the box below if it was paid again.",
        },
      ],
    },
  });
  expect(await again("2026-11-27")).toMatchObject({ ok: true });
  expect(await again("2026-11-25", { for: "diagnosis fee" })).toMatchObject({ ok: true });
  expect(await again("2026-11-25", { beyond: true })).toMatchObject({ ok: true });
});

it("asks so in closing too, where nothing is corrected", async () => {
  const { db } = await agreedShop();
  await pay(db, "balance", 20000, 3);
  await worked(db, TAPE_ECHO);
  const paid = { on: "2026-11-25", amount: 20000, for: "balance" as const };
  const made = { job: TAPE_ECHO, when: at(600) };
  const more = [{ ...paid, for: "deposit" as const, amount: 5000 }, paid];
  expect(await close(db, made, closing({ payments: more }))).toMatchObject({
    refusal: { errors: [{ name: "paid already", pointer: "/payments/1/amount" }] },
  });
  const { result } = answerOf(await close(db, { ...made, id: "closed" }, closing({ payments: [paid], paidAgain: true })));
  expect(result.account.totals.prepaid).toBe(40000);
  const corrected = closing({ payments: [paid, paid], corrects: "closed", reason: "warranty" });
  expect(await close(db, { ...made, when: at(700) }, corrected)).toMatchObject({ ok: true });
});

describe("a correction of a close-out", () => {
  it("withdraws what it leaves out and keeps what was given back, which is typed elsewhere", async () => {
    const { db } = await agreedShop();
    await pay(db, "deposit", 5000, 3, { on: "2026-11-24" });
    await pay(db, "balance", 2000, 3);
    await pay(db, "refund", 700, 4);
    await worked(db, TAPE_ECHO);
    const { payments: _, ...value } = closing();
    answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, value));
    expect(owed(await stands(db, TAPE_ECHO)).paid).toBe(6300);
    const kept = { on: "2026-11-24", amount: 5000, for: "deposit" as const };
    const corrected = { ...closing({ payments: [kept] }), corrects: "closed", reason: "the balance was never paid" };
    const { result } = answerOf(await close(db, { id: "again", job: TAPE_ECHO, when: at(700) }, corrected));
    expect(result.account.totals.prepaid).toBe(4300);
    const { payments } = await stands(db, TAPE_ECHO);
    expect(payments.map(({ for: what, withdrawal }) => [what, withdrawal !== undefined])).toEqual([
      ["deposit", false],
      ["balance", true],
      ["refund", false],
    ]);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("says on its paper that it corrects the account before", async () => {
    const { db } = await agreedShop();
    await worked(db, TAPE_ECHO);
    const printed: boolean[] = [];
    const closeAs = async (id: string, when: number, more: object) => {
      const desk = deskAt(db, at(when), id);
      const papers = {
        ...desk.papers,
        finalAccount: (...given: Parameters<typeof desk.papers.finalAccount>) => {
          printed.push(given[2]!);
          return desk.papers.finalAccount(...given);
        },
      };
      const { closeJob } = await import("../../src/acts/closeJob.js");
      answerOf(await done(closeJob, { ...desk, papers }, { ...closing(), ...more }, { job: TAPE_ECHO }));
    };
    await closeAs("closed", 600, {});
    await closeAs("again", 700, { corrects: "closed", reason: "warranty told wrongly", warrantyDays: 30 });
    expect(printed).toEqual([false, true]);
  });
});

describe("goods in", () => {
  const PART = "el-1000u-50";
  const goods = {
    ...({ receivedOn: "2026-11-25", kind: PART, source: "Pindrake Components", state: "new" } as const),
    ...{ currency: "GBP", by: HAND, pieces: 10, paid: 905 },
  };

  it("against a line of an order are of the part that was ordered", async () => {
    const { db } = await shop();
    const order = { source: "Pindrake Components", orderedOn: "2026-11-25", by: HAND, lines: [{ offer: "o09", packs: 3 }] };
    answerOf(await done(placeOrder, deskAt(db, at(3), "order-1"), order, {}));
    const came = (kind: string) => done(bringIn, deskAt(db, at(4)), { ...goods, kind, orderLineId: "order-1-1" }, {});
    const { name } = (await partKinds.find(db, PART))!;
    expect(await came("el-10u-50")).toMatchObject({
      ok: false,
      refusal: {
        is: "input refused",
        errors: [
          {
            ...{ pointer: "/kind", name: "record unknown" },
            detail: `That line of the order is for ${name}; choose that part, or no order.`,
          },
        ],
      },
    });
    expect(await came(PART)).toMatchObject({ ok: true });
  });

  it("have a test on record only where some were tested, be it one that was bad", async () => {
    const { db } = await shop();
    const came = async (id: string, tested?: object) =>
      answerOf(await done(bringIn, deskAt(db, at(4), id), { ...goods, ...(tested && { tested }) }, {}));
    await came("untested");
    await came("none", { good: 0, bad: 0 });
    expect(await db.select().from(goodsInTestsTable)).toEqual([]);
    await came("one bad", { bad: 1 });
    expect(await db.select().from(goodsInTestsTable)).toMatchObject([{ good: 0, bad: 1 }]);
    await came("one good", { good: 1 });
    expect(await db.select().from(goodsInTestsTable)).toHaveLength(2);
    const refused = await done(bringIn, deskAt(db, at(5)), { ...goods, tested: { good: 9, bad: 2 } }, {});
    expect(refused).toMatchObject({
      refusal: {
        errors: [
          {
            ...{ pointer: "/tested/good", name: "number out of range" },
            detail: "Tested: only 10 pieces can still be tested; good and bad together are more.",
          },
        ],
      },
    });
  });
});

it("two names of one part become one: the pieces of both lie with the kept one, and so do its offers and its goods", async () => {
  const { db } = await shop();
  const {
    id: _,
    version: __,
    createdAt: ___,
    updatedAt: ____,
    stock: _____,
    // What one of them does not say is no difference.
    ratedVolts: ______,
    ...value
  } = (await partKinds.find(db, "el-10u-50"))!;
  await put(db, partKinds, "twin", { ...value, name: "Electrolytic ten" }, at(0));
  const came = async (kind: string, pieces: number, when: number) =>
    answerOf(
      await done(
        bringIn,
        deskAt(db, at(when)),
        {
          ...{ receivedOn: "2026-11-25", kind, source: "Quillmere Surplus", state: "used", currency: "GBP", by: HAND },
          ...{ pieces, paid: 10 * pieces, packSize: 1, leadDays: 3 },
        },
        {},
      ),
    );
  const before = (await stockOf(db, ["el-10u-50"])).get("el-10u-50")!;
  const { offerId } = await came("twin", 7, 1);
  await came("el-10u-50", 5, 2);
  expect(await done(mergePartKind, deskAt(db, at(3)), { into: "el-10u-50", by: HAND }, { id: "twin" })).toMatchObject({
    ok: true,
    answer: { stock: 0, withdrawal: { by: HAND, into: "el-10u-50" } },
  });
  const rows = await db.select().from(stockMovementsTable);
  const last = rows.slice(-2);
  expect(last).toMatchObject([
    { kind: "twin", why: "counted", change: -7, standsAt: 0, reason: `7 pieces lie with ${value.name}, the same part` },
    {
      kind: "el-10u-50",
      why: "counted",
      change: 7,
      standsAt: before + 12,
      reason: "7 pieces of Electrolytic ten, the same part",
    },
  ]);
  // In the order they were written, after all that was there.
  expect(last.map(({ number }) => number - rows.at(-3)!.number)).toEqual([1, 2]);
  expect((await stockOf(db, ["el-10u-50"])).get("el-10u-50")).toBe(before + 12);
  expect(await offers.find(db, offerId)).toMatchObject({ kind: "el-10u-50", version: 2 });
  expect((await verifyShop(db)).mismatch).toBeUndefined();
});

it("a part that was never offered is logged at what its own type usually costs, be it in the estimate or in the catalogue alone", async () => {
  const { db } = await agreedShop();
  const { kinds = [], rateBook } = (await stands(db, TAPE_ECHO)).input()!;
  const [first] = kinds;
  const cost = (type: string) => rateBook.partTypes.find(({ id }) => id === type)!.typicalCost;
  const type = rateBook.partTypes.find(({ typicalCost }) => typicalCost > 0 && typicalCost !== cost(first!.type))!.id;
  await put(db, partKinds, "never-offered", { type, name: "Never offered" }, at(0));
  const why = { by: HAND, reason: "fitted to try it" };
  const entry = { item: "w01", partKind: "never-offered", partCount: 1, beyond: true };
  expect(answerOf(await log(db, { job: TAPE_ECHO, when: at(3) }, entry, why))).toMatchObject({
    ...{ paidPrice: cost(type), paidPer: 1, partState: "new" },
  });
});
