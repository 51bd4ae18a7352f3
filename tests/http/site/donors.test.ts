/** Donor units, by pages and by programs. The units and what they hold are invented. */
import { describe, expect, it } from "vitest";
import { stockOf } from "../../../src/records/stock.js";
import { agreedJob } from "../../records/support/closed.js";
import { visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";

const BY = "Wilhelmina Stråhle";
const ROLLER = "pinch-roller";
const UNIT = { maker: "Hallorin", model: "Skep 3", serial: "14 0012", boughtOn: "2026-11-20", currency: "GBP", cost: 6000 };

interface Kept {
  readonly id: string;
  readonly version: number;
  readonly parts: readonly { readonly kind: string; readonly pieces: number; readonly price: number }[];
  readonly errors?: readonly { readonly pointer: string; readonly name: string; readonly detail: string }[];
}

async function donors() {
  const opened = await shop();
  const post = async (path: string, body: object) => {
    const answer = await opened.send("POST", path, body);
    return { status: answer.status, body: (await answer.json()) as Kept };
  };
  const offers = async (kind: string) =>
    ((await (await opened.call(`/api/offers?kind=${kind}`)).json()) as { items: Record<string, unknown>[] }).items.filter(
      ({ donor }) => donor !== undefined,
    );
  return { ...opened, desk: visitor(opened), post, offers };
}

describe("a donor unit", () => {
  it("is added from its page; each part is an offer that ends where the unit does, at its price, its share of the cost, or what is left of it", async () => {
    const { desk, call, offers } = await donors();
    const page = await desk.press(await desk.get("/parts/donors/new"), "Save", {
      ...{ maker: "Hallorin", model: "Skep 3", serial: "14 0012", cost: "60" },
      ...{ "parts.0.kind": "Pinch roller, 14 mm", "parts.0.pieces": "1", "parts.0.price": "18.00", "parts.0.pullMinutes": "20" },
      ...{ "parts.1.kind": "el-10u-450", "parts.1.pieces": "3", "parts.1.costShare": "25" },
      ...{ "parts.2.kind": "el-10u-50", "parts.2.pieces": "4" },
    });
    expect(words(page.html)).toContain("Saved.");
    const id = page.path.split("/").at(-1)!.split("?")[0]!;
    // 60.00: 18.00 for the roller, a quarter (15.00) by three pieces, the other 27.00 by four, half a penny up.
    expect(await (await call(`/api/donors/${id}`)).json()).toMatchObject({
      parts: [
        { kind: ROLLER, pieces: 1, price: 1800, pullMinutes: 20 },
        { kind: "el-10u-450", pieces: 3, price: 500 },
        { kind: "el-10u-50", pieces: 4, price: 675 },
      ],
    });
    expect(await offers(ROLLER)).toMatchObject([
      { donor: id, source: "Donor Hallorin Skep 3 14 0012", state: "donor pull", available: 1, packSize: 1, price: 1800 },
    ]);
    const shelf = words((await desk.get(`/parts/kinds/${ROLLER}`)).html);
    expect(shelf).toMatch(/Donor Hallorin Skep 3 14 0012\s+donor pull.*Pull\s+from Donor/s);
    expect(words((await desk.get("/parts/kinds?q=donor+skep")).html)).toContain("3 parts");
    const changed = await desk.press(await desk.get(`/parts/donors/${id}`), "Save", {
      "parts.2.pieces": "0",
      notes: "board cracked",
    });
    expect(words(changed.html)).toContain("Saved.");
    expect(await (await call(`/api/donors/${id}`)).json()).toMatchObject({
      notes: "board cracked",
      parts: [{ price: 1800 }, { price: 500 }, { pieces: 0, price: 675 }],
    });
  });

  it("gives what is pulled to the shelf as goods in, tested, and has as many fewer; never more than it holds", async () => {
    const { db, desk, call, post, offers } = await donors();
    const { body: unit } = await post("/api/donors", { ...UNIT, parts: [{ kind: "el-10u-450", pieces: 3, price: 500 }] });
    const before = (await stockOf(db, ["el-10u-450"])).get("el-10u-450")!;
    const pulled = await desk.press(await desk.get(`/parts/donors/${unit.id}`), "Pull them", {
      ...{ kind: "el-10u-450", pieces: "2", "tested.good": "1", "tested.bad": "1", by: BY },
    });
    expect(words(pulled.html)).toMatch(/Pulled: 2 pieces of .+ Its list is shorter by as many\./);
    expect((await stockOf(db, ["el-10u-450"])).get("el-10u-450")).toBe(before + 2);
    expect(await offers("el-10u-450")).toMatchObject([{ available: 1, seenGood: { good: 1, bad: 1 } }]);
    const standing = (await (await call("/api/part-kinds/el-10u-450/standing")).json()) as object;
    expect(standing).toMatchObject({ lastPaid: { paid: 1000, pieces: 2 }, tested: { good: 1, bad: 1 } });
    const after = (await (await call(`/api/donors/${unit.id}`)).json()) as Kept;
    expect([after.parts[0]!.pieces, after.version > unit.version]).toEqual([1, true]);

    const more = await post(`/api/donors/${unit.id}/pulls`, { kind: "el-10u-450", pieces: 2, by: BY });
    expect([more.status, more.body.errors]).toMatchObject([
      422,
      [{ pointer: "/pieces", name: "number out of range", detail: expect.stringContaining("only 1 can still be pulled") }],
    ]);
    const other = await post(`/api/donors/${unit.id}/pulls`, { kind: ROLLER, pieces: 1, by: BY });
    expect(other.body.errors).toMatchObject([{ pointer: "/kind", name: "record unknown" }]);
    // Booked in by hand from the same source, it leaves the unit just so.
    const goods = {
      kind: "el-10u-450",
      source: "Donor Hallorin Skep 3 14 0012",
      state: "donor pull",
      receivedOn: "2026-11-25",
      by: BY,
    };
    expect((await post("/api/goods-in", { ...goods, pieces: 1, paid: 500 })).status).toBe(201);
    expect(await offers("el-10u-450")).toMatchObject([{ available: 0 }]);
    expect(words((await desk.get(`/parts/donors/${unit.id}`)).html)).toContain("all pulled");
  });

  it("gives a part to a job at once: logged for its work at the donor's price, and the shelf as before", async () => {
    const { db, desk, call, post } = await donors();
    const { jobId: job } = await agreedJob(db);
    const { body: unit } = await post("/api/donors", { ...UNIT, parts: [{ kind: ROLLER, pieces: 2, price: 1800 }] });
    const before = (await stockOf(db, [ROLLER])).get(ROLLER) ?? 0;
    const bench = words((await desk.get(`/jobs/${job}/bench`)).html).replaceAll(/\s+/g, " ");
    expect(bench).toContain("2 still in Donor Hallorin Skep 3 14 0012 : pulled there, it is logged here.");
    const page = await desk.get(`/parts/donors/${unit.id}`);
    const [, serves] = new RegExp(`value="(${job} [^"]+)"`).exec(page.html)!;
    const done = await desk.press(page, "Pull them", { kind: ROLLER, serves: serves!, by: BY });
    expect(words(done.html)).toMatch(/Pulled: 1 piece of .+ Its list is shorter by as many\./);
    expect((await stockOf(db, [ROLLER])).get(ROLLER) ?? 0).toBe(before);
    // The work has all it needs.
    expect(words((await desk.get(`/jobs/${job}/bench`)).html)).not.toContain("pulled there");
    const { items } = (await (await call(`/api/jobs/${job}/work-log`)).json()) as { items: object[] };
    expect(items.at(-1)).toMatchObject({ partKind: ROLLER, partCount: 1, paidPrice: 1800, partState: "donor pull", person: BY });
    const half = await post(`/api/donors/${unit.id}/pulls`, { kind: ROLLER, pieces: 1, job, by: BY });
    expect(half.body.errors).toMatchObject([{ pointer: "/item", name: "key missing" }]);
  });

  it("is refused by name: a part twice, none of the catalogue, a price beside a share, a currency that is not the shop's", async () => {
    const { post, desk } = await donors();
    const names = async (parts: object[], more = {}) =>
      (await post("/api/donors", { ...UNIT, ...more, parts })).body.errors?.map(({ pointer, name }) => `${pointer} ${name}`);
    expect(
      await names([
        { kind: ROLLER, pieces: 1 },
        { kind: ROLLER, pieces: 2 },
      ]),
    ).toEqual(["/parts/1/kind id repeated"]);
    expect(await names([{ kind: "no such", pieces: 1 }])).toEqual(["/parts/0/kind record unknown"]);
    expect(await names([{ kind: ROLLER, pieces: 1, price: 1, costShare: 5 }])).toEqual(["/parts/0/costShare price given twice"]);
    expect(await names([{ kind: ROLLER, pieces: 1, shareGood: 0 }])).toEqual(["/parts/0/shareGood share good out of range"]);
    const page = await desk.press(await desk.get("/parts/donors/new"), "Save", {
      ...{ maker: "Hallorin", model: "Skep 3", cost: "60", "parts.0.kind": "no such", "parts.0.pieces": "1" },
    });
    expect([page.status, page.html.includes('value="no such"')]).toEqual([422, true]);
    expect(words(page.html)).toContain("Part: 'no such' is not known; choose one of ");
  });

  it("is withdrawn with what it holds, and is in the CSV of donor units while it stands", async () => {
    const { desk, call, post, offers } = await donors();
    const { body: unit } = await post("/api/donors", { ...UNIT, parts: [{ kind: ROLLER, pieces: 2, price: 1800 }] });
    expect(await (await call("/api/csv/donors")).text()).toMatch(
      /Hallorin,Skep 3,14 0012,2026-11-20,GBP,60.00,,pinch-roller,2,18.00/,
    );
    const gone = await desk.press(await desk.get(`/parts/donors/${unit.id}`), "Withdraw it", { reason: "sold whole", by: BY });
    expect(gone.path).toBe("/parts/donors");
    expect(await offers(ROLLER)).toEqual([]);
    expect((await post(`/api/donors/${unit.id}/pulls`, { kind: ROLLER, pieces: 1, by: BY })).status).toBe(409);
    expect(await (await call("/api/csv/donors")).text()).not.toContain("Hallorin");
  });
});
