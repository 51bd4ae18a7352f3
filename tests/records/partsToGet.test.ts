/** The demo shop (invented): its tape echo needs four 1000 uF capacitors at 0.96, a pinch roller at 19.80, and so on. */
import { describe, expect, it } from "vitest";
import { sharesGood } from "../../src/estimating/closeout/learning/shareGood.js";
import { answer } from "../../src/records/answer.js";
import type { Database } from "../../src/records/database.js";
import { bringIn, findGoodsIn, type GoodsInValue, goodsTested, testGoods } from "../../src/records/goodsIn.js";
import { logWork } from "../../src/records/logWork.js";
import { offers } from "../../src/records/offers.js";
import { shopOrderList } from "../../src/records/orderList.js";
import { endOrder, onOrder, openOrders, placeOrder } from "../../src/records/orders.js";
import { partKinds } from "../../src/records/partKinds.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { stockOf } from "../../src/records/stock.js";
import { shop } from "../http/support/shop.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "./support/livedIn.js";

const BY = "Wilhelmina Stråhle";

async function agreed() {
  const { db } = await shop();
  const draft = await draftOf(db, TAPE_ECHO);
  const { record } = await issued(db, draft.id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  return { db, record };
}

async function listOf(db: Database) {
  const { book } = (await rateBooks.find(db, "bench-book"))!;
  return (await shopOrderList(db, "2026-11-25", book)).list;
}

async function lineOf(db: Database, kind: string) {
  const { sources, covered } = await listOf(db);
  const line = sources.flatMap(({ lines }) => lines).find(({ part }) => part.kind === kind);
  return { line, covered: covered.find(({ part }) => part.kind === kind) };
}

const goods = (more: Partial<GoodsInValue> = {}): GoodsInValue => ({
  ...{ receivedOn: "2026-11-25", kind: "el-1000u-50", source: "Pindrake Components", state: "new", currency: "GBP", by: BY },
  ...{ pieces: 10, paid: 905 },
  ...more,
});

describe("the shop's order list", () => {
  it("has nothing before the owner agrees, what the agreed sheet buys after, and nothing again once it is declined", async () => {
    const { db } = await shop();
    expect((await listOf(db)).sources).toEqual([]);
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    recordOf(await answer(db, "yes", await given(db, record.id, { answer: "part agreed", struck: ["w03"] }), at(2)));
    expect((await lineOf(db, "el-1000u-50")).line).toMatchObject({ pieces: 4, packs: 4, cost: 384, jobs: [{ job: TAPE_ECHO }] });
    expect((await lineOf(db, "pinch-roller")).line).toBeUndefined();
    // Possible work, and an option that was left.
    for (const kind of ["play-head", "mains-lead-uk"]) expect((await lineOf(db, kind)).line).toBeUndefined();
    const correction = { answer: "declined", corrects: "yes", reason: "misheard on the telephone", recordedBy: BY } as const;
    recordOf(await answer(db, "no", await given(db, record.id, correction), at(3)));
    expect((await listOf(db)).sources).toEqual([]);
  });

  it("asks for less as parts are used up, and for possible work once it is found", async () => {
    const { db } = await agreed();
    const log = (id: string, entry: object) =>
      logWork(db, TAPE_ECHO, { id, overrideId: `${id}-o`, entry: { person: BY, workedOn: "2026-11-25", ...entry } }, at(3));
    const part = { partKind: "el-1000u-50", partCount: 3, paidPrice: 96, paidPer: 1, partState: "new" };
    expect(await log("used", { item: "w07", ...part })).toMatchObject({ is: "logged" });
    expect((await lineOf(db, "el-1000u-50")).line).toMatchObject({ pieces: 1 });
    expect(await log("found", { item: "w17", minutes: 5 })).toMatchObject({ is: "logged" });
    expect((await lineOf(db, "play-head")).line).toMatchObject({ jobs: [{ job: TAPE_ECHO, pieces: 1 }] });
  });

  it("counts what is on order until it comes in or is given up", async () => {
    const { db } = await agreed();
    const order = { source: "Pindrake Components", orderedOn: "2026-11-25", by: BY, lines: [{ offer: "o09", packs: 3 }] };
    for (const _ of [1, 2]) expect(await placeOrder(db, "order-1", order, at(3))).toMatchObject({ is: "ordered" });
    expect(await openOrders(db)).toMatchObject([{ id: "order-1", goods: 288, freight: 495, total: 783 }]);
    expect(await lineOf(db, "el-1000u-50")).toMatchObject({ line: { pieces: 1 }, covered: { fromStock: 0, onOrder: 3 } });

    expect(await bringIn(db, "in-1", goods({ pieces: 2, paid: 192, orderLineId: "order-1-1" }), at(4))).toMatchObject({
      is: "in",
    });
    expect(await lineOf(db, "el-1000u-50")).toMatchObject({ line: { pieces: 1 }, covered: { fromStock: 2, onOrder: 1 } });
    await endOrder(db, "order-1", { by: BY, reason: "sold out at the source" }, at(5));
    expect((await onOrder(db)).size).toBe(0);
    expect(await lineOf(db, "el-1000u-50")).toMatchObject({ line: { pieces: 2 }, covered: { fromStock: 2, onOrder: 0 } });
  });

  it("takes no order of another source, below the fewest packs, or of an offer it does not have", async () => {
    const { db } = await agreed();
    const try_ = (offer: string, packs = 1) =>
      placeOrder(db, "no", { source: "Pindrake Components", orderedOn: "2026-11-25", by: BY, lines: [{ offer, packs }] }, at(3));
    expect(await try_("o33")).toEqual({ is: "other source", offer: "o33", source: "Fellwright Remakes" });
    expect(await try_("nowhere")).toEqual({ is: "offer unknown", offer: "nowhere" });
    await offers.add(db, "least", { ...goods(), on: "2026-11-20", price: 80, packSize: 1, minimumPacks: 5, leadDays: 2 }, at(1));
    expect(await try_("least", 4)).toEqual({ is: "below minimum", offer: "least", packs: 4, minimum: 5 });
    expect(await openOrders(db)).toEqual([]);
  });
});

describe("goods in", () => {
  it("raise the stock, and the price paid becomes a dated offer with what is known of the source, once", async () => {
    const { db } = await agreed();
    // 9.05 for ten, in packs of one: 0.905 is 0.91 by the one rounding.
    for (const _ of [1, 2])
      expect(await bringIn(db, "g", goods(), at(4))).toMatchObject({ is: "in", record: { offerId: "in-g" } });
    expect((await stockOf(db, ["el-1000u-50"])).get("el-1000u-50")).toBe(10);
    expect(await offers.find(db, "in-g")).toMatchObject({
      ...{ kind: "el-1000u-50", source: "Pindrake Components", on: "2026-11-25", price: 91, packSize: 1, freight: 495 },
      leadDays: (await offers.find(db, "o09"))!.leadDays,
    });
    expect((await offers.find(db, "o09"))!.price).toBe(96);
    // The same price the same day is the same offer.
    expect(await bringIn(db, "h", goods({ pieces: 20, paid: 1820 }), at(5))).toMatchObject({ record: { offerId: "in-g" } });
  });

  it("want the pack size and the days from a source that has not offered the part before", async () => {
    const { db } = await agreed();
    const stranger = goods({ source: "Quillmere Surplus", state: "used" });
    expect(await bringIn(db, "s", stranger, at(4))).toEqual({ is: "missing", field: "packSize" });
    expect(await bringIn(db, "s", { ...stranger, packSize: 5 }, at(4))).toEqual({ is: "missing", field: "leadDays" });
    expect(await bringIn(db, "s", { ...stranger, packSize: 5, leadDays: 6 }, at(4))).toMatchObject({ is: "in" });
    expect(await offers.find(db, "in-s")).toMatchObject({ price: 453, packSize: 5, leadDays: 6, state: "used" });
    expect(await bringIn(db, "t", goods({ kind: "nowhere" }), at(4))).toMatchObject({ is: "unknown", field: "kind" });
  });

  it("are tested no more often than they came in, though two tablets test the last pieces at once", async () => {
    const { db } = await agreed();
    await bringIn(db, "two", goods({ pieces: 2, paid: 182 }), at(4));
    const test = (id: string) => testGoods(db, { id, goodsInId: "two", good: 2, bad: 0, by: BY }, at(5));
    const both = await Promise.all([test("left"), test("right")]);
    expect(both.map(({ is }) => is).sort()).toEqual(["tested", "too many tested"]);
    expect(both).toContainEqual({ is: "too many tested", pieces: 0 });
    expect((await findGoodsIn(db, "two"))!.tested).toEqual({ good: 2, bad: 0 });
    // The same test sent twice at once counts once.
    await bringIn(db, "three", goods({ pieces: 3, paid: 273 }), at(6));
    const same = () => testGoods(db, { id: "same", goodsInId: "three", good: 2, bad: 0, by: BY }, at(7));
    for (const { is } of await Promise.all([same(), same()])) expect(is).toBe("tested");
    expect((await findGoodsIn(db, "three"))!.tested).toEqual({ good: 2, bad: 0 });
  });

  it("tell how many were good, at once or later, to the offer and to the belief about the source", async () => {
    const { db } = await agreed();
    const valves = {
      kind: "output-pentode",
      source: "Marrowgate Surplus",
      state: "new old stock",
      paid: 18_400,
      pieces: 4,
    } as const;
    await bringIn(db, "v", goods({ ...valves, tested: { good: 1, bad: 1 } }), at(4));
    expect(await offers.find(db, "in-v")).toMatchObject({ price: 4600, seenGood: { good: 1, bad: 1 } });
    const test = { id: "later", goodsInId: "v", good: 2, bad: 0, by: BY };
    for (const _ of [1, 2])
      expect(await testGoods(db, test, at(5))).toMatchObject({ is: "tested", record: { tested: { good: 3, bad: 1 } } });
    expect(await offers.find(db, "in-v")).toMatchObject({ seenGood: { good: 3, bad: 1 } });
    expect(await testGoods(db, { ...test, id: "more", good: 1 }, at(6))).toEqual({ is: "too many tested", pieces: 0 });
    expect((await findGoodsIn(db, "v"))!.tested).toEqual({ good: 3, bad: 1 });
    // Another kind from there: its offer tells of all four.
    await bringIn(db, "w", goods({ ...valves, kind: "rectifier-valve", paid: 2900, pieces: 1 }), at(7));
    expect(await offers.find(db, "in-w")).toMatchObject({ seenGood: { good: 3, bad: 1 } });

    const { book } = (await rateBooks.find(db, "bench-book"))!;
    const s = book.scarcity.shareGood["new old stock"];
    // Beta(5 s + 3, 5 (1 - s) + 1), by hand: its mean is (5 s + 3) / 9.
    const belief = sharesGood(await goodsTested(db), book).find(({ source }) => source === "Marrowgate Surplus")!;
    expect(belief).toMatchObject({ pieces: 4, good: 3 });
    expect(belief.share).toBeCloseTo((5 * s + 3) / 9, 12);
  });

  it("leave the count of a kind where the trail of movements has it", async () => {
    const { db } = await agreed();
    await bringIn(db, "g", goods(), at(4));
    expect((await partKinds.find(db, "el-1000u-50"))!.stock).toBe(10);
    const { rows } = await db.run(
      "select k.id from part_kinds k where coalesce(k.stock, 0) <> (select coalesce(sum(change), 0) from stock_movements where kind = k.id)",
    );
    expect(rows).toEqual([]);
  });
});
