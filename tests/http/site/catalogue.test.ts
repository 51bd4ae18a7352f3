/** The catalogue and its offers, by pages and by programs. The demo shop and what is added to it are invented. */
import { describe, expect, it } from "vitest";
import { stockOf } from "../../../src/records/stock.js";
import { agreedJob } from "../../records/support/closed.js";
import { visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";

const BY = "Wilhelmina Stråhle";
const ROLLER = "pinch-roller";

async function catalogue() {
  const opened = await shop();
  const desk = visitor(opened);
  const items = async (path: string): Promise<{ id: string }[]> =>
    ((await (await opened.call(path)).json()) as { items: { id: string }[] }).items;
  return { ...opened, desk, items };
}

describe("a part of the catalogue", () => {
  it("is added, changed and offered from its pages, which leave the shelf and what was seen of it", async () => {
    const { desk, call, send, db } = await catalogue();
    const added = await desk.press(await desk.get("/parts/kinds"), "Save", {
      ...{ id: "film-33n", type: "film", name: "Film 33 nF 100 V", value: "33n", ratedVolts: "100 V" },
    });
    expect(words(added.html)).toContain("Saved.");
    await send("POST", "/api/stock/counts", { kind: "film-33n", counted: 12, reason: "found in a drawer", by: BY });
    const wrong = await desk.press(await desk.get("/parts/kinds/film-33n"), "Save", { value: "about 33" });
    expect(wrong.status).toBe(422);
    expect(words(wrong.html)).toContain("Value: 'about 33' cannot be read as a value; write it as 4u7, 100n or 4k7.");
    await desk.press(wrong, "Save", { value: "33n", notes: "blue drawer" });
    expect((await stockOf(db, ["film-33n"])).get("film-33n")).toBe(12);
    expect(await (await call("/api/part-kinds/film-33n")).json()).toMatchObject({
      notes: "blue drawer",
      ratedVolts: 100,
      stock: 12,
    });

    const offered = await desk.press(await desk.get("/parts/kinds/film-33n/offers"), "Save", {
      ...{ source: "Pindrake Components", price: "0.34", state: "new", leadDays: "5000" },
    });
    expect(offered.status).toBe(422);
    expect(words(offered.html)).toContain("Lead time is 5000; give at most 3650.");
    const page = await desk.press(offered, "Save", { leadDays: "3" });
    expect(words(page.html)).toMatch(/Pindrake Components\s+new/);
    const [, offer] = /href="(\/parts\/offers\/[^"]+)"/.exec(page.html)!;
    await desk.press(await desk.get(offer!), "Save", { on: "2026-11-26", price: "0.31" });
    const id = offer!.split("/").at(-1)!;
    expect(await (await call(`/api/offers/${id}`)).json()).toMatchObject({ on: "2026-11-26", price: 31, currency: "GBP" });
  });

  it("shows what someone else saved meanwhile beside what was typed, and undoes none of it", async () => {
    const { desk, call, send } = await catalogue();
    const mine = await desk.get(`/parts/kinds/${ROLLER}`);
    const found = await call(`/api/part-kinds/${ROLLER}`);
    const { id: _, version: __, createdAt: ___, updatedAt: ____, ...value } = (await found.json()) as Record<string, unknown>;
    const theirs = { ...value, notes: "measure the bore" };
    await send("PUT", `/api/part-kinds/${ROLLER}`, theirs, { "if-match": found.headers.get("etag")! });
    const met = await desk.press(mine, "Save", { form: "rubber" });
    expect(met.status).toBe(409);
    expect(words(met.html)).toContain("Someone else saved 'measure the bore' here meanwhile. Save again to keep yours.");
    expect(met.html).toContain('value="rubber"');
    await desk.press(met, "Save", { notes: "measure the bore" });
    expect(await (await call(`/api/part-kinds/${ROLLER}`)).json()).toMatchObject({ form: "rubber", notes: "measure the bore" });
  });

  it("is withdrawn with its offers: on record with who and why, and in no list, choice, estimate or goods in", async () => {
    const { desk, call, send, items } = await catalogue();
    const said = { reason: "typed twice", by: BY };
    const gone = await desk.press(await desk.get(`/parts/kinds/${ROLLER}`), "Withdraw it", said);
    expect(gone.path).toBe("/parts/stock");
    expect(words(gone.html)).not.toContain("Pinch roller");
    expect(await (await call(`/api/part-kinds/${ROLLER}`)).json()).toMatchObject({
      withdrawal: { ...said, at: expect.any(String) },
    });
    expect((await items("/api/part-kinds?limit=200")).map(({ id }) => id)).not.toContain(ROLLER);
    expect((await items("/api/part-kinds?withdrawn=yes")).map(({ id }) => id)).toEqual([ROLLER]);
    expect(await items(`/api/offers?kind=${ROLLER}`)).toEqual([]);
    expect(await items(`/api/offers?kind=${ROLLER}&withdrawn=yes`)).toMatchObject([{ withdrawal: said }]);
    expect((await desk.get("/estimates/new")).html).not.toContain(ROLLER);
    expect(words((await desk.get(`/parts/kinds/${ROLLER}`)).html)).toContain(`Withdrawn by ${BY}: typed twice`);

    const again = await send("POST", `/api/part-kinds/${ROLLER}/withdrawal`, said);
    expect([again.status, await again.json()]).toMatchObject([409, { type: "/problems/withdrawn-already" }]);
    const offer = { source: "Here", on: "2026-11-25", currency: "GBP", price: 1, packSize: 1, leadDays: 0, state: "new" };
    expect((await send("POST", "/api/offers", { ...offer, kind: ROLLER })).status).toBe(422);
    const goods = { kind: ROLLER, source: "Here", state: "used", pieces: 1, paid: 1, receivedOn: "2026-11-25", by: BY };
    expect((await send("POST", "/api/goods-in", { ...goods, packSize: 1, leadDays: 1 })).status).toBe(422);
    expect((await send("PUT", `/api/part-kinds/${ROLLER}`, { type: "roller", name: "x" }, { "if-match": "*" })).status).toBe(409);
  });

  it("stays while pieces are on the shelf, on order, or wanted by agreed work, and says which", async () => {
    const { db, send } = await catalogue();
    const detail = async (kind: string) => {
      const answer = await send("POST", `/api/part-kinds/${kind}/withdrawal`, { reason: "a mistake", by: BY });
      return answer.status === 409 && ((await answer.json()) as { detail: string }).detail;
    };
    await agreedJob(db);
    expect(await detail(ROLLER)).toMatch(/^Job J-2026-\d{4} was agreed to with Pinch roller.*; close it first, or revise it/);
    await send("POST", "/api/orders", {
      ...{ source: "Fellwright Remakes", orderedOn: "2026-11-25", by: BY, lines: [{ offer: "o34", packs: 2 }] },
    });
    expect(await detail(ROLLER)).toMatch(/^2 pieces of Pinch roller.* are on order; end the order first\.$/);
    await send("POST", "/api/stock/counts", { kind: ROLLER, counted: 1, reason: "found one", by: BY });
    expect(await detail(ROLLER)).toMatch(/^1 piece of Pinch roller.* is on the shelf; count them to 0 first\.$/);
  });
});

describe("an offer", () => {
  it("that was a mistake is withdrawn from its page, and no estimate or order takes it", async () => {
    const { desk, call, send, items } = await catalogue();
    const blank = await desk.press(await desk.get("/parts/offers/o34"), "Withdraw it", { by: BY });
    expect([blank.status, words(blank.html).includes("Why is missing; write something.")]).toEqual([422, true]);
    const back = await desk.press(blank, "Withdraw it", { reason: "read the wrong line" });
    expect(back.path).toBe(`/parts/kinds/${ROLLER}`);
    expect((await items(`/api/offers?kind=${ROLLER}`)).map(({ id }) => id)).not.toContain("o34");
    expect(await (await call("/api/offers/o34")).json()).toMatchObject({ withdrawal: { by: BY, reason: "read the wrong line" } });
    const order = { source: "Fellwright Remakes", orderedOn: "2026-11-25", by: BY, lines: [{ offer: "o34", packs: 1 }] };
    expect((await send("POST", "/api/orders", order)).status).toBe(422);
  });
});
