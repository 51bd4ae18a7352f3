/** Staff, tokens and the list of sign-ins by programs; what ends with an account. */
import { sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { connectFile } from "../../../src/records/connectFile.js";
import type { Database } from "../../../src/records/database.js";
import { invitations, newInvitation } from "../../../src/records/invitations.js";
import { passkeys } from "../../../src/records/passkeys.js";
import { newPassphrase, passphrases } from "../../../src/records/passphrases.js";
import { newRecoveryCodes, recoveryCodes } from "../../../src/records/recoveryCodes.js";
import { staff } from "../../../src/records/staff.js";
import { migrateTo } from "../../../src/tools/backup/restoreFile.js";
import { migrateDatabase } from "../../../src/tools/migrateDatabase.js";
import { browser, person, signedIn, tokenOf } from "../support/people.js";
import { shop } from "../support/shop.js";

const AT = "2026-11-25T09:00:00.000Z";

/** A manager's program that may all, and a technician. */
async function run() {
  const opened = await shop();
  const [tamsin, wilmot] = [await person(opened, "Tamsin", "manager"), await person(opened, "Wilmot", "technician")];
  const headers = { authorization: `Bearer ${await tokenOf(opened, tamsin, "read", "write", "admin")}` };
  const send = async (method: string, path: string, body: object = {}, more: Record<string, string> = {}) => {
    const answer = await opened.send(method, path, body, { ...headers, ...more });
    return { status: answer.status, replayed: answer.headers.get("idempotency-replayed"), body: await answer.json() };
  };
  const read = async (path: string) => (await opened.call(path, { headers })).json();
  return { ...opened, tamsin, wilmot, send, read };
}

/** Rows by which someone could come in. */
async function waysOf(db: Database, id: string) {
  const count = async (what: string) => (await db.all<{ n: number }>(sql.raw(`SELECT count(*) AS n FROM ${what}`)))[0]!.n;
  return {
    sessions: await count(`sessions WHERE staff_id = '${id}' AND ended_at IS NULL`),
    tokens: await count(`api_tokens WHERE staff_id = '${id}' AND revoked_at IS NULL`),
    invitations: await count(`invitations WHERE staff_id = '${id}' AND used_at IS NULL AND expires_at > '${AT}'`),
    passkeys: await count(`passkeys WHERE staff_id = '${id}'`),
    passphrases: await count(`passphrases WHERE staff_id = '${id}'`),
    codes: await count(`recovery_codes WHERE staff_id = '${id}'`),
  };
}
const NONE = { sessions: 0, tokens: 0, invitations: 0, passkeys: 0, passphrases: 0, codes: 0 };
const ALL = { sessions: 1, tokens: 1, invitations: 1, passkeys: 1, passphrases: 1, codes: 10 };

/** Every way in there is, of someone. */
async function giveAll(opened: Awaited<ReturnType<typeof run>>, id: string, by: string) {
  const { db } = opened;
  const at = await signedIn(opened, id);
  await tokenOf(opened, id, "read");
  await invitations.adding(db, (await newInvitation(id, by, AT)).row);
  await passphrases.setting(db, id, await newPassphrase("kettle thimble orchard", AT, { n: 16, r: 1, p: 1 }));
  for (const write of recoveryCodes.replacing(db, id, (await newRecoveryCodes(id, AT)).rows)) await write;
  const key = { name: "Passkey 1", site: "localhost", publicKey: "a", counter: 0, transports: [], madeAt: AT };
  await passkeys.adding(db, { id: `key-of-${id}`, staffId: id, ...key });
  return at;
}

describe("the staff, by a program", () => {
  it("is added by an invitation whose address is told once and opens, and is listed", async () => {
    const { send, read, ...opened } = await run();
    const key = { "idempotency-key": '"ottilie"' };
    const made = await send("POST", "/api/staff", { name: " Ottilie ", role: "technician" }, key);
    expect(made).toMatchObject({ status: 201, body: { name: "Ottilie", role: "technician", version: 1 } });
    const { address } = made.body.invitation;
    expect(await (await browser(opened).get(address)).text()).toContain("Welcome, Ottilie");
    const again = await send("POST", "/api/staff", { name: " Ottilie ", role: "technician" }, key);
    expect(again).toMatchObject({ status: 201, replayed: "true", body: { id: made.body.id } });
    expect(again.body.invitation).toEqual({ expiresAt: "2026-11-28T09:00:00.000Z" });
    expect(JSON.stringify(await opened.db.all(sql`SELECT * FROM idempotent_replies`))).not.toContain(address.split("=")[1]);
    const { items } = await read("/api/staff");
    expect(items.map(({ name }: { name: string }) => name)).toEqual(["Ottilie", "Tamsin", "Wilmot"]);
    expect(items[0]).toMatchObject({ invitedUntil: "2026-11-28T09:00:00.000Z" });
    expect(await read(`/api/staff/${made.body.id}`)).toEqual(items[0]);
    const newer = await send("POST", `/api/staff/${made.body.id}/invitations`);
    expect((await browser(opened).get(address)).status).toBe(410);
    expect((await browser(opened).get(newer.body.address)).status).toBe(200);
  });

  it("has names that nobody else has, roles there are, and people there are", async () => {
    const { send } = await run();
    expect(await send("POST", "/api/staff", { name: "WILMOT", role: "manager" })).toMatchObject({
      status: 422,
      body: { errors: [{ pointer: "/name", type: "/problems/name-taken" }] },
    });
    expect(await send("POST", "/api/staff", { name: "Orla\nFennimore", role: "owner" })).toMatchObject({
      status: 422,
      body: {
        errors: [{ pointer: "/name" }, { pointer: "/role", detail: expect.stringContaining("'manager', 'technician'") }],
      },
    });
    for (const path of ["invitations", "closing", "opening"])
      expect((await send("POST", `/api/staff/nobody/${path}`)).status).toBe(404);
    expect((await send("PUT", "/api/staff/nobody/role", { role: "manager" })).status).toBe(404);
  });

  it("keeps the last manager who can sign in, and tells what changed in the list of sign-ins", async () => {
    const { send, read, tamsin, wilmot } = await run();
    const last = { status: 409, body: { type: "/problems/last-manager" } };
    expect(await send("PUT", `/api/staff/${tamsin}/role`, { role: "technician" })).toMatchObject(last);
    expect(await send("POST", `/api/staff/${tamsin}/closing`)).toMatchObject(last);
    expect(await send("PUT", `/api/staff/${wilmot}/role`, { role: "manager" })).toMatchObject({
      status: 200,
      body: { role: "manager", version: 2 },
    });
    // Already so: nothing to do, nothing to tell.
    expect(await send("PUT", `/api/staff/${wilmot}/role`, { role: "manager" })).toMatchObject({
      status: 200,
      body: { version: 2 },
    });
    expect(await send("POST", `/api/staff/${wilmot}/closing`)).toMatchObject({ status: 200, body: { leftAt: AT } });
    expect(await send("POST", `/api/staff/${wilmot}/opening`)).toMatchObject({ status: 200, body: { version: 4 } });
    const { items } = await read("/api/sign-ins?limit=3");
    expect(items.map(({ what, name, by }: { what: string; name: string; by: string }) => [what, name, by])).toEqual([
      ["account opened again", "Wilmot", "Tamsin"],
      ["account closed", "Wilmot", "Tamsin"],
      ["role changed", "Wilmot", "Tamsin"],
    ]);
    expect((await read(`/api/sign-ins?limit=2&after=${items[1].id}`)).items).toMatchObject([{ what: "role changed" }]);
    // A manager without a way in is not the one who can sign in.
    expect(await send("POST", `/api/staff/${tamsin}/closing`)).toMatchObject(last);
  });

  it("is nobody's before anyone has an account", async () => {
    const { call } = await shop();
    for (const path of ["/api/staff", "/api/tokens", "/api/sign-ins"]) expect((await call(path)).status).toBe(401);
  });
});

describe("with an account end, all at once,", () => {
  it("sessions, tokens, passkeys, passphrase, codes and invitations, and none comes back with it", async () => {
    const opened = await run();
    const at = await giveAll(opened, opened.wilmot, opened.tamsin);
    expect(await waysOf(opened.db, opened.wilmot)).toEqual(ALL);
    expect((await at.get("/")).status).toBe(200);
    await opened.send("POST", `/api/staff/${opened.wilmot}/closing`);
    expect(await waysOf(opened.db, opened.wilmot)).toEqual(NONE);
    // What began while the account was being closed.
    await giveAll(opened, opened.wilmot, opened.tamsin);
    expect((await opened.send("POST", `/api/staff/${opened.wilmot}/opening`)).body).not.toHaveProperty("joinedAt");
    expect(await waysOf(opened.db, opened.wilmot)).toEqual(NONE);
    expect((await at.get("/")).status).toBe(303);
    const phrase = { name: "Wilmot", passphrase: "kettle thimble orchard" };
    expect((await browser(opened).send("/sign-in", phrase)).status).toBe(401);
  });

  it("or none of them, where one cannot be written", async () => {
    const opened = await run();
    const at = await giveAll(opened, opened.wilmot, opened.tamsin);
    await opened.db.run(sql`CREATE TRIGGER stuck BEFORE DELETE ON recovery_codes BEGIN SELECT json('not json'); END`);
    const { error } = console;
    console.error = () => undefined;
    expect((await opened.send("POST", `/api/staff/${opened.wilmot}/closing`)).status).toBe(500);
    console.error = error;
    expect(await waysOf(opened.db, opened.wilmot)).toEqual(ALL);
    expect((await at.get("/")).status).toBe(200);
    expect((await staff.find(opened.db, opened.wilmot))?.leftAt).toBeUndefined();
  });

  it("those of whoever left before this was so, once the tables are brought up to date", async () => {
    const { db, close } = await connectFile("file::memory:");
    await migrateTo(db, 15);
    const left = (id: string, at: string | null) =>
      db.run(sql`INSERT INTO staff VALUES (${id}, 1, ${AT}, ${AT}, ${id}, ${id}, 'manager', ${AT}, ${at})`);
    await left("stays", null);
    await left("left", AT);
    for (const id of ["stays", "left"]) {
      await giveAll({ db } as Awaited<ReturnType<typeof run>>, id, "stays");
      expect(await waysOf(db, id)).toEqual(ALL);
    }
    await migrateDatabase(db);
    expect([await waysOf(db, "stays"), await waysOf(db, "left")]).toEqual([ALL, NONE]);
    expect((await staff.all(db)).map(({ joinedAt }) => joinedAt)).toEqual([undefined, AT]);
    close();
  });
});

it("an invitation that two use at once lets in one", async () => {
  const opened = await run();
  const { address } = (await opened.send("POST", `/api/staff/${opened.wilmot}/invitations`)).body;
  const fields = { invitation: address.split("=")[1], passphrase: "kettle thimble orchard" };
  const both = await Promise.all([
    browser(opened).send("/sign-in/invitation", fields),
    browser(opened).send("/sign-in/invitation", fields),
  ]);
  expect(both.map(({ status }) => status).sort()).toEqual([200, 410]);
  expect(await waysOf(opened.db, opened.wilmot)).toMatchObject({ sessions: 1, invitations: 0, codes: 10 });
});

describe("tokens, by a program", () => {
  it("are made, told once, listed and revoked", async () => {
    const { send, read, call, tamsin } = await run();
    const key = { "idempotency-key": '"till"' };
    const made = await send("POST", "/api/tokens", { name: "Till", scopes: ["write", "read"] }, key);
    expect(made).toMatchObject({ status: 201, body: { name: "Till", by: "Tamsin", staffId: tamsin, scopes: ["read", "write"] } });
    const { token, ...kept } = made.body;
    const asks = () => call("/api/owners", { headers: { authorization: `Bearer ${token}` } }).then(({ status }) => status);
    expect(await asks()).toBe(200);
    expect((await send("POST", "/api/tokens", { name: "Till", scopes: ["write", "read"] }, key)).body).toEqual(kept);
    expect((await read("/api/tokens")).items).toContainEqual({ ...kept, usedAt: AT });
    expect(await send("POST", `/api/tokens/${kept.id}/revocation`)).toMatchObject({ status: 200, body: { revokedAt: AT } });
    expect(await asks()).toBe(401);
    expect(await send("POST", `/api/tokens/${kept.id}/revocation`)).toMatchObject({ status: 200 });
    expect((await send("POST", "/api/tokens/none/revocation")).status).toBe(404);
    expect((await read("/api/sign-ins")).items.map(({ what }: { what: string }) => what)).toEqual([
      "token revoked",
      "token made",
    ]);
  });

  it("make none that may more than themselves", async () => {
    const opened = await run();
    const headers = { authorization: `Bearer ${await tokenOf(opened, opened.tamsin, "write", "admin")}` };
    const make = (...scopes: string[]) => opened.send("POST", "/api/tokens", { name: "Till", scopes }, headers);
    expect([(await make("write", "admin")).status, (await make("read", "write")).status, (await make()).status]).toEqual([
      201, 422, 422,
    ]);
  });
});
