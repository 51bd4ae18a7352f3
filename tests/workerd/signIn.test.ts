/** What signs people in runs inside workerd: scrypt under nodejs_compat, and the checks of passkeys. The tables are this test's own to fill. */
import { beforeAll, describe, expect, inject, it } from "vitest";
import type { Bindings } from "../../src/http/bindings.js";
import { scrypt } from "../../src/records/secrets.js";
import worker from "../../src/worker.js";
import { authenticator } from "../http/support/authenticator.js";
import { browser } from "../http/support/people.js";

const BASE = "https://shop.example";
const SECRET = "the secret of this test";
const bindings: Bindings = { OHMWRIGHT_SECRET: SECRET, LIBSQL_URL: inject("peopledUrl") };
const app = { request: (request: Request) => worker.fetch(request, bindings) } as never;

describe("signing in, in workerd", () => {
  beforeAll(async () => {
    await worker.fetch(new Request(`${BASE}/health`), bindings);
  });

  // RFC 7914, section 12, third vector, from memory.
  it("has the scrypt of RFC 7914", async () => {
    const made = await scrypt("pleaseletmein", new TextEncoder().encode("SodiumChloride"), 64, { n: 16384, r: 8, p: 1 });
    const hex = [...made].map((byte) => byte.toString(16).padStart(2, "0")).join("");
    expect(hex).toBe(
      "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887",
    );
  });

  it("sets up the shop by the secret and a passkey, then signs in by it, and by a passphrase", async () => {
    const device = await authenticator(BASE);
    const at = browser({ app }, BASE);
    expect((await at.send("/sign-in", { secret: SECRET })).status).toBe(303);
    const created = await device.create(await at.options("/sign-in/new-passkey", { name: "Tamsin" }));
    const shop = {
      shopName: "Quellmarsh",
      currency: "GBP",
      locale: "en-GB",
      timeZone: "Europe/Prague",
      paper: "A4",
      hourlyRate: "60",
      tax: "none",
    };
    const made = await at.send("/set-up", { ...shop, name: "Tamsin", passkey: created });
    expect([made.status, await made.text()]).toEqual([200, expect.stringContaining("Recovery codes of Tamsin")]);
    expect([...at.jar.keys()]).toContain("__Host-ohmwright-staff");

    const again = browser({ app }, BASE);
    expect((await again.send("/sign-in", { passkey: await device.get(await again.options("/sign-in/passkey")) })).status).toBe(
      303,
    );
    expect((await again.get("/account")).status).toBe(200);
    await again.send("/account/passphrase", { passphrase: "kettle thimble orchard" });
    const typed = browser({ app }, BASE);
    expect((await typed.send("/sign-in", { name: "Tamsin", passphrase: "kettle thimble orchard" })).status).toBe(303);
    expect((await typed.get("/staff")).status).toBe(200);
    const other = browser({ app }, BASE);
    const forged = await device.get(await other.options("/sign-in/passkey"), { origin: "https://evil.example" });
    expect((await other.send("/sign-in", { passkey: forged })).status).toBe(401);
  });
});
