/** Every answer is held against its OpenAPI entry by the caller (`documented`). The demo shop is invented. */
import { describe, expect, it } from "vitest";
import { agreedJob, closed, logged } from "../../records/support/closed.js";
import { TAPE_ECHO } from "../../records/support/livedIn.js";
import { shop } from "../support/shop.js";

const BY = "Wilhelmina Stråhle";

async function agreed() {
  const opened = await shop();
  await agreedJob(opened.db);
  const read = async (path: string) => (await opened.call(path)).json();
  return { ...opened, read };
}

const goods = {
  ...{ receivedOn: "2026-11-25", kind: "el-1000u-50", source: "Pindrake Components", state: "new", currency: "GBP" },
  ...{ pieces: 10, paid: 910, by: BY },
};

describe("the API of parts to get", () => {
  it("gives a job's pick list, with its remarks, its share of the shelf, and what is only wanted if found", async () => {
    const { db, send, read, call } = await agreed();
    expect((await call("/api/jobs/bare-job/parts")).status).toBe(404);
    await send("POST", "/api/stock/counts", { kind: "el-1000u-50", counted: 3, reason: "drawer counted", by: BY });
    await logged(db, TAPE_ECHO, [
      { item: "w09", partKind: "el-10u-50", partCount: 2, paidPrice: 95, paidPer: 10, partState: "new" },
    ]);
    const list = await read(`/api/jobs/${TAPE_ECHO}/parts`);
    const of = (kind: string) => list.parts.find((one: { part: { kind: string } }) => one.part.kind === kind);
    expect(of("el-1000u-50")).toMatchObject({ needed: 4, used: 0, wanted: 4, stock: 3, fromStock: 3, toGet: 1 });
    expect(of("el-10u-50")).toMatchObject({ needed: 8, used: 2, wanted: 6 });
    expect(of("play-head")).toMatchObject({ needed: 0, ifFound: 1, toGet: 0 });
    const preamp = list.assemblies.find(({ id }: { id: string }) => id === "preamp");
    expect(preamp.takes).toContainEqual(expect.objectContaining({ item: "w09", count: 8, used: 2 }));
  });

  it("lists what to order, marks it as ordered, brings it in, and learns what was good", async () => {
    const { send, read, call } = await agreed();
    const first = await read("/api/order-list");
    const source = first.sources.find(({ source }: { source: string }) => source === "Pindrake Components");
    expect(source.total).toBe(source.goods + source.freight);
    const lines = source.lines.map(({ offer, packs, jobs }: { offer: { id: string }; packs: number; jobs: object }) => ({
      ...{ offer: offer.id, packs, jobs },
    }));
    const placed = await send("POST", "/api/orders", { source: source.source, orderedOn: "2026-11-25", by: BY, lines });
    expect(placed.status).toBe(201);
    const order = await placed.json();
    expect(order).toMatchObject({ goods: source.goods, freight: source.freight, total: source.total });
    expect((await read("/api/order-list")).sources.map((one: { source: string }) => one.source)).not.toContain(source.source);

    const line = order.lines.find(({ kind }: { kind: string }) => kind === "el-1000u-50");
    const came = await send("POST", "/api/goods-in", { ...goods, orderLineId: line.id, tested: { good: 9, bad: 1 } });
    expect(came.status).toBe(201);
    const { id } = await came.json();
    expect((await send("POST", `/api/goods-in/${id}/tests`, { good: 1, bad: 0, by: BY })).status).toBe(422);
    expect((await read("/api/shares-good")).items).toContainEqual(
      expect.objectContaining({ source: "Pindrake Components", state: "new", pieces: 10, good: 9 }),
    );
    expect((await read("/api/goods-in")).items).toHaveLength(1);
    expect((await read("/api/part-kinds/el-1000u-50/movements")).items).toMatchObject([{ why: "goods in", change: 10 }]);
    expect((await read("/api/stock?limit=200")).items).toContainEqual(expect.objectContaining({ id: "el-1000u-50", stock: 10 }));

    const ended = await send("POST", `/api/orders/${order.id}/ending`, { by: BY, reason: "sold out" });
    expect(await ended.json()).toMatchObject({ ending: { reason: "sold out" } });
    expect((await read(`/api/orders/${order.id}`)).lines.every((one: { ended: boolean }) => one.ended)).toBe(true);
    expect((await read("/api/orders")).items).toHaveLength(1);
    const page = await call("/api/stock?limit=2");
    expect(page.headers.get("link")).toMatch(/^<\/api\/stock\?limit=2&after=[^>]+>; rel="next"$/);
  });

  it("names what is wrong with an order, goods in and a count", async () => {
    const { send } = await agreed();
    const order = { source: "Pindrake Components", orderedOn: "2026-11-25", by: BY, lines: [{ offer: "o33", packs: 1 }] };
    const refused = async (path: string, body: object) => (await (await send("POST", path, body)).json()).errors[0];
    expect(await refused("/api/orders", order)).toMatchObject({ pointer: "/lines/0/offer" });
    expect(await refused("/api/orders", { ...order, lines: [{ offer: "gone", packs: 1 }] })).toMatchObject({
      name: "record unknown",
    });
    expect(await refused("/api/goods-in", { ...goods, source: "Nobody yet" })).toMatchObject({ pointer: "/packSize" });
    expect(await refused("/api/goods-in", { ...goods, pieces: 0 })).toMatchObject({ pointer: "/pieces" });
    expect(await refused("/api/stock/counts", { kind: "gone", counted: 1, reason: "x", by: BY })).toMatchObject({
      pointer: "/kind",
    });
    expect(await refused("/api/stock/counts", { kind: "o", counted: -1, reason: "x", by: BY })).toMatchObject({
      pointer: "/counted",
    });
  });

  it("wants nothing for a job that is closed", async () => {
    const { db, call } = await shop();
    await closed(db);
    expect(await (await call("/api/order-list")).json()).toMatchObject({ sources: [], uncovered: [], jobs: [] });
    const list = await (await call(`/api/jobs/${TAPE_ECHO}/parts`)).json();
    expect(list.closedOn).toBe("2026-12-04");
    expect(list.parts.every(({ toGet }: { toGet: number }) => toGet === 0)).toBe(true);
  });
});
