import { readdirSync, readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { type Change, changed } from "../../fixtures/change.js";
import { job, openShop } from "../support/shop.js";

interface Refusal {
  readonly type: string;
  readonly status: number;
  readonly errors: readonly { readonly name: string; readonly pointer: string; readonly detail: string; readonly type: string }[];
}

// Nothing here is kept, so one shop serves all.
let opened: Awaited<ReturnType<typeof openShop>>;
beforeAll(async () => {
  opened = await openShop();
});
afterAll(() => opened.close());

describe("POST /api/estimate", () => {
  it.each(["string-organ-keyboard", "tape-echo", "valve-amplifier", "plain-counts"])("prices %s", async (name) => {
    const response = await opened.send("POST", "/api/estimate", await job(name));
    expect(response.status).toBe(200);
    const { sheet } = (await response.json()) as { sheet: { totals: { total: number; withoutTax: number; tax: number } } };
    expect(sheet.totals.total).toBe(sheet.totals.withoutTax + sheet.totals.tax);
    expect(sheet.totals.total).toBeGreaterThan(0);
  });

  it("prices the packages of the paperwork side by side, as what then is charged", async () => {
    const input = await job("string-organ-keyboard");
    const optional = input.items.filter(({ certainty }) => certainty.is === "optional").map(({ id }) => id);
    const { sheet: plain } = (await (await opened.send("POST", "/api/estimate", input)).json()) as {
      sheet: { options: { id: string }[] };
    };
    const options = plain.options.map(({ id }) => id);
    expect(optional.length).toBeGreaterThan(0);
    const packages = [
      { name: "Minimal", options: [] },
      { name: "Full", options },
    ];
    const answer = await opened.send("POST", "/api/estimate", { ...input, paperwork: { ...input.paperwork, packages } });
    const said = (await answer.json()) as { packages: { name: string; options: string[]; total: number }[] };
    expect(said.packages.map(({ name }) => name)).toEqual(["Minimal", "Full"]);
    expect(said.packages[1]!.options).toEqual(options);
    expect(said.packages[1]!.total).toBeGreaterThan(said.packages[0]!.total);
  });

  it("answers the same input with the same bytes", async () => {
    const input = await job("tape-echo");
    const first = await (await opened.send("POST", "/api/estimate", input)).text();
    expect(await (await opened.send("POST", "/api/estimate", input)).text()).toBe(first);
  });

  interface Refused {
    readonly what: string;
    readonly change: readonly Change[];
    /** Where the answer must point. */
    readonly at: string;
    readonly name: string;
    /** What its text must hold. */
    readonly says: string;
  }
  const put = (at: string, value: unknown): Change => ({ at, put: value });

  /** Issue 2, 'Bad input', as far as the shape of the body is to blame; fixtures/problems holds what the engine refuses. */
  const refused: readonly Refused[] = [
    {
      what: "a missing count",
      change: [{ at: "/items/0/count", drop: true }],
      at: "/items/0/count",
      name: "key missing",
      says: "count",
    },
    {
      what: "a count in words",
      change: [put("/items/0/count", "three")],
      at: "/items/0/count",
      name: "wrong type",
      says: '"three"',
    },
    { what: "a count of null", change: [put("/items/0/count", null)], at: "/items/0/count", name: "wrong type", says: "null" },
    {
      what: "a count beyond any number",
      change: [put("/items/0/count", 1e300)],
      at: "/items/0/count",
      name: "count too large",
      says: "1e+300",
    },
    {
      what: "a tax above 100 %",
      change: [put("/rateBook/tax/categories/0/percent", 101)],
      at: "/rateBook/tax",
      name: "percent out of range",
      says: "101",
    },
    {
      what: "a negative tax",
      change: [put("/rateBook/tax/categories/0/percent", -1)],
      at: "/rateBook/tax",
      name: "percent out of range",
      says: "-1",
    },
    {
      what: "a certainty that is none",
      change: [put("/items/0/certainty", { is: "maybe" })],
      at: "/items/0/certainty/is",
      name: "choice unknown",
      says: "maybe",
    },
    {
      what: "a hazard that is none",
      change: [put("/unit/hazards", ["bees"])],
      at: "/unit/hazards/0",
      name: "choice unknown",
      says: "bees",
    },
    {
      what: "a key nobody knows",
      change: [put("/items/0/colour", "red")],
      at: "/items/0/colour",
      name: "key unknown",
      says: "items[0].colour",
    },
    {
      what: "a key nobody knows at the top",
      change: [put("/discount", 5)],
      at: "/discount",
      name: "key unknown",
      says: "discount",
    },
    {
      what: "a part that is two at once",
      change: [put("/items/0/part", { type: "a", kind: "b" })],
      at: "/items/0/part",
      name: "key unknown",
      says: "part",
    },
    { what: "another schema", change: [put("/schema", 2)], at: "/schema", name: "choice unknown", says: "2" },
    {
      what: "CR LF in a name",
      change: [put("/unit/maker", "Hallorin\r\nBcc: x")],
      at: "/unit/maker",
      name: "line broken",
      says: "one line",
    },
    {
      what: "a NUL in a note",
      change: [put("/unit/condition", "a\u0000b")],
      at: "/unit/condition",
      name: "control character",
      says: "control",
    },
    {
      what: "a name longer than a line",
      change: [put("/unit/model", "x".repeat(501))],
      at: "/unit/model",
      name: "text too long",
      says: "501",
    },
    {
      what: "a locale that is none",
      change: [put("/paperwork", { locale: "??" })],
      at: "/paperwork/locale",
      name: "locale unreadable",
      says: "??",
    },
    { what: "a list where an object belongs", change: [put("/unit", [])], at: "/unit", name: "wrong type", says: "unit" },
    {
      what: "a list where a text belongs",
      change: [put("/currency", ["GBP"])],
      at: "/currency",
      name: "wrong type",
      says: "a list",
    },
  ];

  it.each(refused)("refuses $what with 422, saying where, what and what to do", async ({ change, at, name, says }) => {
    const response = await opened.send("POST", "/api/estimate", changed(await job("tape-echo"), change));
    expect(response.status).toBe(422);
    expect(response.headers.get("content-type")).toBe("application/problem+json");
    const body = (await response.json()) as Refusal;
    expect(body.type).toBe("/problems/input-refused");
    const fault = body.errors.find((error) => error.name === name);
    expect(fault, JSON.stringify(body.errors)).toBeDefined();
    expect(fault!.pointer.startsWith(at)).toBe(true);
    expect(fault!.detail).toContain(says);
    expect(fault!.type).toBe(`/problems/${name.replaceAll(" ", "-")}`);
  });

  const FOLDER = "fixtures/problems";
  const fixtures = readdirSync(FOLDER).filter((file) => file !== "base.json" && file !== "count-missing.json");

  it.each(fixtures)("refuses what %s describes, with the engine's own words", async (file) => {
    const base = JSON.parse(readFileSync(`${FOLDER}/base.json`, "utf8")) as EstimateInput;
    const { change, problems } = JSON.parse(readFileSync(`${FOLDER}/${file}`, "utf8")) as {
      readonly change: readonly Change[];
      readonly problems: readonly { readonly name: string; readonly pointer: string; readonly text: string }[];
    };
    const response = await opened.send("POST", "/api/estimate", changed(base, change));
    expect(response.status).toBe(422);
    const { errors } = (await response.json()) as Refusal;
    expect(errors.map(({ name, pointer, detail }) => ({ name, pointer, text: detail }))).toEqual(problems);
  });

  it("reports every problem of an input, not only the first", async () => {
    const input = changed(await job("tape-echo"), [
      put("/items/0/count", -1),
      put("/items/1/operation", "juggle"),
      put("/unit/grade", "mint"),
    ]);
    const { errors } = (await (await opened.send("POST", "/api/estimate", input)).json()) as Refusal;
    expect(errors.map((error) => error.name)).toEqual(
      expect.arrayContaining(["count negative", "operation unknown", "grade unknown"]),
    );
  });

  const accepted: readonly { readonly what: string; readonly at: string; readonly value: unknown }[] = [
    { what: "a tax of 0 %", at: "/rateBook/tax/categories/0/percent", value: 0 },
    { what: "a tax of 100 %", at: "/rateBook/tax/categories/0/percent", value: 100 },
    { what: "a name in Cyrillic", at: "/unit/maker", value: "Завод Пример" },
    { what: "a name in Greek", at: "/unit/maker", value: "Παράδειγμα" },
    { what: "a name in Czech", at: "/unit/maker", value: "Příklad Žluťoučký" },
    { what: "an emoji", at: "/unit/model", value: "Echo 🎛️" },
    { what: "half an emoji", at: "/unit/model", value: "\ud83c" },
    { what: "right-to-left text", at: "/unit/model", value: "הד 3" },
    { what: "a note of 10,000 characters", at: "/unit/condition", value: "scuffed ".repeat(1250) },
    { what: "line breaks in a note", at: "/unit/condition", value: "one\r\ntwo\n\tthree" },
    { what: "markup in a name", at: "/unit/maker", value: "<script>alert(1)</script>" },
    { what: "a spreadsheet formula in a name", at: "/unit/maker", value: '=HYPERLINK("http://x.invalid")' },
  ];

  it.each(accepted)("takes $what, in the sheet and in both documents", async ({ at, value }) => {
    const input = changed(await job("tape-echo"), [put(at, value)]);
    for (const path of ["/api/estimate", "/api/estimate.pdf", "/api/bench-sheet.pdf"])
      expect((await opened.send("POST", path, input)).status, path).toBe(200);
  });

  it("refuses a key called __proto__ wherever it stands", async () => {
    const text = JSON.stringify(await job("tape-echo")).replace('"schema":1', '"schema":1,"__proto__":{"currency":"EUR"}');
    const response = await opened.call("/api/estimate", {
      method: "POST",
      body: text,
      headers: { "content-type": "application/json" },
    });
    expect(response.status).toBe(422);
  });
});

describe("the body of a request", () => {
  const post = (body: BodyInit, type?: string): RequestInit => ({
    method: "POST",
    body,
    headers: type === undefined ? { origin: "http://localhost:4700" } : { "content-type": type, origin: "http://localhost:4700" },
  });

  it.each(["{", "", "[1,", "{'a':1}", "NaN", '{"a":1}}', "\u0000"])(
    "is refused with 400 when it is the malformed %j",
    async (text) => {
      const response = await opened.call("/api/estimate", post(text, "application/json"));
      expect(response.status).toBe(400);
      expect(await response.json()).toMatchObject({ type: "/problems/json-malformed" });
    },
  );

  it.each([
    "text/plain",
    "text/xml",
    "application/x-www-form-urlencoded",
    "multipart/form-data; boundary=x",
    "application/jsonp",
  ])("is refused with 415 as %s", async (type) => {
    const response = await opened.call("/api/estimate", post("{}", type));
    expect(response.status).toBe(415);
    expect(await response.json()).toMatchObject({ type: "/problems/media-type-unsupported" });
  });

  it("is taken with a charset", async () => {
    const body = JSON.stringify(await job("tape-echo"));
    expect((await opened.call("/api/estimate", post(body, "application/json; charset=utf-8"))).status).toBe(200);
  });

  it("is refused with 413 above 1 MiB, whether or not it says its length", async () => {
    const large = JSON.stringify({ note: "x".repeat(1024 * 1024) });
    const said = await opened.call("/api/estimate", {
      ...post(large, "application/json"),
      headers: { "content-type": "application/json", "content-length": String(large.length) },
    });
    expect(said.status).toBe(413);
    const stream = new ReadableStream({
      start(controller) {
        for (let at = 0; at < large.length; at += 65_536)
          controller.enqueue(new TextEncoder().encode(large.slice(at, at + 65_536)));
        controller.close();
      },
    });
    const streamed = await opened.call("/api/estimate", post(stream, "application/json"));
    expect(streamed.status).toBe(413);
    expect(await streamed.json()).toMatchObject({ type: "/problems/body-too-large" });
  });

  it("may be deep beyond reason without harm", async () => {
    const deep = "[".repeat(200_000) + "]".repeat(200_000);
    expect((await opened.call("/api/estimate", post(deep, "application/json"))).status).toBe(422);
    const inside = JSON.stringify(await job("tape-echo")).replace('"schema":1', `"schema":1,"toOpen":${deep}`);
    expect((await opened.call("/api/estimate", post(inside, "application/json"))).status).toBe(422);
  });
});

describe("an input with too many faults to read", () => {
  it("is answered with the first hundred and how many more there are", async () => {
    const response = await opened.send("POST", "/api/estimate", { ...(await job("tape-echo")), items: Array(5000).fill(1) });
    const { errors, errorsLeftOut } = (await response.json()) as Refusal & { errorsLeftOut: number };
    expect([errors.length, errorsLeftOut]).toEqual([100, 4900]);
  });
});

describe("the documents without a shop", () => {
  it.each(["/api/estimate.pdf", "/api/bench-sheet.pdf", "/api/shop-copy.pdf"])(
    "come as PDF from %s, the same bytes each time",
    async (path) => {
      const input = await job("tape-echo");
      const response = await opened.send("POST", path, input);
      expect(response.status).toBe(200);
      expect(response.headers.get("content-type")).toBe("application/pdf");
      const bytes = new Uint8Array(await response.arrayBuffer());
      expect(new TextDecoder("latin1").decode(bytes.slice(0, 5))).toBe("%PDF-");
      expect(new Uint8Array(await (await opened.send("POST", path, input)).arrayBuffer())).toEqual(bytes);
    },
  );

  it("are refused like the sheet when the input has problems", async () => {
    const input = changed(await job("tape-echo"), [{ at: "/items/0/count", put: -1 }]);
    expect((await opened.send("POST", "/api/estimate.pdf", input)).status).toBe(422);
  });

  it("list the characters the fonts lack in a header", async () => {
    const input = changed(await job("tape-echo"), [{ at: "/unit/model", put: "Echo 語" }]);
    const response = await opened.send("POST", "/api/estimate.pdf", input);
    expect(JSON.parse(decodeURIComponent(response.headers.get("ohmwright-warnings")!))).toContainEqual(
      expect.objectContaining({ is: "missing glyphs", characters: ["語"] }),
    );
  });
});

describe("POST /api/estimate/risk", () => {
  it("tells what the sheet keeps to itself: the risk as the engine sums it up", async () => {
    const input = await job("valve-amplifier");
    const response = await opened.send("POST", "/api/estimate/risk", input);
    const outcome = estimate(input, { risk: true });
    expect(response.status).toBe(200);
    expect(await response.json()).toEqual({ risk: outcome.ok && outcome.sheet.risk });
  });

  it("refuses what does not price, naming each problem", async () => {
    const input = await job("valve-amplifier");
    const bad = { ...input, policy: { ...input.policy, pricing: { is: "fixed price", confidencePercent: 100 } } };
    const response = await opened.send("POST", "/api/estimate/risk", bad);
    expect(response.status).toBe(422);
    expect(((await response.json()) as Refusal).errors[0]).toMatchObject({
      name: "percent out of range",
      pointer: "/policy/pricing/confidencePercent",
    });
  });
});

describe("POST /api/estimate/refined", () => {
  it("names counted boards without changing a cent", async () => {
    const plain = await job("plain-counts");
    const before = (await (await opened.send("POST", "/api/estimate", plain)).json()) as { sheet: { totals: unknown } };
    const { input } = (await (await opened.send("POST", "/api/estimate/refined", plain)).json()) as { input: EstimateInput };
    expect(input.boards).toBeUndefined();
    const after = (await (await opened.send("POST", "/api/estimate", input)).json()) as { sheet: { totals: unknown } };
    expect(after.sheet.totals).toEqual(before.sheet.totals);
  });
});
