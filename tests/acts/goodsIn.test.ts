/** Goods in of the demo shop (invented). */
import { describe, expect, it } from "vitest";
import { bringIn } from "../../src/acts/bringIn.js";
import { testGoods } from "../../src/acts/testGoods.js";
import { sharesGood } from "../../src/estimating/closeout/learning/shareGood.js";
import type { Database } from "../../src/records/database.js";
import { findGoodsIn, goodsInPage, goodsTested } from "../../src/records/goodsIn.js";
import { offers } from "../../src/records/offers.js";
import { partKinds } from "../../src/records/partKinds.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { stockOf } from "../../src/records/stock.js";
import { shop } from "../http/support/shop.js";
import { at } from "../records/support/livedIn.js";
import { deskAt, done } from "./support/desk.js";

const BY = "Wilhelmina Stråhle";
const PART = "el-1000u-50";

const goods = (more: Partial<Parameters<typeof bringIn.decide>[1]> = {}): Parameters<typeof bringIn.decide>[1] => ({
  ...{ receivedOn: "2026-11-25", kind: PART, source: "Pindrake Components", state: "new", currency: "GBP", by: BY },
  ...{ pieces: 10, paid: 905 },
  ...more,
});
const bring = (db: Database, more: Parameters<typeof goods>[0] = {}, when = 4, once?: string) =>
  done(bringIn, deskAt(db, at(when)), goods(more), {}, once);
const test = (db: Database, id: string, good: number, bad = 0, once?: string) =>
  done(testGoods, deskAt(db, at(5)), { good, bad, by: BY }, { goods: id }, once);
const newest = async (db: Database) => (await goodsInPage(db, 1))[0]!;
const wrong = (pointer: string) => ({ ok: false, refusal: { is: "input refused", errors: [{ pointer }] } });

describe("goods in", () => {
  it("raise the stock, and the price paid becomes a dated offer with what is known of the source, once", async () => {
    const { db } = await shop();
    // 9.05 for ten, in packs of one: 0.905 is 0.91 by the one rounding.
    expect(await bring(db, {}, 4, "key")).toMatchObject({ ok: true, answer: { pieces: 10 } });
    expect(await bring(db, {}, 4, "key")).toMatchObject({ ok: true, replayed: { status: 200 } });
    expect(await bring(db, { pieces: 11 }, 4, "key")).toMatchObject({ ok: false, refusal: { is: "idempotency key reused" } });
    expect((await stockOf(db, [PART])).get(PART)).toBe(10);
    const { offerId } = await newest(db);
    expect(await offers.find(db, offerId)).toMatchObject({
      ...{ kind: PART, source: "Pindrake Components", on: "2026-11-25", price: 91, packSize: 1, freight: 495 },
      leadDays: (await offers.find(db, "o09"))!.leadDays,
    });
    expect((await offers.find(db, "o09"))!.price).toBe(96);
    // The same price the same day is the same offer.
    expect(await bring(db, { pieces: 20, paid: 1820 }, 5)).toMatchObject({ answer: { offerId } });
  });

  it("come in once though the same request is sent ten times at once", async () => {
    const { db } = await shop();
    const all = await Promise.all(Array.from({ length: 10 }, () => bring(db, {}, 4, "one key")));
    expect(all.every(({ ok }) => ok)).toBe(true);
    expect((await stockOf(db, [PART])).get(PART)).toBe(10);
  });

  it("are called by the part's name too", async () => {
    const { db } = await shop();
    const { name } = (await partKinds.find(db, PART))!;
    expect(await bring(db, { kind: name.replace("Electrolytic", "electrolytic") })).toMatchObject({
      answer: { kind: PART, name },
    });
    expect(await bring(db, { kind: "nowhere" })).toMatchObject(wrong("/kind"));
  });

  it("want the pack size and the days from a source that has not offered the part before", async () => {
    const { db } = await shop();
    const stranger = { source: "Quillmere Surplus", state: "used" } as const;
    expect(await bring(db, stranger)).toMatchObject(wrong("/packSize"));
    expect(await bring(db, { ...stranger, packSize: 5 })).toMatchObject(wrong("/leadDays"));
    const came = await bring(db, { ...stranger, packSize: 5, leadDays: 6 });
    expect(came).toMatchObject({ ok: true });
    expect(await offers.find(db, (await newest(db)).offerId)).toMatchObject({
      price: 453,
      packSize: 5,
      leadDays: 6,
      state: "used",
    });
  });

  it("tell duty, import tax and the parcel's fee to the offer, which keeps them until others are told", async () => {
    const { db } = await shop();
    const abroad = { dutyPercent: 2.5, importTaxPercent: 20, parcelFee: 800 };
    const told = async () => {
      const { dutyPercent, importTaxPercent, parcelFee } = (await offers.find(db, (await newest(db)).offerId))!;
      return { dutyPercent, importTaxPercent, parcelFee };
    };
    expect(await bring(db, abroad)).toMatchObject({ ok: true });
    expect(await told()).toEqual(abroad);
    // The same price, another duty: another offer.
    expect(await bring(db, { dutyPercent: 3 }, 5)).toMatchObject({ ok: true });
    expect(await told()).toEqual({ ...abroad, dutyPercent: 3 });
    expect(await bring(db, { dutyPercent: 1e6 }, 6)).toMatchObject(wrong("/dutyPercent"));
  });

  it("are refused in a currency that would spoil the part for every estimate, and nothing is written", async () => {
    const { db } = await shop();
    const before = (await offers.list(db, { limit: 200 })).rows.length;
    for (const currency of ["ZZZ", "EUR"])
      expect(await bring(db, { currency, packSize: 1, leadDays: 3 })).toMatchObject(wrong("/currency"));
    expect((await offers.list(db, { limit: 200 })).rows.length).toBe(before);
    expect((await stockOf(db, [PART])).get(PART) ?? 0).toBe(0);
  });

  it("are tested no more often than they came in, though two tablets test the last pieces at once", async () => {
    const { db } = await shop();
    await bring(db, { pieces: 2, paid: 182 });
    const { id } = await newest(db);
    const both = await Promise.all([test(db, id, 2), test(db, id, 2)]);
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
    expect(both.find(({ ok }) => !ok)).toMatchObject(wrong("/good"));
    expect((await findGoodsIn(db, id))!.tested).toEqual({ good: 2, bad: 0 });
    // The same test sent twice at once counts once.
    await bring(db, { pieces: 3, paid: 273 }, 6);
    const three = (await newest(db)).id;
    for (const { ok } of await Promise.all([test(db, three, 2, 0, "same"), test(db, three, 2, 0, "same")])) expect(ok).toBe(true);
    expect((await findGoodsIn(db, three))!.tested).toEqual({ good: 2, bad: 0 });
  });

  it("tell how many were good, at once or later, to the offer and to the belief about the source", async () => {
    const { db } = await shop();
    const valves = {
      ...({ kind: "output-pentode", source: "Marrowgate Surplus", state: "new old stock" } as const),
      ...{ paid: 18_400, pieces: 4 },
    } as const;
    await bring(db, { ...valves, tested: { good: 1, bad: 1 } });
    const { id, offerId } = await newest(db);
    expect(await offers.find(db, offerId)).toMatchObject({ price: 4600, seenGood: { good: 1, bad: 1 } });
    expect(await test(db, id, 0)).toMatchObject(wrong("/good"));
    expect(await test(db, id, 2)).toMatchObject({ answer: { tested: { good: 3, bad: 1 } } });
    expect(await offers.find(db, offerId)).toMatchObject({ seenGood: { good: 3, bad: 1 } });
    expect(await test(db, id, 1)).toMatchObject(wrong("/good"));
    expect((await findGoodsIn(db, id))!.tested).toEqual({ good: 3, bad: 1 });
    // Another kind from there: its offer tells of all four.
    await bring(db, { ...valves, kind: "rectifier-valve", paid: 2900, pieces: 1 }, 7);
    expect(await offers.find(db, (await newest(db)).offerId)).toMatchObject({ seenGood: { good: 3, bad: 1 } });

    const { book } = (await rateBooks.find(db, "bench-book"))!;
    const s = book.scarcity.shareGood["new old stock"];
    // Beta(5 s + 3, 5 (1 - s) + 1), by hand: its mean is (5 s + 3) / 9.
    const belief = sharesGood(await goodsTested(db), book).find(({ source }) => source === "Marrowgate Surplus")!;
    expect(belief).toMatchObject({ pieces: 4, good: 3 });
    expect(belief.share).toBeCloseTo((5 * s + 3) / 9, 12);
  });

  it("leave the count of a kind where the trail of movements has it", async () => {
    const { db } = await shop();
    await bring(db);
    expect((await partKinds.find(db, PART))!.stock).toBe(10);
    const { rows } = await db.run(
      "select k.id from part_kinds k where coalesce(k.stock, 0) <> (select coalesce(sum(change), 0) from stock_movements where kind = k.id)",
    );
    expect(rows).toEqual([]);
  });
});
