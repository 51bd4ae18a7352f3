import { env } from "cloudflare:test";
import { beforeAll, describe, expect, inject, it } from "vitest";
import { assets } from "../../.built/assetNames.js";
import { verifyChain } from "../../src/estimating/agreement/chain.js";
import type { Bindings } from "../../src/http/bindings.js";
import worker from "../../src/worker.js";

const SECRET = "the secret of this test";
const BASE = "https://shop.example";
const whole: Bindings = { OHMWRIGHT_SECRET: SECRET, LIBSQL_URL: inject("libsqlUrl") };

const call = async (path: string, init: RequestInit = {}, bindings: Bindings = whole) =>
  worker.fetch(new Request(BASE + path, { redirect: "manual", ...init }), bindings);

const bearer = { authorization: `Bearer ${SECRET}` };
const send = (method: string, path: string, body: unknown, headers: Record<string, string> = {}) =>
  call(path, { method, body: JSON.stringify(body), headers: { ...bearer, "content-type": "application/json", ...headers } });
// biome-ignore lint/suspicious/noExplicitAny: a JSON body, read field by field
const read = async (response: Response): Promise<any> => response.json();

const hex = async (bytes: ArrayBuffer | Uint8Array<ArrayBuffer>) =>
  [...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

describe("the edge build in workerd", () => {
  beforeAll(async () => {
    await call("/health");
  });

  it("runs in workerd", () => {
    expect(navigator.userAgent).toBe("Cloudflare-Workers");
  });

  it("tells its health to anyone, whatever is not set up", async () => {
    expect(await read(await call("/health"))).toEqual({ status: "ok", database: "as expected" });
    const silent = await call("/health", {}, { LIBSQL_URL: "http://127.0.0.1:1" });
    expect([silent.status, await read(silent)]).toEqual([503, { status: "failing", database: "silent" }]);
    expect(await read(await call("/health", {}, {}))).toEqual({ status: "failing", database: "not set up" });
  });

  it.each([{}, { LIBSQL_URL: "http://127.0.0.1:1" }, { OHMWRIGHT_SECRET: "short", LIBSQL_URL: "http://127.0.0.1:1" }])(
    "lets nobody in with the bindings %j",
    async (bindings) => {
      for (const path of ["/", "/api/owners", "/sign-in"])
        expect((await call(path, { headers: bearer }, bindings)).status).toBe(503);
    },
  );

  it("hands out what browsers load, which stands beside the program", async () => {
    const { ASSETS } = env as Bindings;
    for (const [path, { type, etag }] of Object.entries(assets)) {
      const answer = await call(path, {}, { ...whole, ASSETS: ASSETS! });
      expect([answer.status, answer.headers.get("content-type"), answer.headers.get("etag")], path).toEqual([
        200,
        type,
        `"${etag}"`,
      ]);
      expect(answer.headers.get("x-content-type-options")).toBe("nosniff");
      expect((await hex(await answer.arrayBuffer())).slice(0, 10), path).toBe(etag);
    }
  });

  it("wants the secret", async () => {
    for (const path of ["/", "/api/owners", "/openapi.json", "/api/estimates", "/nothing"])
      expect((await call(path)).status, path).toBe(401);
    expect((await call("/api/owners", { headers: { authorization: "Bearer wrong" } })).status).toBe(401);
    const page = await call("/", { headers: { accept: "text/html" } });
    expect([page.status, page.headers.get("location")]).toEqual([303, "/sign-in?to=%2F"]);
    expect((await call("/api/owners", { headers: bearer })).status).toBe(200);
  });

  it("signs a browser in with a cookie of this host alone, and shows it the first page", async () => {
    expect(await (await call("/sign-in")).text()).toContain("<form");
    const signedIn = await call("/sign-in", {
      method: "POST",
      body: new URLSearchParams({ secret: SECRET }),
      headers: { origin: BASE },
    });
    expect(signedIn.status).toBe(303);
    const cookie = signedIn.headers.get("set-cookie")!;
    expect(cookie).toMatch(/^__Host-ohmwright=.*HttpOnly; Secure; SameSite=Lax$/);
    const first = await call("/", { headers: { cookie: cookie.split(";")[0]!, accept: "text/html" } });
    expect(first.status).toBe(200);
    expect(first.headers.get("content-security-policy")).not.toContain("unsafe");
    expect(first.headers.get("strict-transport-security")).toBeTruthy();
  });

  it.each(inject("inputs"))("prices $name to the same bytes as Node", async ({ input, sheet }) => {
    const response = await send("POST", "/api/estimate", input);
    expect(response.status).toBe(200);
    expect(await hex(await response.arrayBuffer())).toBe(sheet);
  });

  it("names what is wrong with an input", async () => {
    const [first] = inject("inputs");
    const response = await send("POST", "/api/estimate", { ...first!.input, currency: "QQQ" });
    expect(response.status).toBe(422);
    expect((await read(response)).errors.map(({ name }: { name: string }) => name)).toContain("currency unknown");
  });

  it.each(["/api/estimate.pdf", "/api/bench-sheet.pdf"])("prints %s, the same bytes each time", async (path) => {
    const [first] = inject("inputs");
    const response = await send("POST", path, first!.input);
    expect([response.status, response.headers.get("content-type")]).toEqual([200, "application/pdf"]);
    const bytes = new Uint8Array(await response.arrayBuffer());
    expect(new TextDecoder().decode(bytes.slice(0, 5))).toBe("%PDF-");
    expect(new Uint8Array(await (await send("POST", path, first!.input)).arrayBuffer())).toEqual(bytes);
  });

  it("keeps a record over HTTP: added once, changed by the one who saw it last", async () => {
    const added = await send("POST", "/api/owners", { name: "Ottilie Vantongeren" }, { "idempotency-key": '"one"' });
    expect(added.status).toBe(201);
    const again = await send("POST", "/api/owners", { name: "Ottilie Vantongeren" }, { "idempotency-key": '"one"' });
    expect([again.headers.get("location"), again.headers.get("idempotency-replayed")]).toEqual([
      added.headers.get("location"),
      "true",
    ]);
    const path = added.headers.get("location")!;
    const change = (name: string) => send("PUT", path, { name }, { "if-match": '"1"' });
    const answers = await Promise.all([change("First"), change("Second"), change("Third")]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 412, 412]);
    expect(await read(await call(path, { headers: bearer }))).toMatchObject({ version: 2 });
    expect((await call(path, { headers: { ...bearer, "if-none-match": '"2"' } })).status).toBe(304);
  });

  it("tells an id in use and a link to nobody, as on a file", async () => {
    expect((await send("POST", "/api/owners", { id: "mine", name: "One" })).status).toBe(201);
    expect((await send("POST", "/api/owners", { id: "mine", name: "Two" })).status).toBe(409);
    const { items } = await read(await call("/api/models?limit=1", { headers: bearer }));
    const { maker, model, map } = items[0];
    expect((await send("POST", "/api/models", { maker, model, map })).status).toBe(409);
    expect((await send("POST", "/api/units", { ownerId: "nobody", maker: "m", model: "n" })).status).toBe(422);
  });

  it("takes a job from number to issued estimate", async () => {
    const { items: owned } = await read(await call("/api/units?limit=1", { headers: bearer }));
    const added = await Promise.all(
      [1, 2, 3].map(() => send("POST", "/api/jobs", { ownerId: owned[0].ownerId, unitId: owned[0].id, arrivedOn: "2031-05-06" })),
    );
    const jobs = await Promise.all(added.map(read));
    expect(jobs.map(({ number }) => number).sort()).toEqual(["J-2031-0001", "J-2031-0002", "J-2031-0003"]);

    const { rateBook, ...about } = inject("inputs")[1]!.input;
    // Facts of the unit are those on record.
    const { maker, model } = owned[0];
    const input = { ...about, unit: { maker, model, grade: about.unit.grade } };
    const value = { jobId: jobs[0].id, rateBookId: rateBook.id, rateBookVersion: rateBook.version, input };
    const draft = await send("POST", "/api/estimates", value);
    expect(draft.status).toBe(201);
    const path = draft.headers.get("location")!;
    const issued = await send("POST", `${path}/issue`, { by: "W" }, { "if-match": '"1"' });
    expect(await read(issued)).toMatchObject({ version: 2, issuedBy: "W", revision: 1 });
    expect((await send("PUT", path, value, { "if-match": '"2"' })).status).toBe(409);
    const pdf = await call(`${path}/estimate.pdf`, { headers: bearer });
    expect([pdf.status, pdf.headers.get("content-type")]).toEqual([200, "application/pdf"]);
  });

  it("issues, sends, takes the owner's answer by the link, and keeps every event in one chain, over HTTP", async () => {
    const { items } = await read(await call("/api/estimates?limit=50", { headers: bearer }));
    const draft = items.find(({ issuedAt, sheet }: { issuedAt?: string; sheet?: object }) => !issuedAt && sheet);
    const path = `/api/estimates/${draft.id}`;
    const issue = () => send("POST", `${path}/issue`, { by: "W" }, { "if-match": `"${draft.version}"` });
    const issued = await Promise.all([issue(), issue(), issue()]);
    expect(issued.map(({ status }) => status).sort()).toEqual([200, 409, 409]);
    const kept = await read(await call(`${path}/issue`, { headers: bearer }));
    const pdf = await (await call(`${path}/estimate.pdf`, { headers: bearer })).arrayBuffer();
    expect(await hex(pdf)).toBe(kept.pdfHash);

    const made = await read(await send("POST", `${path}/owner-links`, { by: "W", deliveredTo: "a@b.example" }));
    expect(made.address).toMatch(/^https:\/\/shop\.example\/o#/);
    const form = (to: string, fields: Record<string, string>, headers: Record<string, string> = {}) =>
      call(to, { method: "POST", body: new URLSearchParams(fields), headers: { origin: BASE, ...headers } });
    const entered = await form("/o/entry", { link: made.address.split("#")[1] });
    expect([entered.status, entered.headers.get("set-cookie")]).toEqual([303, expect.stringMatching(/^__Host-ohmwright-owner=/)]);
    const cookie = entered.headers.get("set-cookie")!.split(";")[0]!;
    const view = await read(await call("/o/estimate", { headers: { cookie } }));
    expect(view.paper).toMatchObject({ contentHash: kept.contentHash, pdfHash: kept.pdfHash });
    expect(await hex(await (await call("/o/estimate.pdf", { headers: { cookie } })).arrayBuffer())).toBe(kept.pdfHash);
    expect((await call("/o/estimate")).status).toBe(401);
    expect((await call("/api/owners", { headers: { cookie } })).status).toBe(401);

    const fields = { hash: view.paper.contentHash, answer: "agreed", name: "Ottilie", amount: String(view.sheet.totals.total) };
    const chosen = new URLSearchParams([...Object.entries(fields), ...view.choice.chosen.map((id: string) => ["chosen", id])]);
    const agree = () =>
      call("/o/agreement", { method: "POST", body: chosen, headers: { origin: BASE, cookie, "cf-connecting-ip": "192.0.2.8" } });
    const answers = await Promise.all([agree(), agree(), agree()]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 200, 201]);
    const { items: agreements } = await read(await call(`/api/jobs/${draft.jobId}/agreements`, { headers: bearer }));
    expect(agreements).toMatchObject([
      { address: "192.0.2.8", deliveredTo: "a@b.example", pdfHash: kept.pdfHash, amount: view.sheet.totals.total },
    ]);

    const { items: events } = await read(await call(`/api/jobs/${draft.jobId}/events`, { headers: bearer }));
    expect(events.map(({ is }: { is: string }) => is)).toEqual(["draft begun", "issued", "link made", "link made", "answered"]);
    expect(await verifyChain(events, async (text) => hex(new TextEncoder().encode(text)))).toMatchObject({ ok: true });
  });

  it("counts wrong secrets per caller, whom the edge names", async () => {
    const from = (address: string, secret: string) =>
      call("/api/owners", { headers: { authorization: `Bearer ${secret}`, "cf-connecting-ip": address } }).then(
        ({ status }) => status,
      );
    for (let n = 0; n < 10; n++) expect(await from("192.0.2.1", "wrong")).toBe(401);
    expect(await from("192.0.2.1", SECRET)).toBe(429);
    expect(await from("192.0.2.2", SECRET)).toBe(200);
  });

  it("refuses a body above 1 MiB and one that is not JSON", async () => {
    expect((await send("POST", "/api/estimate", "x".repeat(1024 * 1024))).status).toBe(413);
    const malformed = await call("/api/estimate", {
      method: "POST",
      body: "{",
      headers: { ...bearer, "content-type": "application/json" },
    });
    expect(malformed.status).toBe(400);
  });
});
