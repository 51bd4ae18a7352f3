/** Who gets in by a link, how long, and what neither logs, caches, other sites nor guessers get. */

import { describe, expect, it } from "vitest";
import type { AppOptions } from "../../../src/http/app/app.js";
import { OWNER_PATHS } from "../../../src/pages/owner/view.js";
import { estimates } from "../../../src/records/estimates.js";
import { issues } from "../../../src/records/issues.js";
import { eventsOf } from "../../../src/records/trail.js";
import { withdraws } from "../../records/support/answer.js";
import { draftOf, issued, TAPE_ECHO } from "../../records/support/livedIn.js";
import { BASE } from "../support/documented.js";
import { shop } from "../support/shop.js";

const SECRET = "a secret of the shop";
const HTTPS = "https://shop.example";

/** The edge's arrangement: everything wants the shop's secret, over HTTPS. */
async function guarded(options: Partial<AppOptions> = {}) {
  const opened = await shop({ guard: "secret", secretOf: () => SECRET, ...options });
  const { record, secret } = await issued(opened.db, (await draftOf(opened.db, TAPE_ECHO)).id, "2026-11-25T09:00:00.000Z");
  const ask = (path: string, init: RequestInit = {}, base = HTTPS) =>
    opened.app.request(new Request(`${base}${path}`, { redirect: "manual", ...init }));
  const post = (path: string, fields: Record<string, string> | string, headers: Record<string, string> = {}, base = HTTPS) =>
    ask(path, { method: "POST", body: new URLSearchParams(fields), headers: { origin: base, ...headers } }, base);
  const enter = async (fields: Record<string, string> = { link: secret.fragment }, base = HTTPS) => {
    const response = await post(OWNER_PATHS.entry, fields, {}, base);
    return { response, cookie: response.headers.get("set-cookie")?.split(";")[0] ?? "" };
  };
  return { ...opened, record, secret, ask, post, enter };
}

// biome-ignore lint/suspicious/noExplicitAny: a JSON body, read field by field
const read = async (response: Response): Promise<any> => response.json();

describe("a link", () => {
  it("is exchanged by POST for a cookie of this host alone, which is no secret of the link's", async () => {
    const { secret, enter, ask } = await guarded();
    const { response, cookie } = await enter();
    expect([response.status, response.headers.get("location")]).toEqual([303, OWNER_PATHS.estimate]);
    expect(response.headers.get("set-cookie")).toMatch(
      /^__Host-ohmwright-owner=[\w-]{32}; Max-Age=\d+; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    );
    expect(cookie).not.toContain(secret.fragment.split(".")[1]);
    expect((await ask(OWNER_PATHS.estimate, { headers: { cookie } })).status).toBe(200);
    expect((await ask(OWNER_PATHS.estimate)).status).toBe(401);
  });

  it("gives a plain cookie only on plain loopback, where some browsers refuse any other", async () => {
    const { enter } = await guarded();
    const here = await enter(undefined, "http://127.0.0.1:4700");
    expect(here.response.headers.get("set-cookie")).toMatch(
      /^ohmwright-owner=[\w-]{32}; Max-Age=\d+; Path=\/; HttpOnly; SameSite=Strict$/,
    );
    const there = await enter(undefined, "http://shop.example");
    expect(there.response.headers.get("set-cookie")).toContain("__Host-");
    // HTTPS that ends in front of the server is told by the address owners reach the shop at.
    const behind = await guarded({ originOf: () => HTTPS });
    const passedOn = await behind.enter(undefined, "http://127.0.0.1:4700");
    expect(passedOn.response.headers.get("set-cookie")).toContain("__Host-");
  });

  it("never opens by GET, in a query or by half of itself", async () => {
    const { secret, ask, enter } = await guarded();
    for (const path of [
      `/o?link=${secret.fragment}`,
      `/o/entry?link=${secret.fragment}`,
      `/o/estimate?link=${secret.fragment}`,
    ]) {
      const response = await ask(path);
      expect([200, 401, 405], path).toContain(response.status);
      expect(response.headers.get("set-cookie")).toBeNull();
      expect(await response.text()).not.toContain("Skep");
    }
    const [id] = secret.fragment.split(".");
    for (const link of [
      id!,
      `${id}.`,
      `.${secret.fragment.split(".")[1]}`,
      secret.fragment.slice(0, -1),
      `${secret.fragment}x`,
      ".",
    ])
      expect((await enter({ link })).response.status, link).toBe(403);
  });

  it("opens the owner's pages and none of the shop's", async () => {
    const { app, enter, ask } = await guarded();
    const { cookie } = await enter();
    const owners = new Set<string>(Object.values(OWNER_PATHS));
    const shops = app.routes
      .filter(({ method, path }) => method === "GET" && !owners.has(path))
      .map(({ path }) => path.replaceAll(/:\w+/g, "x"));
    const open: string[] = [];
    for (const path of new Set(shops)) if ((await ask(path, { headers: { cookie } })).status !== 401) open.push(path);
    const signIn = ["/sign-in", "/sign-in/invitation", "/sign-in/secret"];
    expect(open.sort()).toEqual(["/health", "/help", "/help/x", ...signIn, "/style-0123abcd.css"]);
    for (const path of ["/o/", "/o/other", "/o/estimate/more", "/O", "/o/../api/owners", "/o%2fapi"])
      expect((await ask(path, { headers: { cookie } })).status, path).toBe(401);
  });

  it("opens its own job's revisions only", async () => {
    const { db, enter, ask, post } = await guarded();
    const other = (await estimates.list(db, { limit: 10 })).rows.find(({ jobId }) => jobId !== TAPE_ECHO)!;
    await issued(db, other.id, "2026-11-25T09:00:00.000Z");
    const { cookie } = await enter();
    const hash = (await issues.find(db, other.id))!.contentHash;
    for (const path of [OWNER_PATHS.price, OWNER_PATHS.agreement, OWNER_PATHS.question, OWNER_PATHS.check])
      expect((await post(path, { hash, text: "?", answer: "agreed", name: "X", amount: "1" }, { cookie })).status, path).toBe(
        409,
      );
    for (const revision of ["2", "0", "-1", "x", "1e9", "NaN"])
      expect((await ask(`${OWNER_PATHS.estimate}?revision=${revision}`, { headers: { cookie } })).status, revision).toBe(404);
    const view = await read(await ask(`${OWNER_PATHS.estimate}?revision=1`, { headers: { cookie } }));
    expect(view.unit.model).toBe("Skep 3");
  });

  it("dies at its hour and when it is withdrawn: 410, also for whoever is in, and the cookie goes", async () => {
    for (const kill of ["expiry", "withdrawal"]) {
      const { db, secret, enter, ask, pass } = await guarded();
      const { cookie } = await enter();
      if (kill === "expiry") pass(90 * 24 * 3_600_000);
      else await withdraws(db, "w", secret.fragment.split(".")[0]!, { by: "Wilhelmina" }, "2026-11-25T10:00:00.000Z");
      const seen = await ask(OWNER_PATHS.estimate, { headers: { cookie } });
      expect([seen.status, (await read(seen)).type]).toEqual([410, "/problems/link-dead"]);
      expect(seen.headers.get("set-cookie")).toMatch(/^__Host-ohmwright-owner=; Max-Age=0/);
      expect((await ask(OWNER_PATHS.pdf, { headers: { cookie } })).status).toBe(410);
      expect((await enter()).response.status).toBe(410);
      expect((await enter({ number: "J-2026-0002", code: secret.code })).response.status).toBe(410);
    }
  });
});

describe("a number and its code", () => {
  it("open the same, however they are typed", async () => {
    const { secret, enter } = await guarded();
    const code = secret.code.replaceAll("0", "o").replaceAll("1", "l");
    for (const fields of [
      { number: "J-2026-0002", code: secret.code },
      { number: " j 2026 2 ", code: ` ${code.toLowerCase()} ` },
      { number: "j-2026-2", code: secret.code.replace("-", " ") },
    ])
      expect((await enter(fields)).response.status, JSON.stringify(fields)).toBe(303);
  });

  it("say the same for a number that is not there as for a wrong code", async () => {
    const { enter, secret } = await guarded();
    const answers = [
      await enter({ number: "J-2026-0002", code: "00000-00000" }),
      await enter({ number: "J-2030-0002", code: secret.code }),
      await enter({ number: "J-2026-0001", code: secret.code }),
    ];
    const said = await Promise.all(answers.map(async ({ response }) => ({ ...(await read(response)), instance: "" })));
    expect(said[0]).toMatchObject({ status: 403, type: "/problems/entry-refused" });
    expect(said).toEqual([said[0], said[0], said[0]]);
  });

  it("are counted before they are tried: of 200 wrong ones at once, ten", async () => {
    const { enter } = await guarded({ addressOf: () => "192.0.2.1" });
    const wrong = { number: "J-2026-0002", code: "00000-00000" };
    const answers = await Promise.all(Array.from({ length: 200 }, () => enter(wrong)));
    expect(answers.filter(({ response }) => response.status === 403)).toHaveLength(10);
  });

  it("are counted when wrong: ten from one place in a quarter of an hour, then not even the right one; a link cannot be guessed and opens", async () => {
    let place = "192.0.2.1";
    const { enter, secret, pass } = await guarded({ addressOf: () => place });
    const right = { number: "J-2026-0002", code: secret.code };
    for (let n = 0; n < 10; n++) expect((await enter({ ...right, code: `0000${n % 10}-00000` })).response.status).toBe(403);
    const held = (await enter(right)).response;
    expect([held.status, Number(held.headers.get("retry-after"))]).toEqual([429, 900]);
    expect((await enter()).response.status).toBe(303);
    place = "192.0.2.2";
    expect((await enter(right)).response.status).toBe(303);
    place = "192.0.2.1";
    pass(900_000);
    expect((await enter(right)).response.status).toBe(303);
  });

  it("are counted by the /64 of an IPv6 place, whose holder has all its addresses, and by no neighbour's", async () => {
    let place = "";
    const { enter, secret } = await guarded({ addressOf: () => place });
    const right = { number: "J-2026-0002", code: secret.code };
    for (let n = 0; n < 10; n++) {
      place = `2001:db8:0:7:${n}::${n + 1}`;
      expect((await enter({ ...right, code: "00000-00000" })).response.status).toBe(403);
    }
    place = "2001:db8:0:7::99";
    expect((await enter(right)).response.status).toBe(429);
    place = "2001:db8:0:8::1";
    expect((await enter(right)).response.status).toBe(303);
  });

  it("wrong at the owner's door do not lock the shop out", async () => {
    const { enter, ask } = await guarded();
    for (let n = 0; n < 11; n++) await enter({ number: "J-2026-0002", code: "00000-00000" });
    expect((await ask("/api/owners", { headers: { authorization: `Bearer ${SECRET}` } })).status).toBe(200);
  });
});

describe("what an owner sees", () => {
  it("is kept by no cache, listed by no robot, and tells no other site where it came from", async () => {
    const { enter, ask } = await guarded();
    const { cookie, response: entered } = await enter();
    const answers = [
      entered,
      await ask("/o"),
      await ask(OWNER_PATHS.estimate, { headers: { cookie } }),
      await ask(OWNER_PATHS.pdf, { headers: { cookie } }),
      await ask(OWNER_PATHS.estimate),
    ];
    for (const { headers } of answers) {
      expect(headers.get("cache-control")).toBe("private, no-store");
      expect(headers.get("x-robots-tag")).toContain("noindex");
      expect(headers.get("referrer-policy")).toBe("no-referrer");
      expect(headers.get("content-security-policy")).toContain("frame-ancestors 'none'");
    }
  });

  it("is the PDF that was issued, byte for byte, whatever the shop is called by now", async () => {
    const { db, record, enter, ask } = await guarded();
    const { cookie } = await enter();
    await db.run("UPDATE settings SET name = 'Another name'");
    const pdf = await ask(`${OWNER_PATHS.pdf}?revision=1`, { headers: { cookie } });
    expect(pdf.headers.get("content-type")).toBe("application/pdf");
    expect(new Uint8Array(await pdf.arrayBuffer())).toEqual(await issues.pdf(db, record.id));
  });

  it("tells nothing of what work or parts cost the shop, of its notes or of others", async () => {
    const { record, enter, ask } = await guarded();
    const { cookie } = await enter();
    const text = await (await ask(OWNER_PATHS.estimate, { headers: { cookie } })).text();
    for (const key of [
      "markUp",
      "cost",
      "offers",
      "rateBook",
      "ratePerHour",
      "shareGood",
      "source",
      "unitPriceE4",
      "risk",
      "secretHash",
      'address":"127',
    ]) {
      expect(text, key).not.toContain(`"${key}`);
    }
    // A line's amount is what is charged; what the shop pays for the same pieces is another number.
    const view = JSON.parse(text) as { sheet: { lines: { id: string; amount: number }[] } };
    for (const { kind, type, cost } of record.sheet!.parts)
      expect(view.sheet.lines.find(({ id }) => id === `part:${kind ?? type}`)?.amount).not.toBe(cost);
  });

  it("leaves neither secret, code nor cookie in the log", async () => {
    const { secret, enter, ask, lines } = await guarded();
    const { cookie } = await enter();
    await enter({ number: "J-2026-0002", code: secret.code });
    await ask(OWNER_PATHS.estimate, { headers: { cookie } });
    const log = lines.join("\n");
    expect(lines.length).toBeGreaterThan(2);
    for (const hidden of [secret.fragment.split(".")[1]!, secret.code, cookie.split("=")[1]!]) expect(log).not.toContain(hidden);
  });
});

describe("an answer on the page", () => {
  const hashOf = async ({ db, record }: Awaited<ReturnType<typeof guarded>>) => (await issues.find(db, record.id))!.contentHash;

  it("is put on record with address, agent and the link's delivery, and the same answer again is harmless", async () => {
    const opened = await guarded({ addressOf: () => "192.0.2.9" });
    const { cookie } = await opened.enter();
    const fields = { hash: await hashOf(opened), answer: "declined", name: "Ottilie Vantongeren" };
    const headers = { cookie, "user-agent": "a browser/1" };
    const first = await opened.post(OWNER_PATHS.agreement, fields, headers);
    expect([first.status, await read(first)]).toEqual([
      201,
      expect.objectContaining({
        answer: "declined",
        by: "Ottilie Vantongeren",
        receipt: expect.stringMatching(/^\d+-[0-9a-f]{16}$/),
      }),
    ]);
    const again = await opened.post(OWNER_PATHS.agreement, fields, headers);
    expect(again.status).toBe(200);
    const other = await opened.post(
      OWNER_PATHS.agreement,
      { ...fields, answer: "agreed", amount: String(opened.record.sheet!.totals.total), chosen: "new mains lead" },
      headers,
    );
    expect([other.status, (await read(other)).type]).toEqual([409, "/problems/answered-already"]);
    const { items } = await read(
      await opened.ask(`/api/jobs/${TAPE_ECHO}/agreements`, { headers: { authorization: `Bearer ${SECRET}` } }),
    );
    expect(items).toMatchObject([
      { channel: "page", address: "192.0.2.9", agent: "a browser/1", deliveredTo: "on paper", zone: "Europe/London" },
    ]);
  });

  it("sent ten times at once is one record", async () => {
    const opened = await guarded();
    const { cookie } = await opened.enter();
    const fields = { hash: await hashOf(opened), answer: "declined", name: "Ottilie" };
    const answers = await Promise.all(Array.from({ length: 10 }, () => opened.post(OWNER_PATHS.agreement, fields, { cookie })));
    expect(answers.map(({ status }) => status).sort()).toEqual([...Array(9).fill(200), 201]);
    expect((await eventsOf(opened.db, TAPE_ECHO)).filter(({ is }) => is === "answered")).toHaveLength(1);
  });

  it.each([
    ["another site's page", { "sec-fetch-site": "cross-site", origin: "https://evil.example" }],
    ["a sister host's page", { "sec-fetch-site": "same-site", origin: "https://other.shop.example" }],
    ["a page that hides where it is", { "sec-fetch-site": "cross-site", origin: "null" }],
  ])("cannot be sent by %s", async (_, from) => {
    const opened = await guarded();
    const { cookie } = await opened.enter();
    const fields = { hash: await hashOf(opened), answer: "declined", name: "Ottilie" };
    for (const path of [OWNER_PATHS.agreement, OWNER_PATHS.question, OWNER_PATHS.entry])
      expect((await opened.post(path, fields, { cookie, ...from })).status, path).toBe(403);
    // With no-referrer a browser's own form says 'null', but also that it is our own.
    const own = await opened.post(OWNER_PATHS.agreement, fields, { cookie, origin: "null", "sec-fetch-site": "same-origin" });
    expect(own.status).toBe(201);
  });

  it.each([
    [{ name: "" }, "name"],
    [{ name: "x".repeat(201) }, "name"],
    [{ name: "a\u0000b" }, "name"],
    [{ answer: "maybe" }, "answer"],
    [{ answer: "agreed", amount: "" }, "amount"],
    [{ answer: "agreed", amount: "12.50" }, "amount"],
    [{ answer: "agreed", amount: "1" }, "amount"],
  ] as [Record<string, string>, string][])(
    "with %j is refused by name, at its field, and nothing is kept",
    async (changed, field) => {
      const opened = await guarded();
      const { cookie } = await opened.enter();
      const fields = { hash: await hashOf(opened), answer: "declined", name: "Ottilie", ...changed };
      const response = await opened.post(OWNER_PATHS.agreement, fields, { cookie });
      expect([409, 422]).toContain(response.status);
      const { errors = [{ pointer: "/amount" }] } = await read(response);
      expect(errors[0].pointer).toBe(`/${field}`);
      expect((await eventsOf(opened.db, TAPE_ECHO)).map(({ is }) => is)).not.toContain("answered");
    },
  );

  it("wants a form", async () => {
    const { enter, ask } = await guarded();
    const { cookie } = await enter();
    const json = { method: "POST", body: "{}", headers: { cookie, origin: HTTPS, "content-type": "application/json" } };
    const response = await ask(OWNER_PATHS.agreement, json);
    expect([response.status, (await read(response)).detail]).toEqual([
      415,
      "Send the form as application/x-www-form-urlencoded.",
    ]);
  });
});

describe("questions", () => {
  it("wait in number: beyond ten without a reply the shop replies first, and the same one twice is one", async () => {
    const opened = await guarded();
    const { cookie } = await opened.enter();
    const hash = (await issues.find(opened.db, opened.record.id))!.contentHash;
    const ask = (text: string) => opened.post(OWNER_PATHS.question, { hash, text }, { cookie });
    for (let n = 0; n < 10; n++) expect((await ask(`Question ${n}?`)).status).toBe(201);
    expect((await ask("Question 3?")).status).toBe(201);
    const more = await ask("And one more?");
    expect([more.status, (await read(more)).type]).toEqual([429, "/problems/too-many-questions"]);
    expect((await eventsOf(opened.db, TAPE_ECHO)).filter(({ is }) => is === "question asked")).toHaveLength(10);
  });
});

describe("on a server without a secret", () => {
  it("the owner's door stands open on loopback all the same", async () => {
    const { db, call } = await shop();
    const { secret } = await issued(db, (await draftOf(db, TAPE_ECHO)).id, "2026-11-25T09:00:00.000Z");
    const entered = await call(OWNER_PATHS.entry, {
      method: "POST",
      redirect: "manual",
      body: new URLSearchParams({ link: secret.fragment }),
      headers: { origin: BASE },
    });
    expect(entered.status).toBe(303);
  });
});
