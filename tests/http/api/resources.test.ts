import { describe, expect, it } from "vitest";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { BARE_JOB, demo, job as jobFixture, shop } from "../support/shop.js";

type Shop = Awaited<ReturnType<typeof shop>>;
// biome-ignore lint/suspicious/noExplicitAny: a JSON body, read field by field
const read = async (response: Response): Promise<any> => response.json();

/** One valid value of each noun, in the demo shop; and a change to it. */
async function values() {
  const { owners, units, models, partKinds, rateBook } = await demo();
  const { id: _id, version: _version, ...book } = rateBook;
  const { rateBook: _book, ...input } = await jobFixture("tape-echo");
  const unit = { ownerId: owners[0]!.id, modelId: models[0]!.id, maker: "Quellmarsh", model: "Solivane 49" };
  return [
    { path: "/api/owners", value: { name: "Ottilie Vantongeren" }, change: { phone: "01632 960999" } },
    { path: "/api/units", value: unit, change: { serial: "S49-9" } },
    {
      path: "/api/models",
      value: { maker: "Quellmarsh", model: "Solivane 61", map: models[0]!.map },
      change: { notes: "Five octaves." },
    },
    { path: "/api/rate-books", value: book, change: { name: "Winter rates" } },
    { path: "/api/part-kinds", value: { type: partKinds[0]!.type, name: "Electrolytic 47u 63 V" }, change: { stock: 12 } },
    {
      path: "/api/offers",
      value: {
        kind: partKinds[0]!.id,
        source: "Pindrake Components",
        on: "2026-11-20",
        currency: "GBP",
        price: 120,
        packSize: 10,
        leadDays: 2,
        state: "new",
        seenGood: { good: 49, bad: 1 },
      },
      change: { price: 130 },
    },
    {
      path: "/api/jobs",
      value: { ownerId: owners[0]!.id, unitId: units[0]!.id, arrivedOn: "2026-11-25" },
      change: { reported: "Silent." },
    },
    {
      path: "/api/estimates",
      value: { jobId: BARE_JOB, rateBookId: rateBook.id, rateBookVersion: rateBook.version, input },
      change: { input: { ...input, asOf: "2026-11-26" } },
    },
  ] as const;
}

const paths = ["owners", "units", "models", "rate-books", "part-kinds", "offers", "jobs", "estimates"].map(
  (name) => `/api/${name}`,
);
const valid = async (path: string) => (await values()).find((noun) => noun.path === path)!;

describe.each(paths)("%s", (path) => {
  it("adds a record, answers 201 with its address and version, and gives it back", async () => {
    const { send, call } = await shop();
    const { value } = await valid(path);
    const added = await send("POST", path, value);
    expect(added.status).toBe(201);
    const record = await read(added);
    expect(added.headers.get("location")).toBe(`${path}/${record.id}`);
    expect(added.headers.get("etag")).toBe('"1"');
    const found = await call(added.headers.get("location")!);
    expect(found.headers.get("etag")).toBe('"1"');
    expect(await read(found)).toEqual(
      path === "/api/jobs" ? { ...record, state: "draft", next: "put the estimate right" } : record,
    );
    expect(record).toMatchObject(path === "/api/rate-books" ? { book: value } : value);
  });

  it("takes an id of the client's own, once", async () => {
    const { send } = await shop();
    const { value } = await valid(path);
    expect((await send("POST", path, { ...value, id: "mine" })).headers.get("location")).toBe(`${path}/mine`);
    const again = await send("POST", path, { ...value, id: "mine" });
    expect(again.status).toBe(409);
    expect(await read(again)).toMatchObject({ type: "/problems/id-taken" });
  });

  it("replaces a record whose version is the one last seen", async () => {
    const { send, call } = await shop();
    const { value, change } = await valid(path);
    const { id } = await read(await send("POST", path, value));
    const replaced = await send("PUT", `${path}/${id}`, { ...value, ...change }, { "if-match": '"1"' });
    expect(replaced.status).toBe(200);
    expect(replaced.headers.get("etag")).toBe('"2"');
    const record = await read(await call(`${path}/${id}`));
    expect(record.version).toBe(2);
    expect(path === "/api/rate-books" ? record.book : record).toMatchObject(change);
  });

  it("refuses a change without If-Match with 428, and a stale or weak one with 412", async () => {
    const { send } = await shop();
    const { value, change } = await valid(path);
    const { id } = await read(await send("POST", path, value));
    const put = (headers: Record<string, string>) => send("PUT", `${path}/${id}`, { ...value, ...change }, headers);
    expect((await put({})).status).toBe(428);
    expect((await put({ "if-match": 'W/"1"' })).status).toBe(412);
    expect((await put({ "if-match": '"0", "1"' })).status).toBe(200);
    const stale = await put({ "if-match": '"1"' });
    expect(stale.status).toBe(412);
    expect(stale.headers.get("etag")).toBe('"2"');
    expect((await put({ "if-match": "*" })).status).toBe(200);
  });

  it("lets exactly one of several changes to the same version through", async () => {
    const { send, call } = await shop();
    const { value, change } = await valid(path);
    const { id } = await read(await send("POST", path, value));
    const answers = await Promise.all(
      Array.from({ length: 8 }, () => send("PUT", `${path}/${id}`, { ...value, ...change }, { "if-match": '"1"' })),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, ...Array(7).fill(412)]);
    expect((await read(await call(`${path}/${id}`))).version).toBe(2);
  });

  it("answers 304 while nothing changed", async () => {
    const { send, call } = await shop();
    const { value } = await valid(path);
    const { id } = await read(await send("POST", path, value));
    const get = (tag: string) => call(`${path}/${id}`, { headers: { "if-none-match": tag } });
    // The state of a job moves without its version.
    const same = path === "/api/jobs" ? 200 : 304;
    expect((await get('"1"')).status).toBe(same);
    expect((await get('"9", W/"1"')).status).toBe(same);
    expect((await get('"2"')).status).toBe(200);
  });

  it("lists every record once, page by page along the Link header", async () => {
    const { send, call } = await shop();
    const { value } = await valid(path);
    const single = path === "/api/models" ? [0, 1] : [0, 1, 2];
    for (const n of single) await send("POST", path, path === "/api/models" ? { ...value, model: `Other ${n}` } : value);
    const whole = (await read(await call(`${path}?limit=200`))).items.map(({ id }: { id: string }) => id);
    expect(whole.length).toBeGreaterThanOrEqual(single.length);
    const seen: string[] = [];
    let next: string | undefined = `${path}?limit=2`;
    while (next) {
      const response: Response = await call(next);
      seen.push(...(await read(response)).items.map(({ id }: { id: string }) => id));
      next = /^<([^>]+)>; rel="next"$/.exec(response.headers.get("link") ?? "")?.[1];
    }
    expect(seen).toEqual(whole);
  });

  it("refuses what it cannot read in an address", async () => {
    const { call } = await shop();
    for (const query of ["limit=0", "limit=201", "limit=ten", "limit=1.5", "colour=red"]) {
      const response = await call(`${path}?${query}`);
      expect(response.status, query).toBe(400);
      expect(await read(response)).toMatchObject({ type: "/problems/query-refused" });
    }
    expect((await call(`${path}/${"x".repeat(101)}`)).status).toBe(400);
  });

  it("answers 404 for a record that is not there, whatever is asked of it", async () => {
    const { call, send } = await shop();
    const { value } = await valid(path);
    expect((await call(`${path}/nobody`)).status).toBe(404);
    expect((await send("PUT", `${path}/nobody`, value, { "if-match": '"1"' })).status).toBe(404);
  });

  it("answers 405 with Allow to a method it does not take", async () => {
    const { call } = await shop();
    const headers = { "content-type": "application/json" };
    const list = await call(path, { method: "DELETE", headers });
    expect([list.status, list.headers.get("allow")]).toEqual([405, "GET, HEAD, POST"]);
    const one = await call(`${path}/x`, { method: "PATCH", headers });
    expect([one.status, one.headers.get("allow")]).toEqual([405, "GET, HEAD, PUT"]);
  });

  it("refuses a key it does not know and names it", async () => {
    const { send } = await shop();
    const { value } = await valid(path);
    const response = await send("POST", path, { ...value, colour: "red" });
    expect(response.status).toBe(422);
    expect((await read(response)).errors).toContainEqual(expect.objectContaining({ name: "key unknown", pointer: "/colour" }));
  });
});

describe("records that name others", () => {
  it.each([
    ["/api/units", "ownerId"],
    ["/api/units", "modelId"],
    ["/api/offers", "kind"],
    ["/api/jobs", "ownerId"],
    ["/api/jobs", "unitId"],
    ["/api/estimates", "jobId"],
    ["/api/estimates", "rateBookId"],
  ])("are refused in %s when %s names nobody", async (path, field) => {
    const { send } = await shop();
    const { value } = await valid(path);
    const response = await send("POST", path, { ...value, [field]: "nobody" });
    expect(response.status).toBe(422);
    expect((await read(response)).errors).toContainEqual(
      expect.objectContaining({ name: "record unknown", pointer: `/${field}` }),
    );
  });

  it.each([
    ["/api/units", "owner", "ownerId"],
    ["/api/offers", "kind", "kind"],
    ["/api/jobs", "unit", "unitId"],
    ["/api/estimates", "job", "jobId"],
  ])("can be listed in %s by %s", async (path, query, field) => {
    const { call, send } = await shop();
    const { value } = await valid(path);
    await send("POST", path, value);
    const wanted = (value as Record<string, unknown>)[field] as string;
    const { items } = await read(await call(`${path}?limit=200&${query}=${encodeURIComponent(wanted)}`));
    const all = (await read(await call(`${path}?limit=200`))).items as Record<string, unknown>[];
    expect(items).toEqual(all.filter((item) => item[field] === wanted));
    expect(items.length).toBeGreaterThan(0);
  });
});

describe("what the engine has to say", () => {
  it("keeps a cyclic map out of the models", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/models");
    const map = structuredClone((await demo()).models[0]!.map) as unknown as { assemblies: { id: string; behind?: string[] }[] };
    map.assemblies[0]!.behind = [map.assemblies[0]!.id];
    const response = await send("POST", "/api/models", { ...value, map });
    expect(response.status).toBe(422);
    const { errors } = await read(response);
    expect(errors[0].pointer).toMatch(/^\/map/);
    expect(errors.map(({ name }: { name: string }) => name)).toContain("behind cycle");
  });

  it("keeps a tax of 200 % out of the rate books", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/rate-books");
    const book = structuredClone(value) as unknown as { tax: { categories: { percent: number }[] } };
    book.tax.categories[0]!.percent = 200;
    const response = await send("POST", "/api/rate-books", book);
    expect(response.status).toBe(422);
    expect((await read(response)).errors[0]).toMatchObject({
      name: "percent out of range",
      pointer: "/tax/categories/0/percent",
    });
  });

  it("keeps prices in another currency out of the offers", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/offers");
    const response = await send("POST", "/api/offers", { ...value, currency: "EUR" });
    expect((await read(response)).errors[0]).toMatchObject({ name: "currency differs", pointer: "/currency" });
  });

  it("counts pieces seen whole, and says which count is not", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/offers");
    const response = await send("POST", "/api/offers", { ...value, seenGood: { good: 4, bad: -1 } });
    expect((await read(response)).errors[0]).toMatchObject({ name: "count negative", pointer: "/seenGood/bad" });
  });

  it("keeps a part type that is not in the rate book out of the catalogue", async () => {
    const { send } = await shop();
    const response = await send("POST", "/api/part-kinds", { type: "flux", name: "Flux" });
    expect((await read(response)).errors[0]).toMatchObject({ name: "part type unknown", pointer: "/type" });
  });

  it("keeps a value out of the catalogue that cannot be read in the figures of its type", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/part-kinds");
    const response = await send("POST", "/api/part-kinds", { ...value, value: "about ten" });
    expect((await read(response)).errors[0]).toMatchObject({ name: "value unreadable", pointer: "/value" });
  });

  it("takes a part type and a part kind by name, and keeps its id", async () => {
    const { send } = await shop();
    const [{ value: kind }, { value: offer }, { partKinds, rateBook }] = [
      await valid("/api/part-kinds"),
      await valid("/api/offers"),
      await demo(),
    ];
    const { id, name } = rateBook.partTypes.find((type) => type.id === partKinds[0]!.type)!;
    expect(await read(await send("POST", "/api/part-kinds", { ...kind, type: name.toUpperCase() }))).toMatchObject({ type: id });
    expect(await read(await send("POST", "/api/offers", { ...offer, kind: partKinds[0]!.name }))).toMatchObject({
      kind: partKinds[0]!.id,
    });
  });

  it("keeps an estimate with problems out, pointing into its input", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/estimates");
    const bad = structuredClone(value) as unknown as { input: { items: { count: number }[] } };
    bad.input.items[0]!.count = -1;
    const response = await send("POST", "/api/estimates", bad);
    expect(response.status).toBe(422);
    expect((await read(response)).errors[0]).toMatchObject({ name: "count negative", pointer: "/input/items/0/count" });
  });
});

describe("the same maker and model", () => {
  it("stand once, whatever their capitals", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/models");
    expect((await send("POST", "/api/models", value)).status).toBe(201);
    const again = await send("POST", "/api/models", { ...value, maker: "QUELLMARSH" });
    expect(again.status).toBe(409);
    const { detail, current } = await read(again);
    expect(detail).toBe(`Quellmarsh Solivane 61 is on record already, as '${current.id}'; change that one.`);
  });
});

describe("rate book versions", () => {
  it("all stay, each as it was", async () => {
    const { send, call } = await shop();
    const { value } = await valid("/api/rate-books");
    const { id } = await read(await send("POST", "/api/rate-books", value));
    await send("PUT", `/api/rate-books/${id}`, { ...value, name: "Second" }, { "if-match": '"1"' });
    const version = async (n: number) => (await read(await call(`/api/rate-books/${id}/versions/${n}`))).book;
    expect(await version(1)).toEqual({ ...value, id, version: 1 });
    expect(await version(2)).toEqual({ ...value, name: "Second", id, version: 2 });
    expect((await call(`/api/rate-books/${id}/versions/3`)).status).toBe(404);
  });
});

describe("job numbers", () => {
  it("run without gaps, also when many are added at once", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/jobs");
    const before = (await demo()).jobs.length;
    const added = await Promise.all(Array.from({ length: 12 }, () => send("POST", "/api/jobs", value)));
    const numbers = await Promise.all(added.map(async (response) => (await read(response)).number));
    expect(numbers.sort()).toEqual(Array.from({ length: 12 }, (_, n) => `J-2026-${String(before + n + 1).padStart(4, "0")}`));
  });

  it("start again with the year", async () => {
    const { send } = await shop();
    const { value } = await valid("/api/jobs");
    expect((await read(await send("POST", "/api/jobs", { ...value, arrivedOn: "2027-01-02" }))).number).toBe("J-2027-0001");
  });
});

describe("an estimate's life", () => {
  const draft = async ({ send }: Shop) => read(await send("POST", "/api/estimates", (await valid("/api/estimates")).value));

  it("holds the sheet of its input, and the same input gives the same content hash", async () => {
    const opened = await shop();
    const first = await draft(opened);
    const { sheet } = await read(await opened.send("POST", "/api/estimate", await jobFixture("tape-echo")));
    expect(first.sheet).toEqual(sheet);
    expect(await read(await opened.call(`/api/estimates/${first.id}/sheet`))).toEqual({
      sheet,
      neverMore: sheet.ceiling.amount,
    });
    const { ownerId, unitId } = await read(await opened.call(`/api/jobs/${BARE_JOB}`));
    const job = await read(await opened.send("POST", "/api/jobs", { ownerId, unitId, arrivedOn: "2026-11-25" }));
    const value = { ...(await valid("/api/estimates")).value, jobId: job.id };
    const second = await read(await opened.send("POST", "/api/estimates", value));
    expect(second.contentHash).toBe(first.contentHash);
  });

  it("ends in an issue, with who and when, after which nothing changes it", async () => {
    const opened = await shop();
    const { value } = await valid("/api/estimates");
    const { id } = await draft(opened);
    const issue = (headers: Record<string, string>) =>
      opened.send("POST", `/api/estimates/${id}/issue`, { by: "Wilhelmina" }, headers);
    expect((await issue({})).status).toBe(428);
    expect((await issue({ "if-match": '"7"' })).status).toBe(412);
    const issued = await issue({ "if-match": '"1"' });
    expect(issued.status).toBe(200);
    const record = await read(issued);
    expect(record).toMatchObject({ version: 2, issuedBy: "Wilhelmina", issuedAt: "2026-11-25T09:00:00.000Z" });
    expect(record.input.paperwork).toMatchObject({
      number: "J-2025-0001",
      date: "2026-11-25",
      shop: { name: expect.any(String) },
    });
    for (const response of [
      await issue({ "if-match": '"2"' }),
      await opened.send("PUT", `/api/estimates/${id}`, value, { "if-match": '"2"' }),
    ]) {
      expect(response.status).toBe(409);
      expect(await read(response)).toMatchObject({ type: "/problems/estimate-issued" });
    }
    expect(await read(await opened.call(`/api/estimates/${id}`))).toEqual(record);
  });

  it("keeps the paperwork it was issued with when the owner moves house", async () => {
    const opened = await shop();
    const { id, jobId } = await draft(opened);
    await opened.send("POST", `/api/estimates/${id}/issue`, { by: "W" }, { "if-match": '"1"' });
    const before = await (await opened.call(`/api/estimates/${id}/estimate.pdf`)).arrayBuffer();
    const { ownerId } = await read(await opened.call(`/api/jobs/${jobId}`));
    await opened.send("PUT", `/api/owners/${ownerId}`, { name: "Someone Else" }, { "if-match": '"1"' });
    opened.pass(40 * 24 * 3_600_000);
    expect(await (await opened.call(`/api/estimates/${id}/estimate.pdf`)).arrayBuffer()).toEqual(before);
  });

  it("gives its documents, named after the job", async () => {
    const opened = await shop();
    const { id } = await draft(opened);
    for (const name of ["estimate", "bench-sheet", "shop-copy"]) {
      const response = await opened.call(`/api/estimates/${id}/${name}.pdf`);
      expect(response.status).toBe(200);
      expect(response.headers.get("content-disposition")).toMatch(
        new RegExp(`^attachment; filename="${name}-J-2025-0001-\\d+\\.pdf"$`),
      );
    }
    expect((await opened.call("/api/estimates/nobody/estimate.pdf")).status).toBe(404);
  });

  it("prices old drafts by the rate book version they name, whatever came later", async () => {
    const opened = await shop();
    const { id, sheet, rateBookId } = await draft(opened);
    const { book, version } = await read(await opened.call(`/api/rate-books/${rateBookId}`));
    const { id: _id, version: _version, ...value } = book as EstimateInput["rateBook"];
    const dearer = {
      ...value,
      labourClasses: value.labourClasses.map((kind) => ({ ...kind, ratePerHour: kind.ratePerHour * 2 })),
    };
    await opened.send("PUT", `/api/rate-books/${rateBookId}`, dearer, { "if-match": `"${version}"` });
    expect((await read(await opened.call(`/api/estimates/${id}/sheet`))).sheet).toEqual(sheet);
  });
});

describe("the shop's settings", () => {
  it("are one record, changed like the others", async () => {
    const { call, send } = await shop();
    const found = await call("/api/settings");
    const { id: _id, version: _version, createdAt: _createdAt, updatedAt: _updatedAt, ...value } = await read(found);
    expect((await send("PUT", "/api/settings", { ...value, paper: "Letter" })).status).toBe(428);
    const put = await send("PUT", "/api/settings", { ...value, paper: "Letter" }, { "if-match": found.headers.get("etag")! });
    expect([put.status, (await read(put)).paper]).toEqual([200, "Letter"]);
    expect((await call("/api/settings", { headers: { "if-none-match": '"2"' } })).status).toBe(304);
  });

  it.each([
    ["timeZone", "Mars/Olympus", "time zone unreadable"],
    ["locale", "??", "locale unreadable"],
    ["rateBookId", "nobody", "record unknown"],
  ])("refuse a %s that is none", async (field, wrong, name) => {
    const { call, send } = await shop();
    const {
      id: _id,
      version: _version,
      createdAt: _createdAt,
      updatedAt: _updatedAt,
      ...value
    } = await read(await call("/api/settings"));
    const response = await send("PUT", "/api/settings", { ...value, [field]: wrong }, { "if-match": '"1"' });
    expect(response.status).toBe(422);
    expect((await read(response)).errors).toContainEqual(expect.objectContaining({ name, pointer: `/${field}` }));
  });
});
