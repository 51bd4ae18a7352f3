/** The pages of parts to get, without script. The demo shop is invented; the CSV is read back by papaparse. */
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { stockOf } from "../../../src/records/stock.js";
import { agreedJob } from "../../records/support/closed.js";
import { TAPE_ECHO } from "../../records/support/livedIn.js";
import { shop } from "../support/shop.js";

const BY = "Wilhelmina Stråhle";

async function agreed() {
  const opened = await shop();
  await agreedJob(opened.db);
  const page = async (path: string) => (await opened.call(path)).text();
  const post = (path: string, fields: Record<string, string>) =>
    opened.call(path, {
      method: "POST",
      body: new URLSearchParams(fields),
      headers: { "content-type": "application/x-www-form-urlencoded", "sec-fetch-site": "same-origin" },
    });
  return { ...opened, page, post };
}

const tokenIn = (html: string): string => /name="token" value="([^"]+)"/.exec(html)![1]!;
/** What a page's boxes would send, left as they are. */
const boxes = (html: string): Record<string, string> =>
  Object.fromEntries(
    [...html.matchAll(/<input id="([^"]+)" name="\1"[^>]* value="([^"]*)"/g)].map(([, name, value]) => [name!, value!]),
  );

describe("the order list's page", () => {
  it("says what to do where nothing is to be ordered", async () => {
    const { call } = await shop();
    expect(await (await call("/parts")).text()).toContain("Nothing is to be ordered");
  });

  it("orders from a source what its boxes say, and shows it as still to come", async () => {
    const { page, post } = await agreed();
    const html = await page("/parts");
    const fields = { ...boxes(html), token: tokenIn(html), by: BY, from: "GBP Fellwright Remakes", "packs.o34": "2" };
    const done = await post("/parts/orders", fields);
    expect(done.status).toBe(303);
    expect((await post("/parts/orders", fields)).headers.get("location")).toBe(done.headers.get("location"));
    // Belt 5.40, two pinch rollers at 19.80, freight 5.80.
    expect(await page(done.headers.get("location")!)).toContain("Ordered from Fellwright Remakes: 2 lines, £50.80 with freight.");
    const coming = await page("/parts/goods-in");
    expect(coming).toContain("2 × Pinch roller");
    expect(coming.match(/ordered 25 November 2026/g)).toHaveLength(1);
  });

  it("comes back with everything typed and every fault beside its box", async () => {
    const { page, post } = await agreed();
    const html = await page("/parts");
    const sent = await post("/parts/orders", {
      ...boxes(html),
      ...{ token: tokenIn(html), by: "", orderedOn: "yesterday", note: "by telephone", from: "GBP Fellwright Remakes" },
      "packs.o34": "-3",
    });
    expect(sent.status).toBe(422);
    const back = await sent.text();
    for (const text of [
      'value="-3"',
      'value="yesterday"',
      "by telephone",
      'href="#packs.o34"',
      'href="#by"',
      'href="#orderedOn"',
    ])
      expect(back).toContain(text);
    expect(back).toContain("Error: Order list");
    // Enter in a box presses the form's first button, which orders from nobody.
    const first = /<form method="post" action="\/parts\/orders".*?<button type="submit"[^>]*value="([^"]*)"/s.exec(html)![1];
    const entered = await post("/parts/orders", { ...boxes(html), token: tokenIn(html), by: BY, from: first! });
    expect([entered.status, (await entered.text()).includes("Nothing was ordered")]).toEqual([422, true]);
  });

  it("is a CSV that reads back with amounts that add up to the page's totals", async () => {
    const { call } = await agreed();
    const answer = await call("/parts/order-list.csv");
    expect(answer.headers.get("content-type")).toContain("text/csv");
    const { data, errors } = Papa.parse<Record<string, string>>(await answer.text(), { header: true, skipEmptyLines: true });
    expect(errors).toEqual([]);
    const list = await (await call("/api/order-list")).json();
    const cents = data.filter(({ source }) => source).reduce((sum, { amount }) => sum + Math.round(Number(amount) * 100), 0);
    expect(cents).toBe(list.totals[0].total);
    const roller = data.find(({ kind }) => kind === "pinch-roller");
    expect(roller).toMatchObject({ packs: "1", "price of a pack": "19.80", jobs: expect.stringMatching(/^J-2026-\d+: 1$/) });
  });
});

describe("goods in", () => {
  it("come in of an order with the boxes filled, raise the shelf, and take tests later", async () => {
    const { db, page, post } = await agreed();
    const html = await page("/parts");
    const list = { ...boxes(html), token: tokenIn(html), by: BY, from: "GBP Fellwright Remakes" };
    await post("/parts/orders", list);
    const line = /line=([^#]+)#entry">Book in<span class="unseen"> Pinch/.exec(await page("/parts/goods-in"))![1]!;
    const form = await page(`/parts/goods-in?line=${line}`);
    expect(form).toContain("1 piece still to come");
    const fields = {
      ...boxes(form),
      token: tokenIn(form),
      orderLineId: decodeURIComponent(line),
      state: "reproduction",
      paid: "21.00",
      by: BY,
    };
    const done = await post("/parts/goods-in", fields);
    expect(done.status).toBe(303);
    expect((await stockOf(db, ["pinch-roller"])).get("pinch-roller")).toBe(1);
    const after = await page(done.headers.get("location")!);
    expect(after).toContain("In: 1 piece of");
    const tests = /href="(\/parts\/goods-in\/[^"]+\/tests)"/.exec(after)![1]!;
    expect((await post(tests, { token: tokenIn(await page(tests)), good: "2", bad: "0", by: BY })).status).toBe(422);
    expect((await post(tests, { token: tokenIn(await page(tests)), good: "0", bad: "1", by: BY })).status).toBe(303);
    expect(await page("/parts/goods-in")).toContain("reproduction, Fellwright Remakes");
  });

  it("name every fault, and lose nothing", async () => {
    const { post } = await agreed();
    const sent = await post("/parts/goods-in", {
      kind: "flux capacitor",
      source: "Here",
      state: "used",
      pieces: "0",
      paid: "x",
      note: "kept",
    });
    expect(sent.status).toBe(422);
    const back = await sent.text();
    for (const field of ["pieces", "paid", "receivedOn"]) expect(back).toContain(`href="#${field}"`);
    for (const text of ['value="flux capacitor"', 'value="kept"', 'value="x"']) expect(back).toContain(text);
  });
});

describe("the stock page", () => {
  it("records the counts typed, with one reason, and shows how the count came about", async () => {
    const { db, page, post } = await agreed();
    const html = await page("/parts/stock");
    const fields = { token: tokenIn(html), "counted.el-10u-50": "17", "counted.el-22u-50": "", reason: "shelf counted", by: BY };
    expect((await post("/parts/stock", fields)).headers.get("location")).toBe("/parts/stock?counted=1");
    expect((await stockOf(db, ["el-10u-50"])).get("el-10u-50")).toBe(17);
    expect(await page("/parts/stock/el-10u-50")).toContain("Counted: shelf counted");
    const alone = {
      token: tokenIn(await page("/parts/stock/el-10u-50")),
      "counted.el-10u-50": "9",
      reason: "shelf counted",
      by: BY,
    };
    const there = "/parts/stock/el-10u-50";
    expect((await post(there, { ...alone, "counted.el-10u-50": "many" })).status).toBe(422);
    expect((await post(there, alone)).headers.get("location")).toBe(`${there}?counted`);
    expect((await stockOf(db, ["el-10u-50"])).get("el-10u-50")).toBe(9);
    const refused = await post("/parts/stock", { ...fields, reason: "", "counted.el-10u-50": "-1" });
    expect(refused.status).toBe(422);
    expect(await refused.text()).toContain('value="-1"');
    expect((await stockOf(db, ["el-10u-50"])).get("el-10u-50")).toBe(9);
  });
});

describe("a job's pick list", () => {
  it("shows parts by kind and by assembly, and says where nothing is agreed", async () => {
    const { page } = await agreed();
    const list = await page(`/jobs/${TAPE_ECHO}/parts`);
    for (const text of ["By part", "By assembly", "8 × Electrolytic 10 µF", "Only if it is found to be needed"])
      expect(list).toContain(text);
    expect(await page("/jobs/bare-job/parts")).toContain("Nothing is agreed for this job yet");
  });
});
