import { describe, expect, it } from "vitest";
import type { AppOptions } from "../../../src/http/app/app.js";
import { photoFolder } from "../../../src/records/photoFolder.js";
import { BASE } from "../support/documented.js";
import { shop } from "../support/shop.js";

const SECRET = "a secret of the shop";
const guarded = (options: Partial<AppOptions> = {}) => shop({ guard: "secret", secretOf: () => SECRET, ...options });
const bearer = (secret: string) => ({ headers: { authorization: `Bearer ${secret}` } });
const page = { headers: { accept: "text/html,application/xhtml+xml" } };

const form = (fields: Record<string, string>, headers: Record<string, string> = { origin: BASE }): RequestInit => ({
  method: "POST",
  body: new URLSearchParams(fields),
  headers,
});

describe("a server on loopback", () => {
  it.each(["localhost", "localhost:4700", "127.0.0.1:4700", "[::1]:4700"])("answers as %s", async (host) => {
    const { call } = await shop();
    expect((await call("/api/owners", { headers: { host } })).status).toBe(200);
  });

  it.each([
    "evil.example",
    "localhost.evil.example",
    "127.0.0.1.evil.example:4700",
    "localhost:4700@evil.example",
    "192.168.1.4",
  ])("refuses to be reached as %s (DNS rebinding)", async (host) => {
    const { call } = await shop();
    const response = await call("/api/owners", { headers: { host } });
    expect(response.status).toBe(403);
    expect(await response.json()).toMatchObject({ type: "/problems/host-unknown" });
  });
});

describe("a change", () => {
  const json = (headers: Record<string, string>): RequestInit => ({
    method: "POST",
    body: '{"name":"Ann"}',
    headers: { "content-type": "application/json", ...headers },
  });

  it.each([
    [{ "sec-fetch-site": "same-origin" }, 201],
    [{ "sec-fetch-site": "none" }, 201],
    [{ origin: "http://localhost:4700" }, 201],
    [{}, 201],
    [{ "sec-fetch-site": "cross-site" }, 403],
    [{ "sec-fetch-site": "same-site" }, 403],
    [{ "sec-fetch-site": "cross-site", origin: "http://localhost:4700" }, 403],
    [{ origin: "http://evil.example" }, 403],
    [{ origin: "http://localhost:4701" }, 403],
    [{ origin: "null" }, 403],
  ])("with %j is answered %i", async (headers, status) => {
    const { call } = await shop();
    expect((await call("/api/owners", json(headers as Record<string, string>))).status).toBe(status);
  });

  it.each([
    ["/estimates/new", "application/x-www-form-urlencoded"],
    ["/models/import", "multipart/form-data; boundary=x"],
    ["/sign-out", undefined],
  ])("that a plain form could send to %s is refused when it does not say where it comes from", async (path, type) => {
    const { call } = await shop();
    const body = type ? { body: "name=Ann", headers: { "content-type": type } } : {};
    expect((await call(path, { method: "POST", ...body })).status).toBe(403);
  });
});

describe("before anyone asks where a request comes from or who sent it", () => {
  const foreign = { origin: "http://evil.example" };

  it.each([
    ["/api/owners", "application/x-www-form-urlencoded", "application/json"],
    ["/api/owners", "multipart/form-data; boundary=x", "application/json"],
    ["/api/owners", "text/plain", "application/json"],
    ["/api/owners", "application/jsonp", "application/json"],
    ["/estimates/new", "application/json", "application/x-www-form-urlencoded"],
    ["/jobs/x/photos", "application/x-www-form-urlencoded", "multipart/form-data"],
    ["/api/logos", "image/gif", "image/png or image/jpeg"],
    ["/api/restore", "text/csv", "application/gzip"],
  ])("POST %s as %s is told that it takes %s", async (path, type, taken) => {
    const { call } = await guarded();
    const answer = await call(path, { method: "POST", body: "x", headers: { ...foreign, "content-type": type } });
    const { type: name, detail } = (await answer.json()) as { type: string; detail: string };
    expect([answer.status, name]).toEqual([415, "/problems/media-type-unsupported"]);
    expect(detail).toContain(` as ${taken}.`);
  });

  it.each([
    ["DELETE", "/api/owners", "GET, HEAD, POST"],
    ["POST", "/health", "GET, HEAD"],
    ["PUT", "/jobs/x/links/y/withdrawal", "GET, HEAD, POST"],
  ])("%s %s is told which methods it takes", async (method, path, allow) => {
    const { call } = await guarded();
    const answer = await call(path, { method, headers: foreign });
    expect([answer.status, answer.headers.get("allow")]).toEqual([405, allow]);
    const options = await call(path, { method: "OPTIONS", headers: foreign });
    expect([options.status, options.headers.get("allow")]).toEqual([204, allow]);
  });
});

describe("every answer", () => {
  it("carries the security headers, and no policy allows inline code", async () => {
    const { call } = await shop();
    for (const path of ["/", "/health", "/api/owners", "/nothing", "/style-0123abcd.css", "/openapi.json"]) {
      const { headers } = await call(path);
      const policy = headers.get("content-security-policy") ?? "";
      expect(policy, path).toContain("default-src 'none'");
      expect(policy, path).toContain("frame-ancestors 'none'");
      expect(policy, path).not.toMatch(/unsafe-|\*|data:|nonce/);
      expect(headers.get("x-content-type-options"), path).toBe("nosniff");
      expect(headers.get("referrer-policy"), path).toBe("same-origin");
      expect(headers.get("x-request-id"), path).toMatch(/^[0-9a-f-]{36}$/);
      expect(headers.get("cache-control"), path).toBeTruthy();
      expect(headers.get("strict-transport-security"), path).toBeNull();
    }
  });

  it("over HTTPS asks for HTTPS from then on", async () => {
    const { app } = await guarded();
    expect((await app.request("https://shop.example/health")).headers.get("strict-transport-security")).toMatch(/max-age=\d{8}/);
  });

  it("leaves one line in the log, without query, body, header or address", async () => {
    const { call, send, lines } = await shop();
    await call("/api/units?owner=Ottilie", { headers: { authorization: "Bearer hush" } });
    await send("POST", "/api/owners", { name: "Ottilie Vantongeren" });
    expect(lines).toHaveLength(2);
    const [first] = lines.map((line) => JSON.parse(line));
    expect(first).toEqual({
      at: "2026-11-25T09:00:00.000Z",
      request: expect.any(String),
      method: "GET",
      route: "/api/units",
      status: 200,
      ms: 0,
    });
    expect(lines.join()).not.toMatch(/Ottilie|hush/);
  });

  it("names in its line the route, never the ids and words that stand in its place", async () => {
    const { call, lines } = await shop();
    const answers = [
      await call("/api/owners/ottilie-vantongeren"),
      await call("/data/owners/ottilie-vantongeren", page),
      await call("/ottilie/vantongeren"),
      await call("/jobs/ottilie/links/vantongeren/withdrawal", { method: "DELETE" }),
    ];
    const said = lines.map((line) => JSON.parse(line));
    expect(said.map(({ route }) => route)).toEqual(["/api/owners/:id", "/data/owners/:id", null, null]);
    expect(said.map(({ request, status }) => [request, status])).toEqual(
      answers.map((answer) => [answer.headers.get("x-request-id"), answer.status]),
    );
    expect(lines.join()).not.toMatch(/ottilie|vantongeren/);
  });
});

describe("a failure on our side", () => {
  it("is answered 500 without saying what, and logged without anyone's data", async () => {
    const { db, send } = await shop();
    const said: unknown[] = [];
    const { error } = console;
    console.error = (line: unknown) => said.push(line);
    await db.run("ALTER TABLE owners RENAME TO away");
    const broken = await send("POST", "/api/owners", { name: "Ottilie Vantongeren" });
    console.error = error;
    expect(broken.status).toBe(500);
    const body = await broken.text();
    expect(JSON.parse(body)).toMatchObject({ type: "/problems/our-fault", status: 500 });
    expect(said).toHaveLength(1);
    expect(body + said.join()).not.toMatch(/Ottilie|insert into/i);
  });
});

describe("a browser", () => {
  it("gets a page where a program gets a problem", async () => {
    const { call } = await shop();
    const response = await call("/nothing", page);
    expect([response.status, response.headers.get("content-type")]).toEqual([404, "text/html; charset=UTF-8"]);
    expect(await response.text()).toContain("There is nothing at this address.");
    expect((await call("/api/nothing", page)).headers.get("content-type")).toBe("application/problem+json");
  });
});

describe("assets", () => {
  it("are kept for good under a hashed name, and answer 304", async () => {
    const { call } = await shop();
    const response = await call("/style-0123abcd.css");
    expect(response.headers.get("cache-control")).toBe("public, max-age=31536000, immutable");
    expect((await call("/style-0123abcd.css", { headers: { "if-none-match": '"0123abcd"' } })).status).toBe(304);
  });
});

describe("where a secret is wanted", () => {
  it.each([undefined, "", "too short"])("and it is %j, nobody is let in, and health still answers", async (secret) => {
    const { call } = await guarded({ secretOf: () => secret });
    for (const path of ["/", "/api/owners", "/sign-in", "/openapi.json"]) {
      const response = await call(path, bearer(secret ?? ""));
      expect(response.status, path).toBe(503);
      expect(((await response.json()) as { detail: string }).detail).toContain("OHMWRIGHT_SECRET");
    }
    expect((await call("/health")).status).toBe(200);
  });

  it("every route but health, the sign-in pages, their style and the owner's door wants it", async () => {
    const { app, call } = await guarded();
    const paths = new Set(app.routes.filter(({ method }) => method === "GET").map(({ path }) => path.replaceAll(/:\w+/g, "x")));
    expect(paths.size).toBeGreaterThan(20);
    const open: string[] = [];
    for (const path of paths) if ((await call(path)).status !== 401) open.push(path);
    // At /o an owner types a number and a code; what lies behind wants an owner's link (401). An invitation wants its secret (410).
    const signIn = ["/sign-in", "/sign-in/invitation", "/sign-in/secret"];
    expect(open.sort()).toEqual(["/health", "/help", "/help/x", "/o", ...signIn, "/style-0123abcd.css"]);
    expect((await call("/nothing")).status).toBe(401);
  });

  it("a program shows it as a bearer token", async () => {
    const { call } = await guarded();
    expect((await call("/api/owners", bearer(SECRET))).status).toBe(200);
    for (const wrong of [`${SECRET}x`, SECRET.slice(1), "", SECRET.toUpperCase()]) {
      const response = await call("/api/owners", bearer(wrong));
      expect(response.status, wrong).toBe(401);
      expect(response.headers.get("www-authenticate")).toMatch(/^Bearer /);
    }
  });

  it("a browser is sent to the sign-in page and comes back with a pass", async () => {
    const { call } = await guarded();
    const sent = await call("/api-is-not-this?x=1", page);
    expect([sent.status, sent.headers.get("location")]).toEqual([303, "/sign-in?to=%2Fapi-is-not-this%3Fx%3D1"]);
    const shown = await (await call(sent.headers.get("location")!, page)).text();
    expect(shown).toContain('value="/api-is-not-this?x=1"');
    expect(shown).toContain('href="/style-0123abcd.css"');

    const signedIn = await call("/sign-in", form({ secret: SECRET, to: "/jobs?x=1" }));
    expect([signedIn.status, signedIn.headers.get("location")]).toEqual([303, "/jobs?x=1"]);
    const cookie = signedIn.headers.get("set-cookie")!;
    expect(cookie).toMatch(/^__Host-ohmwright=/);
    for (const attribute of ["HttpOnly", "Secure", "SameSite=Lax", "Path=/", "Max-Age=604800"])
      expect(cookie).toContain(attribute);
    expect(cookie).not.toMatch(/domain/i);
    expect((await call("/api/owners", { headers: { cookie: cookie.split(";")[0]! } })).status).toBe(200);
  });

  it("the pass ends after a week, and with another secret, and cannot be altered", async () => {
    const opened = await guarded();
    const [pass] = (await opened.call("/sign-in", form({ secret: SECRET }))).headers.get("set-cookie")!.split(";");
    const ask = (shop: typeof opened, cookie: string) =>
      shop.call("/api/owners", { headers: { cookie } }).then(({ status }) => status);
    const later = pass!.replace(/=(\d+)/, (_, until) => `=${Number(until) + 1000}`);
    expect(later).not.toBe(pass);
    expect(await ask(opened, later)).toBe(401);
    expect(await ask(await guarded({ secretOf: () => "another secret of the shop" }), pass!)).toBe(401);
    opened.pass(7 * 24 * 3_600_000 - 1000);
    expect(await ask(opened, pass!)).toBe(200);
    opened.pass(2000);
    expect(await ask(opened, pass!)).toBe(401);
  });

  it("a wrong or missing secret shows the form again with what to do", async () => {
    const { call } = await guarded();
    const wrong = await call("/sign-in", form({ secret: "not this one", to: "/jobs" }));
    expect(wrong.status).toBe(401);
    expect(wrong.headers.get("set-cookie")).toBeNull();
    const text = await wrong.text();
    expect(text).toContain('role="alert"');
    expect(text).toContain('value="/jobs"');
    expect(text).not.toContain("not this one");
    expect((await call("/sign-in", form({ secret: "" }))).status).toBe(422);
  });

  it.each(["//evil.example", "/\\evil.example", "https://evil.example", "javascript:alert(1)", "evil", "/\t/evil.example"])(
    "signing in never leads to %j",
    async (to) => {
      const { call } = await guarded();
      const location = (await call("/sign-in", form({ secret: SECRET, to }))).headers.get("location")!;
      expect(new URL(location, BASE).origin).toBe(BASE);
    },
  );

  it("another site cannot sign anyone in", async () => {
    const { call } = await guarded();
    expect((await call("/sign-in", form({ secret: SECRET }, { origin: "http://evil.example" }))).status).toBe(403);
  });

  it("signing out takes the pass away", async () => {
    const { call } = await guarded();
    const [pass] = (await call("/sign-in", form({ secret: SECRET }))).headers.get("set-cookie")!.split(";");
    const out = await call("/sign-out", form({}, { origin: BASE, cookie: pass! }));
    expect(out.status).toBe(303);
    expect(out.headers.get("set-cookie")).toMatch(/^__Host-ohmwright=;.*Max-Age=0/);
  });

  it("ten wrong secrets from one place close it for the quarter of an hour, there only, even for the right one", async () => {
    let address = "192.0.2.1";
    const opened = await guarded({ addressOf: () => address });
    for (let n = 0; n < 5; n++) {
      await opened.call("/api/owners", bearer("wrong"));
      await opened.call("/sign-in", form({ secret: "wrong" }));
    }
    const closed = await opened.call("/api/owners", bearer(SECRET));
    expect(closed.status).toBe(429);
    expect(Number(closed.headers.get("retry-after"))).toBe(900);
    expect((await opened.call("/sign-in", form({ secret: SECRET }))).status).toBe(429);
    address = "192.0.2.2";
    expect((await opened.call("/api/owners", bearer(SECRET))).status).toBe(200);
    address = "192.0.2.1";
    opened.pass(900_000);
    expect((await opened.call("/api/owners", bearer(SECRET))).status).toBe(200);
  });

  it("the database keeps no address of a caller", async () => {
    const opened = await guarded({ addressOf: () => "192.0.2.77" });
    await opened.call("/api/owners", bearer("wrong"));
    const { rows } = await opened.db.run("SELECT * FROM sign_in_attempts");
    expect(rows).toHaveLength(1);
    expect(JSON.stringify(rows)).not.toContain("192.0.2");
  });
});

describe("without a database", () => {
  it("everything says so", async () => {
    const { call } = await guarded({ openDatabase: () => undefined });
    const response = await call("/api/owners", bearer(SECRET));
    expect(response.status).toBe(503);
    expect(await response.json()).toMatchObject({ type: "/problems/database-missing" });
    expect((await call("/health")).status).toBe(503);
  });
});

it("a GET that comes with a body, as the edge hands over one sent in chunks, is answered", async () => {
  const { app } = await shop();
  for (const path of ["/", "/api/owners", "/data"]) {
    const request = new Request(`${BASE}${path}`, { headers: { "transfer-encoding": "chunked" } });
    Object.defineProperty(request, "body", { value: new Response("x").body });
    expect([path, (await app.request(request)).status]).toEqual([path, 200]);
  }
});

it.each([
  "/settings/logo",
  "/data/in/offers",
  "/rate-book/rates",
  "/models/import",
  "/jobs/bare-job/photos",
  "/estimates/x/lines",
])("a multipart cut off on its way to %s is the sender's fault", async (path) => {
  const { app } = await shop({ openPhotos: () => photoFolder("data/none") });
  const headers = { "content-type": "multipart/form-data; boundary=x", origin: BASE, accept: "text/html" };
  const body = '--x\r\ncontent-disposition: form-data; name="file"; filename="a"\r\n\r\nhalf';
  const { status } = await app.request(`${BASE}${path}`, { method: "POST", headers, body });
  expect([path, status >= 400 && status < 500]).toEqual([path, true]);
});

it.each(["/find?q=tape%00echo", "/?q=a%00bc", "/api/search?q=J-%002026"])(
  "a NUL in a search is no fault of ours: %s",
  async (path) => {
    expect((await (await shop()).app.request(`${BASE}${path}`)).status).toBeLessThan(500);
  },
);

it("an entry of a job without an estimate is not found", async () => {
  const { app, send } = await shop();
  expect((await send("POST", "/api/jobs/bare-job/work-log/x/withdrawal", { by: "Tamsin", reason: "x" })).status).toBe(404);
  for (const method of ["GET", "POST"]) {
    const headers = { "content-type": "application/x-www-form-urlencoded", origin: BASE, accept: "text/html" };
    const sent = method === "POST" ? { body: "by=Tamsin&reason=x", headers } : {};
    const answer = await app.request(`${BASE}/jobs/bare-job/work-log/x/withdrawal`, { method, ...sent });
    expect([method, answer.status]).toEqual([method, 404]);
  }
});
