/** Who may do what: roles, invitations, tokens and their scopes. */
import { describe, expect, it, vi } from "vitest";
import { timersTable } from "../../../src/records/timers.js";
import { entriesOf } from "../../../src/records/workLog.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { stands } from "../../acts/support/bench.js";
import { agreedJob } from "../../records/support/closed.js";
import { at, TAPE_ECHO } from "../../records/support/livedIn.js";
import { authenticator } from "../support/authenticator.js";
import { BASE } from "../support/documented.js";
import { browser, fieldsIn, person, signedIn, tokenOf } from "../support/people.js";
import { shop } from "../support/shop.js";

async function peopled() {
  const opened = await shop();
  const [tamsin, wilmot] = [await person(opened, "Tamsin", "manager"), await person(opened, "Wilmot", "technician")];
  return { ...opened, tamsin, wilmot, manager: await signedIn(opened, tamsin), technician: await signedIn(opened, wilmot) };
}

describe("a technician", () => {
  it("does jobs and estimates, and is told on the page what only managers save", async () => {
    const { manager, technician } = await peopled();
    for (const path of ["/", "/estimates/new", "/models", "/rate-book", "/settings", "/account", "/api/owners"])
      expect((await technician.get(path)).status, path).toBe(200);
    expect(await (await technician.get("/settings")).text()).toContain("Only a manager of the shop can save changes here.");
    expect(await (await technician.get("/account")).text()).not.toContain('href="/staff"');
    expect(await (await manager.get("/account")).text()).toContain('href="/staff"');
  });
});

it("whoever is signed in is offered as the name that goes on record", async () => {
  const { technician } = await peopled();
  const page = await (await technician.get("/")).text();
  const job = /href="\/jobs\/([^"]+)">J-2026-0001/.exec(page)![1];
  expect(fieldsIn(await (await technician.get(`/jobs/${job}/issue`)).text())).toMatchObject({ by: "Wilmot" });
});

describe("the last manager", () => {
  it("can neither be closed nor made a technician, and someone invited does not count before they came", async () => {
    const { manager, tamsin, wilmot } = await peopled();
    const closing = async (id: string) => (await manager.send(`/staff/${id}/closing`)).status;
    const role = async (id: string, to: string) => (await manager.send(`/staff/${id}/role`, { role: to })).status;
    expect(await closing(tamsin)).toBe(409);
    expect(await role(tamsin, "technician")).toBe(409);
    await manager.send("/staff", { name: "Ottilie", role: "manager" });
    expect(await closing(tamsin)).toBe(409);
    expect(await role(wilmot, "manager")).toBe(303);
    expect(await role(tamsin, "technician")).toBe(303);
    expect((await manager.get("/staff")).status).toBe(403);
  });

  it("stays when two managers close one another at once", async () => {
    const { manager, technician, tamsin, wilmot, db } = await peopled();
    await manager.send(`/staff/${wilmot}/role`, { role: "manager" });
    await Promise.all([manager.send(`/staff/${wilmot}/closing`), technician.send(`/staff/${tamsin}/closing`)]);
    const { rows } = await db.run("SELECT id FROM staff WHERE left_at IS NULL AND role = 'manager'");
    expect(rows).toHaveLength(1);
  });
});

describe("whose account is closed while their timer runs", () => {
  const running = async (startedAt: string) => {
    const opened = await peopled();
    await agreedJob(opened.db);
    await opened.db.insert(timersTable).values({ id: "running", jobId: TAPE_ECHO, person: "Wilmot", item: "w01", startedAt });
    opened.pass(12 * 60_000);
    expect((await opened.manager.send(`/staff/${opened.wilmot}/closing`)).status).toBe(303);
    return { ...opened, page: await (await opened.manager.get("/staff")).text() };
  };

  it("has its time logged up to that moment, told on the trail, so that the job can be closed", async () => {
    const { db, page } = await running(at(0));
    expect((await stands(db, TAPE_ECHO)).timers).toEqual([]);
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { id: "running", person: "Wilmot", endedAt: at(12), note: "Stopped when the account was closed" },
    ]);
    expect(page).not.toContain("a timer runs on");
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("keeps one that the log refuses, which the list of staff and the work log lead to", async () => {
    const { db, page, manager } = await running("2026-11-23T09:00:00.000Z");
    expect((await stands(db, TAPE_ECHO)).timers).toHaveLength(1);
    expect(page).toContain(`a timer runs on <a href="/jobs/${TAPE_ECHO}/work-log">`);
    const log = await (await manager.get(`/jobs/${TAPE_ECHO}/work-log`)).text();
    expect(log).toMatch(/A timer of Wilmot runs: .*, since 23 November 2026 at 09:00 GMT\./);
    expect(log).toContain(`href="/jobs/${TAPE_ECHO}/bench?by=Wilmot#at-work"`);
    expect(await (await manager.get(`/jobs/${TAPE_ECHO}/bench?by=Wilmot`)).text()).toContain("Pause and log the time");
  });
});

describe("an invitation", () => {
  const linkIn = (page: string) => /sign-in\/invitation\?secret=[\w-]+/.exec(page)![0];
  const invited = async (opened: Awaited<ReturnType<typeof peopled>>, fields = { name: "Ottilie", role: "technician" }) =>
    `/${linkIn(await (await opened.manager.send("/staff", fields)).text())}`;
  const come = async (opened: Awaited<ReturnType<typeof peopled>>, link: string) => {
    const at = browser(opened);
    const secret = link.split("=")[1]!;
    const device = await authenticator(BASE);
    const options = await at.options("/sign-in/new-passkey", { invitation: secret });
    const answer = await at.send("/sign-in/invitation", { invitation: secret, passkey: await device.create(options) });
    return { at, answer };
  };

  it("gives its person a way in and codes, once; looking at it does not use it", async () => {
    const opened = await peopled();
    const link = await invited(opened);
    for (let n = 0; n < 2; n += 1) expect(await (await browser(opened).get(link)).text()).toContain("Welcome, Ottilie");
    const { at, answer } = await come(opened, link);
    expect([answer.status, await answer.text()]).toEqual([200, expect.stringContaining("Recovery codes of Ottilie")]);
    expect(await (await at.get("/account")).text()).toContain("Ottilie");
    expect((await browser(opened).get(link)).status).toBe(410);
    const second = await browser(opened).send("/sign-in/invitation", {
      invitation: link.split("=")[1]!,
      passphrase: "kettle thimble orchard",
    });
    expect(second.status).toBe(410);
  });

  it("to someone who has an account ends what was signed in before, once it is used", async () => {
    const opened = await peopled();
    const link = `/${linkIn(await (await opened.manager.send(`/staff/${opened.wilmot}/invitation`)).text())}`;
    expect((await opened.technician.get("/")).status).toBe(200);
    const { at, answer } = await come(opened, link);
    expect(answer.status).toBe(200);
    expect([(await opened.technician.get("/")).status, (await at.get("/")).status]).toEqual([303, 200]);
  });

  it("has the address that others reach the shop at, also where its maker sits at the shop's own machine; where none is known it says so", async () => {
    const secret = "a secret of the whole shop";
    const made = async (told: string | undefined, at: string) => {
      const opened = await shop({ guard: "secret", secretOf: () => secret, originOf: () => told });
      const manager = await signedIn(opened, await person(opened, "Tamsin", "manager"), secret);
      // As it is named where HTTPS may end in front of the shop.
      manager.jar.set("__Host-ohmwright-staff", manager.jar.get("ohmwright-staff")!);
      const host = new URL(at).host;
      const page = await (await manager.send("/staff", { name: "Ottilie", role: "technician" }, { origin: at, host })).text();
      return [/value="([^"]+)\/sign-in\/invitation/.exec(page)?.[1], page.includes("Only this machine opens this address")];
    };
    const [here, shopsOwn, inside] = [BASE, "https://shop.example", "http://bench.example:4700"];
    expect(await made(shopsOwn, here)).toEqual([shopsOwn, false]);
    expect(await made(shopsOwn, inside)).toEqual([inside, false]);
    expect(await made(undefined, here)).toEqual([here, true]);
    const alone = await peopled();
    expect(await (await alone.manager.send("/staff", { name: "Ottilie", role: "technician" })).text()).not.toContain(
      "Only this machine",
    );
  });

  it("ends after three days, by a newer one, and with the account", async () => {
    const opened = await peopled();
    const first = await invited(opened);
    const id = /\/staff\/([0-9a-f-]{36})\/invitation/.exec(await (await opened.manager.get("/staff")).text())![1]!;
    const second = `/${linkIn(await (await opened.manager.send(`/staff/${id}/invitation`)).text())}`;
    const status = async (link: string) => (await browser(opened).get(link)).status;
    expect([await status(first), await status(second)]).toEqual([410, 200]);
    await opened.manager.send(`/staff/${id}/closing`);
    expect(await status(second)).toBe(410);
    await opened.manager.send(`/staff/${id}/opening`);
    expect(await status(second)).toBe(410);
    const third = `/${linkIn(await (await opened.manager.send(`/staff/${id}/invitation`)).text())}`;
    expect(await status(third)).toBe(200);
    opened.pass(3 * 24 * 3_600_000);
    expect(await status(third)).toBe(410);
  });

  it("ends with the account of who made it, in one batch with that one's sessions and tokens, and while they may invite nobody", async () => {
    const opened = await peopled();
    await opened.manager.send(`/staff/${opened.wilmot}/role`, { role: "manager" });
    const made = async (name: string) =>
      `/${linkIn(await (await opened.technician.send("/staff", { name, role: "manager" })).text())}`;
    const [first, second] = [await made("Ottilie"), await made("Žofie")];
    const status = async (link: string) => (await browser(opened).get(link)).status;
    const headers = { authorization: `Bearer ${await tokenOf(opened, opened.wilmot, "read")}` };
    await opened.manager.send(`/staff/${opened.wilmot}/role`, { role: "technician" });
    expect([await status(first), await status(second)]).toEqual([410, 410]);
    await opened.manager.send(`/staff/${opened.wilmot}/role`, { role: "manager" });
    expect([await status(first), await status(second)]).toEqual([200, 200]);
    expect([(await opened.technician.get("/")).status, (await opened.call("/api/owners", { headers })).status]).toEqual([
      200, 200,
    ]);

    // In one batch: where one part of it fails, none has happened.
    await opened.db.run("CREATE TRIGGER planted BEFORE UPDATE ON invitations BEGIN SELECT RAISE(ABORT, 'planted'); END");
    const told = vi.spyOn(console, "error").mockReturnValue();
    expect((await opened.manager.send(`/staff/${opened.wilmot}/closing`)).status).toBe(500);
    told.mockRestore();
    await opened.db.run("DROP TRIGGER planted");
    expect([await status(first), (await opened.technician.get("/")).status]).toEqual([200, 200]);
    expect((await opened.call("/api/owners", { headers })).status).toBe(200);

    await opened.manager.send(`/staff/${opened.wilmot}/closing`);
    expect([await status(first), await status(second), (await opened.technician.get("/")).status]).toEqual([410, 410, 303]);
    expect((await opened.call("/api/owners", { headers })).status).toBe(401);
    const { rows } = await opened.db.run("SELECT DISTINCT expires_at AS ended FROM invitations");
    expect(rows).toEqual([{ ended: "2026-11-25T09:00:00.000Z" }]);
    await opened.manager.send(`/staff/${opened.wilmot}/opening`);
    expect(await status(second)).toBe(410);
  });

  it("takes no passkey made for someone else", async () => {
    const opened = await peopled();
    const [one, two] = [await invited(opened), await invited(opened, { name: "Žofie", role: "manager" })];
    const at = browser(opened);
    const device = await authenticator(BASE);
    const options = await at.options("/sign-in/new-passkey", { invitation: one.split("=")[1]! });
    const answer = await at.send("/sign-in/invitation", {
      invitation: two.split("=")[1]!,
      passkey: await device.create(options),
    });
    expect(answer.status).toBe(422);
  });

  it("is not made for a name someone has", async () => {
    const { manager } = await peopled();
    const answer = await manager.send("/staff", { name: " wilmot ", role: "technician" });
    expect([answer.status, await answer.text()]).toEqual([422, expect.stringContaining("by this name already")]);
  });

  it("guessed at ten times closes the door for the quarter of an hour", async () => {
    const opened = await peopled();
    const at = browser(opened);
    for (let n = 0; n < 10; n += 1) expect((await at.get(`/sign-in/invitation?secret=guess${n}`)).status).toBe(410);
    const closed = await at.get(`/sign-in/invitation?secret=guess`);
    expect([closed.status, closed.headers.get("retry-after")]).toEqual([429, "900"]);
  });
});

describe("an API token", () => {
  const made = async ({ manager }: Awaited<ReturnType<typeof peopled>>, ...scopes: string[]) => {
    const fields = [["name", "Till"], ...scopes.map((scope) => ["scopes", scope])] as [string, string][];
    return /ohmwright_[\w-]{43}/.exec(await (await manager.send("/tokens", fields)).text())![0];
  };

  it("opens by its scopes, each method and address for itself", async () => {
    const opened = await peopled();
    const settings = await (await opened.manager.get("/api/settings")).json();
    const asks = {
      look: (headers: object) => opened.call("/api/owners", { headers } as RequestInit),
      reckon: (headers: object) => opened.send("POST", "/api/estimate", {}, headers as Record<string, string>),
      change: (headers: object) => opened.send("POST", "/api/owners", { name: "Ann" }, headers as Record<string, string>),
      rule: (headers: object) => opened.send("PUT", "/api/settings", settings, headers as Record<string, string>),
      page: (headers: object) => opened.call("/", { headers } as RequestInit),
      hand: (headers: object) => opened.call("/tokens", { headers } as RequestInit),
    };
    // 422: let in, and told what is wrong with it.
    const expected: Record<string, readonly number[]> = {
      read: [200, 422, 403, 403, 403, 403],
      write: [403, 403, 201, 403, 403, 403],
      "read write": [200, 422, 201, 403, 403, 403],
      "read admin": [200, 422, 403, 403, 403, 403],
      "read write admin": [200, 422, 201, 422, 403, 403],
    };
    for (const [scopes, statuses] of Object.entries(expected)) {
      const authorization = `Bearer ${await made(opened, ...scopes.split(" "))}`;
      const got: number[] = [];
      for (const ask of Object.values(asks)) got.push((await ask({ authorization })).status);
      expect(got, scopes).toEqual(statuses);
    }
  });

  it("ends when it is revoked, and never may more than its person", async () => {
    const opened = await peopled();
    await opened.manager.send(`/staff/${opened.wilmot}/role`, { role: "manager" });
    const token = await made({ ...opened, manager: opened.technician }, "read", "write", "admin");
    const headers = { authorization: `Bearer ${token}` };
    const book = () => opened.send("POST", "/api/rate-books", {}, headers).then(({ status }) => status);
    expect(await book()).toBe(422);
    await opened.manager.send(`/staff/${opened.wilmot}/role`, { role: "technician" });
    expect(await book()).toBe(403);
    expect((await opened.call("/api/owners", { headers })).status).toBe(200);
    const id = /\/tokens\/([0-9a-f-]+)\/revocation/.exec(await (await opened.manager.get("/tokens")).text())![1]!;
    await opened.manager.send(`/tokens/${id}/revocation`);
    const refused = await opened.call("/api/owners", { headers });
    expect([refused.status, refused.headers.get("www-authenticate")]).toEqual([401, expect.stringContaining("invalid_token")]);
    expect(await (await opened.manager.get("/tokens")).text()).toContain("revoked");
  });

  it("ends with its person's account, and does not come back with it", async () => {
    const opened = await peopled();
    await opened.manager.send(`/staff/${opened.wilmot}/role`, { role: "manager" });
    const headers = { authorization: `Bearer ${await made({ ...opened, manager: opened.technician }, "read")}` };
    expect((await opened.call("/api/owners", { headers })).status).toBe(200);
    for (const step of ["closing", "opening"]) {
      await opened.manager.send(`/staff/${opened.wilmot}/${step}`);
      expect((await opened.call("/api/owners", { headers })).status).toBe(401);
    }
  });

  it("without a name or a scope is not made", async () => {
    const { manager, db } = await peopled();
    const answer = await manager.send("/tokens", { name: "" });
    const page = await answer.text();
    expect([answer.status, page.includes("What it is for is missing"), page.includes("What it may is missing")]).toEqual([
      422,
      true,
      true,
    ]);
    expect((await db.run("SELECT * FROM api_tokens")).rows).toEqual([]);
  });

  it("is told 120 prices a minute, then when to go on; looking and writing are not counted, nor another token", async () => {
    const opened = await peopled();
    const [one, other] = [await tokenOf(opened, opened.tamsin, "read", "write"), await tokenOf(opened, opened.tamsin, "read")];
    const headers = (token: string) => ({ authorization: `Bearer ${token}` });
    const price = async (token: string) => (await opened.send("POST", "/api/estimate", {}, headers(token))).status;
    expect(await price(one)).toBe(422);
    await opened.db.run("UPDATE sign_in_attempts SET failures = 119");
    expect((await Promise.all([one, one, one, other].map(price))).sort()).toEqual([422, 422, 429, 429]);
    const late = await opened.send("POST", "/api/estimate", {}, headers(one));
    expect([late.headers.get("retry-after"), await late.json()]).toEqual([
      "60",
      expect.objectContaining({ type: "/problems/asked-too-often" }),
    ]);
    expect((await opened.call("/api/owners", { headers: headers(one) })).status).toBe(200);
    expect((await opened.send("POST", "/api/owners", { name: "Ann" }, headers(one))).status).toBe(201);
    opened.pass(60_000);
    expect(await price(one)).toBe(422);
  });

  it("guessed at ten times closes the door to tokens from that place", async () => {
    const opened = await peopled();
    await opened.manager.send(`/staff/${opened.wilmot}/role`, { role: "manager" });
    const headers = { authorization: `Bearer ohmwright_${"A".repeat(43)}` };
    for (let n = 0; n < 10; n += 1) expect((await opened.call("/api/owners", { headers })).status).toBe(401);
    const closed = await opened.call("/api/owners", { headers });
    expect([closed.status, closed.headers.get("retry-after")]).toEqual([429, "900"]);
  });
});
