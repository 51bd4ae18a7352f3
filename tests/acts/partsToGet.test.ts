/** The demo shop (invented): its tape echo needs four 1000 uF capacitors at 0.96, a pinch roller at 19.80, and so on. */

import { describe, expect, it } from "vitest";
import { bringIn } from "../../src/acts/bringIn.js";
import { changeRateBook } from "../../src/acts/changeRateBook.js";
import { shopRateBook } from "../../src/acts/checked.js";
import { endOrder, placeOrder } from "../../src/acts/order.js";
import { shopOrderList } from "../../src/acts/partsToGet.js";
import type { Database } from "../../src/records/database.js";
import type { GoodsInValue } from "../../src/records/goodsIn.js";
import { offers } from "../../src/records/offers.js";
import { onOrder, openOrders } from "../../src/records/orders.js";
import type { LogEntryValue } from "../../src/records/workLog.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { put } from "../records/support/put.js";
import { answerOf, log } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const BY = "Wilhelmina Stråhle";

async function agreed() {
  const { db } = await shop();
  const draft = await draftOf(db, TAPE_ECHO);
  const { record } = await issued(db, draft.id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  return { db, record };
}

async function listOf(db: Database) {
  return (await shopOrderList(db, "2026-11-25")).list;
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
  it("is by the rates in force that day, whatever starts later", async () => {
    const { db } = await shop();
    const dear = { inForceFrom: "2027-01-01", carryOut: true, labourClasses: [{ id: "bench", ratePerHour: 9900 }] };
    answerOf(await done(changeRateBook, deskAt(db, at(3)), dear, { id: "bench-book", seen: "any" }));
    const versions = await Promise.all(["2026-11-25", "2027-01-02", undefined].map((day) => shopRateBook(db, day)));
    expect(versions.map(({ version }) => version)).toEqual([1, 2, 2]);
  });

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
    const used = async (entry: Partial<LogEntryValue>) =>
      answerOf(await log(db, { job: TAPE_ECHO, when: at(3) }, { person: BY, ...entry }));
    await used({ item: "w07", partKind: "el-1000u-50", partCount: 3, paidPrice: 96, paidPer: 1, partState: "new" });
    expect((await lineOf(db, "el-1000u-50")).line).toMatchObject({ pieces: 1 });
    await used({ item: "w17", minutes: 5 });
    expect((await lineOf(db, "play-head")).line).toMatchObject({ jobs: [{ job: TAPE_ECHO, pieces: 1 }] });
  });

  it("counts what is on order until it comes in or is given up", async () => {
    const { db } = await agreed();
    const order = { source: "Pindrake Components", orderedOn: "2026-11-25", by: BY, lines: [{ offer: "o09", packs: 3 }] };
    expect(await done(placeOrder, deskAt(db, at(3), "order-1"), order, {}, "key")).toMatchObject({
      ok: true,
      answer: { total: 783 },
    });
    expect(await done(placeOrder, deskAt(db, at(3), "order-1"), order, {}, "key")).toMatchObject({ ok: true, replayed: {} });
    expect(await openOrders(db)).toMatchObject([{ id: "order-1", goods: 288, freight: 495, total: 783 }]);
    expect(await lineOf(db, "el-1000u-50")).toMatchObject({ line: { pieces: 1 }, covered: { fromStock: 0, onOrder: 3 } });

    const came = goods({ pieces: 2, paid: 192, orderLineId: "order-1-1" });
    expect(await done(bringIn, deskAt(db, at(4)), came, {})).toMatchObject({ ok: true });
    expect(await lineOf(db, "el-1000u-50")).toMatchObject({ line: { pieces: 1 }, covered: { fromStock: 2, onOrder: 1 } });
    const ended = { by: BY, reason: "sold out at the source" };
    expect(await done(endOrder, deskAt(db, at(5)), ended, { order: "order-1" })).toMatchObject({
      ok: true,
      answer: { ending: ended },
    });
    expect((await onOrder(db)).size).toBe(0);
    expect(await lineOf(db, "el-1000u-50")).toMatchObject({ line: { pieces: 2 }, covered: { fromStock: 2, onOrder: 0 } });
  });

  it("takes no order of another source, below the fewest packs, or of an offer it does not have", async () => {
    const { db } = await agreed();
    const try_ = (offer: string, packs = 1) =>
      done(
        placeOrder,
        deskAt(db, at(3)),
        { source: "Pindrake Components", orderedOn: "2026-11-25", by: BY, lines: [{ offer, packs }] },
        {},
      );
    const wrong = (pointer: string, detail: string) => ({ refusal: { errors: [{ pointer, detail }] } });
    expect(await try_("o33")).toMatchObject(
      wrong("/lines/0/offer", "Offer 'o33' is of Fellwright Remakes; an order goes to one source."),
    );
    expect(await try_("nowhere")).toMatchObject(
      wrong("/lines/0/offer", "There is no offer 'nowhere' any more; look at the order list again."),
    );
    await put(db, offers, "least", { ...goods(), on: "2026-11-20", price: 80, packSize: 1, minimumPacks: 5, leadDays: 2 }, at(1));
    expect(await try_("least", 4)).toMatchObject(
      wrong("/lines/0/packs", "Offer 'least' is sold from 5 packs up, and 4 is fewer; order more, or none."),
    );
    expect(await openOrders(db)).toEqual([]);
  });
});
