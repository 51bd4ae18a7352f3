import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { carryOut } from "../../../src/acts/carryOut.js";
import { importTable } from "../../../src/acts/importTable.js";
import { fileRead } from "../../../src/http/dataIn/table.js";
import { models } from "../../../src/records/models.js";
import { offers } from "../../../src/records/offers.js";
import { partKinds } from "../../../src/records/partKinds.js";
import { deskAt } from "../../acts/support/desk.js";
import { at } from "../../records/support/livedIn.js";
import { change } from "../../records/support/put.js";
import { visitor, words } from "../support/noScript.js";
import { demo, openShop } from "../support/shop.js";

let opened: Awaited<ReturnType<typeof openShop>>;
let modelId: string;
const ASSEMBLY = "supply";

beforeAll(async () => {
  opened = await openShop();
  modelId = (await demo()).models[0]!.id;
}, 30_000);
afterAll(() => opened.close());

const send = (what: string, body: object) => opened.send("POST", `/api/imports/${what}`, body);

/** What a browser sends when a file is chosen. */
async function upload(what: string, content: Uint8Array | string, fields: Readonly<Record<string, string>> = {}) {
  const form = new FormData();
  form.set("file", new File([content as Uint8Array<ArrayBuffer>], "parts.csv", { type: "text/csv" }));
  for (const [name, value] of Object.entries({ text: "", intent: "read", ...fields })) form.set(name, value);
  const answer = await opened.app.request(`http://localhost:4700/data/in/${what}`, {
    method: "POST",
    body: form,
    headers: { accept: "text/html", "sec-fetch-site": "same-origin" },
  });
  return { status: answer.status, html: await answer.text(), path: `/data/in/${what}`, headers: answer.headers };
}

describe("part kinds from CSV", () => {
  const CSV =
    "Code;Kind;What it is;Marking;Rating\nfilm-9;film;Film 220 nF;220n;100 V\nel-9;Electrolytic capacitor;Elko 22 µF;22u;\n";

  it("are shown first, mapped by hand once, written together, and the mapping is remembered", async () => {
    const desk = visitor(opened);
    const first = await upload("part-kinds", Buffer.from(CSV, "latin1"));
    expect(first.status).toBe(422);
    expect(words(first.html)).toMatch(/Read as Windows-1252, as it is not UTF-8; cells divided by semicolons/);
    expect(words(first.html)).toMatch(/2 wrong: nothing can be written until every row is right/);
    expect(words(first.html)).toMatch(/Part type is missing/);

    const mapped = await desk.press(first, "Read again", {
      "map.type": "Kind",
      "map.name": "What it is",
      "map.ratedVolts": "Rating",
    });
    expect([mapped.status, words(mapped.html)]).toEqual([200, expect.stringMatching(/2 new: nothing is written yet/)]);
    expect(await partKinds.find(opened.db, "film-9")).toBeUndefined();

    const done = await desk.press(mapped, "Write 2 records");
    expect(words(done.html)).toContain("Written: 2 records.");
    expect(await partKinds.find(opened.db, "film-9")).toMatchObject({
      type: "film",
      name: "Film 220 nF",
      value: "220n",
      ratedVolts: 100,
    });
    expect(await partKinds.find(opened.db, "el-9")).toMatchObject({ type: "electrolytic", name: "Elko 22 µF" });

    const again = await upload("part-kinds", CSV.replace("220 nF", "220 nF, axial"));
    expect(words(again.html)).toMatch(/These headings were mapped before[\s\S]*1 changed, 1 same: nothing is written yet/);
    const { status } = await desk.press(again, "Write 1 record");
    expect(status).toBe(200);
    expect(await partKinds.find(opened.db, "film-9")).toMatchObject({ name: "Film 220 nF, axial", ratedVolts: 100, version: 2 });
  });

  it("are written from a file just under 5 MiB, whose line breaks come back from the page as two characters each", async () => {
    const head = "Code,Part type,Name,Remark\nlong-1,film,Film of many words,";
    const lines = `${"x".repeat(79)}\n`.repeat(70_000);
    const of = (bytes: number) => `${head}"${lines.slice(0, bytes - head.length - 3)}"\n`;
    const most = of(5 * 1024 * 1024);
    const mapped = { "map.id": "Code", "map.type": "Part type", "map.name": "Name" };
    const read = await upload("part-kinds", most, mapped);
    expect(read.status).toBe(200);
    const form = new FormData();
    for (const [name, value] of Object.entries({ ...mapped, text: most, intent: "write" })) form.set(name, value);
    const request = new Request("http://localhost:4700/data/in/part-kinds", { method: "POST", body: form });
    const body = await request.arrayBuffer();
    expect(body.byteLength).toBeGreaterThan(5 * 1024 * 1024 + 60_000);
    const headers = {
      "content-type": request.headers.get("content-type")!,
      "sec-fetch-site": "same-origin",
      accept: "text/html",
    };
    expect((await opened.app.request(request.url, { method: "POST", body, headers })).status).toBe(303);
    expect(await partKinds.find(opened.db, "long-1")).toMatchObject({ name: "Film of many words" });

    const over = await upload("part-kinds", of(5 * 1024 * 1024 + 1), mapped);
    expect([over.status, words(over.html)]).toEqual([422, expect.stringContaining("This is above 5 MiB; give it in parts.")]);
  });

  it("are refused as a workbook, as nothing, and by row and column", async () => {
    expect(words((await upload("part-kinds", new Uint8Array([0x50, 0x4b, 3, 4, 9]))).html)).toMatch(/workbook or an archive/);
    expect(words((await upload("part-kinds", "a,a\n1,2\n")).html)).toMatch(/Row 1: Two columns are called 'a'/);
    const wrong = await visitor(opened).send("/data/in/part-kinds", [
      ["text", "type,name,value\nfilm,A,100n\nfilm,B,4x7\n"],
      ["intent", "write"],
    ]);
    expect([wrong.status, words(wrong.html)]).toEqual([
      422,
      expect.stringMatching(/Nothing was written[\s\S]*3\n[\s\S]*value: Value: '4x7' cannot be read/),
    ]);
    expect(await partKinds.find(opened.db, "a")).toBeUndefined();
  });

  it("that someone changes while they are written are decided again on what stands, and nothing of theirs is undone", async () => {
    const text = "id,type,name\nnew-1,film,New\nel-1u-100,electrolytic,Other\n";
    let tries = 0;
    const met = {
      ...importTable,
      decide: async (...given: Parameters<typeof importTable.decide>) => {
        const decided = await importTable.decide(...given);
        tries += 1;
        const { id, version, createdAt: _, updatedAt: __, ...value } = (await partKinds.find(opened.db, "el-1u-100"))!;
        if (tries === 1) await change(opened.db, partKinds, id, { ...value, notes: "someone was faster" }, at(1), version);
        return decided;
      },
    };
    const on = { what: "part-kinds", read: fileRead } as const;
    expect(await carryOut(met, deskAt(opened.db, at(2)), { text, carryOut: true }, on)).toMatchObject({ answer: { written: 2 } });
    expect(tries).toBe(2);
    expect(await partKinds.find(opened.db, "new-1")).toMatchObject({ version: 1 });
    expect(await partKinds.find(opened.db, "el-1u-100")).toMatchObject({ name: "Other", notes: "someone was faster" });
  });
});

describe("offers from CSV", () => {
  const CSV =
    "part number,supplier,price,currency,moq\nel-1u-100,Pindrake Components,1.25,GBP,2\nElectrolytic 4.7 µF 63 V, 105 °C,x,1\n";

  it("find their part kind by id or by name, and count money in the currency", async () => {
    const text = CSV.replace("Electrolytic 4.7 µF 63 V, 105 °C,x,1", '"Electrolytic 4.7 µF 63 V, 105 °C",Mottram,0.999,GBP,');
    const refused = await send("offers", { text, carryOut: true });
    expect([refused.status, (await refused.json()).errors[0]]).toEqual([
      422,
      {
        type: "/problems/row-refused",
        pointer: "/text",
        name: "row refused",
        detail: "Row 3, price: Price of one pack: '0.999' has more decimals than GBP has (2); round it.",
      },
    ]);
    const dry = await send("offers", { text: text.replace("0.999", "0.99") });
    expect(await dry.json()).toMatchObject({
      encoding: "text",
      written: 0,
      rows: [
        { row: 2, is: "new" },
        { row: 3, is: "new" },
      ],
    });
    const before = (await offers.list(opened.db, { limit: 1000 })).rows.length;
    const done = await send("offers", { base64: Buffer.from(text.replace("0.999", "0.99")).toString("base64"), carryOut: true });
    expect(await done.json()).toMatchObject({ encoding: "UTF-8", written: 2 });
    const after = (await offers.list(opened.db, { limit: 1000 })).rows;
    const again = await (await send("offers", { text: text.replace("0.999", "0.99"), carryOut: true })).json();
    expect(again).toMatchObject({ written: 0, rows: [{ is: "same" }, { is: "same" }] });
    expect((await offers.list(opened.db, { limit: 1000 })).rows.length).toBe(after.length);
    expect(after.length).toBe(before + 2);
    expect(after.find(({ source }) => source === "Mottram")).toMatchObject({
      kind: "el-4u7-63",
      price: 99,
      packSize: 1,
      on: "2026-11-25",
      state: "new",
    });
  });

  it("come back unchanged from what was exported", async () => {
    const text = await (await opened.call("/api/csv/offers")).text();
    const { rows } = await (await send("offers", { text })).json();
    expect(new Set(rows.map(({ is }: { is: string }) => is))).toEqual(new Set(["same"]));
    const kinds = await (await opened.call("/api/csv/part-kinds")).text();
    const read = await (await send("part-kinds", { text: kinds })).json();
    expect(new Set(read.rows.map(({ is }: { is: string }) => is))).toEqual(new Set(["same"]));
  });
});

describe("a parts list", () => {
  const LIST = "RefDes,Qty,Val\nC1-C4,4,100n\nC5,1,47u\nR1 R2,2,4k7\nD1,1,\nC9,1,DNP\n";

  it("becomes the counts of an assembly once each group has its part type", async () => {
    const desk = visitor(opened);
    const where = { assembly: `${modelId} ${ASSEMBLY}`, addKinds: "yes" };
    const first = await upload("parts-list", LIST, where);
    expect([first.status, words(first.html)]).toEqual([422, expect.stringMatching(/Say which part type 'D' is/)]);
    expect(words(first.html)).toMatch(/C from 1 nF: 4 pieces[\s\S]*C from 1 µF: 1 piece[\s\S]*R: 2 pieces/);
    const chosen = await desk.press(first, "Read again", { "type.D": "diode" });
    expect(words(chosen.html)).toMatch(/4 counted, 1 left out: nothing is written yet/);
    expect(words(chosen.html)).toMatch(/C1-C4, 100n → 4 × Film capacitor/);
    const before = (await models.find(opened.db, modelId))!;
    const done = await desk.press(chosen, /Write \d+ records?/.exec(words(chosen.html))![0]);
    expect([done.status, words(done.html)]).toEqual([200, expect.stringMatching(/Written: \d records/)]);
    const after = (await models.find(opened.db, modelId))!;
    const counts = after.map.assemblies.find(({ id }) => id === ASSEMBLY)!.counts!;
    expect(counts).toMatchObject({ film: 4, electrolytic: 1, resistor: 2, diode: 1, rectifier: 1, fuse: 2 });
    expect(after.version).toBe(before.version + 1);
    expect(after.map.assemblies.filter(({ id }) => id !== ASSEMBLY)).toEqual(
      before.map.assemblies.filter(({ id }) => id !== ASSEMBLY),
    );
    // The group's type is remembered with the headings.
    expect(words((await upload("parts-list", LIST, where)).html)).toMatch(/mapped before[\s\S]*4 counted/);
  });

  it.each([
    ["Ref,Qty\nC1-C4,3\n", "The quantity is 3, and the designators name 4."],
    ["Ref,Val\nC1,100n\nC1,100n\n", "C1 stands in the list twice."],
    ["Ref,Val\nC1,many\n", "Value: 'many' cannot be read as a value; write it as 4u7, 100n or 4k7."],
    ["Val,Type\n100n,film\n", "Neither a quantity nor a designator says how many."],
  ])("%j is refused: %s", async (text, why) => {
    const { rows } = await (await send("parts-list", { text, model: modelId, assembly: ASSEMBLY, types: { C: "film" } })).json();
    expect(rows.flatMap(({ faults }: { faults: { why: string }[] }) => faults.map((fault) => fault.why))).toContain(why);
  });

  it("wants a model and an assembly that are there", async () => {
    expect((await send("parts-list", { text: LIST })).status).toBe(422);
    const answer = await send("parts-list", { text: LIST, model: modelId, assembly: "attic" });
    expect((await answer.json()).errors[0]).toMatchObject({ pointer: "/assembly", name: "record unknown" });
  });
});
