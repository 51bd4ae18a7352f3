/** The lines of a draft as CSV by page and by program, on the demo shop's tape echo (invented). */
import { describe, expect, it } from "vitest";
import { at, draftOf, issued, TAPE_ECHO } from "../../records/support/livedIn.js";
import { visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";

describe("the lines of a draft", () => {
  it("go out by a program and come back without a change; a row more is a line more", async () => {
    const { db, call, send } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    const csv = await call(`/api/estimates/${draft.id}/lines.csv`);
    expect(csv.headers.get("content-type")).toContain("text/csv");
    const text = await csv.text();
    expect(text.split("\r\n")[0]).toMatch(/^\uFEFF?id,currency,reason,count,part,work,own,minutes,/);
    const back = (body: object) => send("POST", `/api/estimates/${draft.id}/lines`, body);
    const same = await back({ text, carryOut: true });
    expect([same.status, await same.json()]).toMatchObject([200, { changes: 0, written: 0 }]);
    expect((await draftOf(db, TAPE_ECHO)).version).toBe(draft.version);
    const head = text.split("\r\n")[0]!;
    const row = head.split(",").map((name) => ({ own: "Listen to it", minutes: "10" })[name] ?? "");
    expect(await (await back({ text: `${head}\r\n${row.join(",")}\r\n`, carryOut: true })).json()).toMatchObject({ written: 1 });
    expect((await draftOf(db, TAPE_ECHO)).input.items.at(-1)).toMatchObject({ own: { name: "Listen to it" }, count: 1 });
    const wrong = await back({ text: "own,count\nListen,none\n", carryOut: true });
    expect([wrong.status, await wrong.json()]).toMatchObject([
      422,
      { errors: [{ name: "row refused", detail: expect.stringContaining("Row 2, count: Count: ") }] },
    ]);
    expect((await call("/api/estimates/none/lines.csv")).status).toBe(404);
  });

  it("are shown first on their page, row by row, and written when that is sent back", async () => {
    const opened = await shop();
    const draft = await draftOf(opened.db, TAPE_ECHO);
    const desk = visitor(opened);
    const job = await desk.get(`/jobs/${draft.jobId}`);
    expect(job.html).toContain(`href="/estimates/${draft.id}/lines"`);
    const page = await desk.get(`/estimates/${draft.id}/lines`);
    expect(page.html).toContain(`href="/api/estimates/${draft.id}/lines.csv"`);
    const send = (text: string, intent: string) => {
      const form = new FormData();
      for (const [name, value] of Object.entries({ text, intent })) form.set(name, value);
      return opened.app.request(`http://localhost:4700/estimates/${draft.id}/lines`, {
        ...{ method: "POST", body: form, headers: { accept: "text/html", "sec-fetch-site": "same-origin" } },
      });
    };
    const wrong = await send("own,minutes,where\nListen,10,Nowhere\n", "write");
    expect(wrong.status).toBe(422);
    expect(words(await wrong.text())).toMatch(/where: Where: 'Nowhere' is not known; choose one of/);
    const read = words(await (await send("own,minutes\nListen,10\n", "read")).text());
    expect(read).toContain("1 new: nothing is written yet");
    expect(read).toContain("Write 1 line");
    const done = await send("own,minutes\nListen,10\n", "write");
    expect(done.headers.get("location")).toBe(`/estimates/${draft.id}/lines?written=1`);
    expect(words((await desk.get(done.headers.get("location")!)).html)).toContain("Written: 1 line.");
    await issued(opened.db, draft.id, at(2));
    const closed = words((await desk.get(`/estimates/${draft.id}/lines`)).html);
    expect(closed).toContain("An issued revision never changes");
    expect(closed).not.toContain("Read it");
    expect((await send("own,minutes\nListen,10\n", "write")).status).toBe(409);
  });
});
