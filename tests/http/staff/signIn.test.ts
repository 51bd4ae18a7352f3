/** The whole way of people into the shop: the first account, every way in, what ends it, and what stays behind. */
import { describe, expect, it } from "vitest";
import { callerName } from "../../../src/http/guard/secret.js";
import { jobs } from "../../../src/records/jobs.js";
import { COST } from "../../../src/records/passphrases.js";
import { signInAttempts } from "../../../src/records/signInAttempts.js";
import { signingKey } from "../../../src/records/signingKey.js";
import { authenticator, base64url } from "../support/authenticator.js";
import { BASE } from "../support/documented.js";
import { browser, fieldsIn, person, signedIn, tokenOf } from "../support/people.js";
import { shop } from "../support/shop.js";

const SECRET = "a secret of the shop";
const PHRASE = "kettle thimble orchard";
const SHOP = {
  shopName: "Quellmarsh Repairs",
  currency: "EUR",
  locale: "en-GB",
  timeZone: "Europe/Prague",
  paper: "A4",
  hourlyRate: "60",
  tax: "none",
};
const codesIn = (page: string): string[] =>
  [...page.matchAll(/<code>([0-9A-Z]{5}(?:-[0-9A-Z]{5}){3})<\/code>/g)].map(([, code]) => code!);

/** A shop in which Tamsin has set up everything with a passphrase. */
async function settled(options: Parameters<typeof shop>[0] = {}) {
  const opened = await shop(options);
  const at = browser(opened);
  if (options.guard === "secret") await at.send("/sign-in", { secret: SECRET });
  const made = await at.send("/set-up", { ...SHOP, name: "Tamsin Oakhollow", passphrase: PHRASE });
  return { ...opened, at, made, codes: codesIn(await made.text()) };
}

describe("a shop on loopback without accounts", () => {
  it("is used without signing in, and its first page offers to set it up until that is put off", async () => {
    const opened = await shop();
    const at = browser(opened);
    expect(await (await at.get("/")).text()).toContain("Set up the shop");
    expect((await at.send("/set-up/later")).headers.get("location")).toBe("/");
    const page = await at.get("/");
    expect(page.status).toBe(200);
    expect(await page.text()).not.toContain("Go on without an account");
    expect((await at.get("/account")).headers.get("location")).toBe("/set-up");
  });

  it("wants sign-in everywhere once the first manager is set up, on loopback too, and keeps the shop's settings", async () => {
    const { app, call, made, codes, at } = await settled();
    expect(made.status).toBe(200);
    expect(new Set(codes).size).toBe(10);
    expect((await at.get("/")).status).toBe(200);
    expect(await (await at.get("/settings")).text()).toContain("Quellmarsh Repairs");
    expect(await (await at.get("/account")).text()).toContain("Tamsin Oakhollow");

    expect((await call("/api/owners")).status).toBe(401);
    const paths = new Set(
      app.routes.filter(({ method }) => method === "GET").map(({ path }) => path.replaceAll(/:\w+(\{.+?\})?/g, "x")),
    );
    const open: string[] = [];
    for (const path of paths) if ((await call(path)).status < 300) open.push(path);
    expect(open.sort()).toEqual(["/health", "/help", "/o", "/sign-in", "/style-0123abcd.css"]);
    expect((await at.get("/set-up")).headers.get("location")).toBe("/");
  });

  it("lets only one of two first managers through who come at once", async () => {
    const opened = await shop();
    const answers = await Promise.all(
      ["Tamsin", "Wilmot"].map((name) => browser(opened).send("/set-up", { ...SHOP, name, passphrase: PHRASE })),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 303]);
    const { rows } = await opened.db.run("SELECT name FROM staff");
    expect(rows).toHaveLength(1);
  });

  it.each([
    [{ name: "" }, "name"],
    [{ name: "Tamsin", passphrase: "too short" }, "passphrase"],
    [{ name: "Tamsin", passphrase: "" }, "passphrase"],
    [{ name: "Tamsin", passphrase: PHRASE, timeZone: "Nowhere/Town" }, "timeZone"],
  ])("gives the form back with what is wrong: %j", async (fields, wrong) => {
    const at = browser(await shop());
    const answer = await at.send("/set-up", { ...SHOP, ...(fields as Record<string, string>) });
    const page = await answer.text();
    expect(answer.status).toBe(422);
    expect(page).toContain(`id="${wrong}-wrong"`);
    expect(page).toContain('value="Quellmarsh Repairs"');
    expect(page).not.toContain(PHRASE);
  });

  it("takes another currency with its example rates", async () => {
    const opened = await shop();
    await browser(opened).send("/set-up", { ...SHOP, currency: "GBP", name: "Tamsin", passphrase: PHRASE });
    const { rows } = await opened.db.run(
      "SELECT json_extract(book, '$.currency') AS currency FROM rate_books ORDER BY version DESC LIMIT 1",
    );
    expect(rows).toMatchObject([{ currency: "GBP" }]);
  });
});

describe("a passphrase", () => {
  it("signs in with the name, however its case and spaces, and leads to where one was going", async () => {
    const opened = await settled();
    const at = browser(opened);
    expect((await at.get("/models?x=1")).headers.get("location")).toBe("/sign-in?to=%2Fmodels%3Fx%3D1");
    const answer = await at.send("/sign-in", { name: " tamsin  OAKHOLLOW ", passphrase: PHRASE, to: "/models?x=1" });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/models?x=1"]);
    expect((await at.get("/models")).status).toBe(200);
    const cookie = answer.headers.get("set-cookie")!;
    for (const attribute of ["HttpOnly", "SameSite=Lax", "Path=/", "Max-Age=604800"]) expect(cookie).toContain(attribute);
  });

  it("is kept and tried at the full cost where no other is asked for, a name nobody has too", async () => {
    const opened = await settled({ passphraseCost: undefined });
    expect((await opened.db.run("SELECT n, r, p FROM passphrases")).rows).toMatchObject([COST]);
    const tried = async (name: string, passphrase: string) => {
      const before = process.cpuUsage();
      const { status } = await browser(opened).send("/sign-in", { name, passphrase });
      const { user } = process.cpuUsage(before);
      return { status, user };
    };
    const [right, nobody] = [await tried("Tamsin Oakhollow", PHRASE), await tried("Nobody Here", PHRASE)];
    expect([right.status, nobody.status]).toEqual([303, 401]);
    // Processor time of this process, not of the clock: microseconds. At the tests' own cost it is a hundredth of it.
    expect(nobody.user).toBeGreaterThan(right.user / 4);
  });

  it("that is wrong, and a name nobody has, get the same answer; neither is repeated or logged", async () => {
    const opened = await settled();
    const answers = await Promise.all(
      ["Tamsin Oakhollow", "Nobody Here"].map((name) =>
        browser(opened).send("/sign-in", { name, passphrase: "a wrong passphrase" }),
      ),
    );
    const pages = await Promise.all(answers.map((answer) => answer.text()));
    expect(answers.map(({ status }) => status)).toEqual([401, 401]);
    expect(pages[0]!.replaceAll("Tamsin Oakhollow", "")).toBe(pages[1]!.replaceAll("Nobody Here", ""));
    expect(pages.join() + opened.lines.join()).not.toContain("a wrong passphrase");
    expect(opened.lines.join()).not.toMatch(/Tamsin|Nobody/);
  });

  it("is closed for a quarter of an hour after fifty wrong ones, wherever they came from, while another account and a browser that knows it go on", async () => {
    let address = 0;
    const opened = await settled({ addressOf: () => `192.0.2.${address}` });
    const wilmot = await person(opened, "Wilmot Farrow", "technician");
    const hers = browser(opened);
    expect((await hers.send("/sign-in", { name: "Tamsin Oakhollow", passphrase: PHRASE })).status).toBe(303);
    // 49 of them counted without the slow part.
    const account = { caller: await callerName("account:tamsin oakhollow", await signingKey(opened.db, "")), allowed: 50 };
    for (let n = 0; n < 49; n += 1) await signInAttempts.begin(opened.db, [account], new Date("2026-11-25T09:00:00.000Z"));
    address = 1;
    expect((await browser(opened).send("/sign-in", { name: "Tamsin Oakhollow", passphrase: "x" })).status).toBe(401);
    address = 2;
    const closed = await browser(opened).send("/sign-in", { name: "Tamsin Oakhollow", passphrase: PHRASE });
    expect([closed.status, closed.headers.get("retry-after")]).toEqual([429, "900"]);
    expect((await browser(opened).send("/sign-in", { name: "Wilmot Farrow", passphrase: "x" })).status).toBe(401);
    address = 1;
    expect((await hers.send("/sign-in", { name: "Tamsin Oakhollow", passphrase: PHRASE })).status).toBe(303);
    expect((await (await signedIn(opened, wilmot)).get("/")).status).toBe(200);
    opened.pass(900_000);
    expect((await browser(opened).send("/sign-in", { name: "Tamsin Oakhollow", passphrase: PHRASE })).status).toBe(303);
  });
});

describe("guesses sent at once", () => {
  it("are counted before they are tried: of 200 wrong passphrases ten, and the account stays open to other places", async () => {
    let address = "192.0.2.1";
    const opened = await settled({ addressOf: () => address });
    const answers = await Promise.all(
      Array.from({ length: 200 }, () =>
        browser(opened).send("/sign-in", { name: "Tamsin Oakhollow", passphrase: "a wrong one" }),
      ),
    );
    expect(answers.filter(({ status }) => status === 401)).toHaveLength(10);
    expect(answers.filter(({ status }) => status === 429)).toHaveLength(190);
    address = "192.0.2.2";
    expect((await browser(opened).send("/sign-in", { name: "Tamsin Oakhollow", passphrase: PHRASE })).status).toBe(303);
  });

  it("of tokens keep out nobody who holds the right one", async () => {
    const opened = await settled();
    const wilmot = await person(opened, "Wilmot Farrow", "technician");
    const asked = (token: string) => opened.call("/api/owners", { headers: { authorization: `Bearer ${token}` } });
    const right = await tokenOf(opened, wilmot, "read");
    for (let n = 0; n < 11; n += 1) await asked(`ohmwright_${"A".repeat(43)}`);
    expect([(await asked(`ohmwright_${"A".repeat(43)}`)).status, (await asked(right)).status]).toEqual([429, 200]);
  });
});

describe("a recovery code", () => {
  it("opens once, typed in any case, and new codes end the old", async () => {
    const opened = await settled();
    const [first, second] = opened.codes;
    const typed = first!.toLowerCase().replaceAll("-", " ").replaceAll("0", "o").replaceAll("1", "l");
    const at = browser(opened);
    expect((await at.send("/sign-in", { code: typed })).status).toBe(303);
    expect(await (await at.get("/account")).text()).toContain("9 of 10 are left");
    expect((await browser(opened).send("/sign-in", { code: first! })).status).toBe(401);
    const fresh = codesIn(await (await at.send("/account/codes")).text());
    expect(fresh).toHaveLength(10);
    expect((await browser(opened).send("/sign-in", { code: second! })).status).toBe(401);
    expect((await browser(opened).send("/sign-in", { code: fresh[9]! })).status).toBe(303);
  });

  it("spent by two at once lets one in", async () => {
    const opened = await settled();
    const answers = await Promise.all([1, 2].map(() => browser(opened).send("/sign-in", { code: opened.codes[0]! })));
    expect(answers.map(({ status }) => status).sort()).toEqual([303, 401]);
  });
});

describe("a passkey (W3C Web Authentication Level 3, 7.1 and 7.2)", () => {
  /** A shop whose manager came in by a passkey. */
  async function keyed() {
    const opened = await shop();
    const at = browser(opened);
    const device = await authenticator(BASE);
    const options = await at.options("/sign-in/new-passkey", { name: "Tamsin" });
    const made = await at.send("/set-up", { ...SHOP, name: "Tamsin", passkey: await device.create(options) });
    return { ...opened, at, made, device };
  }

  it("sets up the shop and signs in without a name being typed, again and again", async () => {
    const opened = await keyed();
    expect(opened.made.status).toBe(200);
    for (let n = 0; n < 2; n += 1) {
      const at = browser(opened);
      const passkey = await opened.device.get(await at.options("/sign-in/passkey"));
      expect((await at.send("/sign-in", { passkey })).status).toBe(303);
      expect((await at.get("/account")).status).toBe(200);
    }
  });

  it("asks for a discoverable credential and for a verified user, at this host's name", async () => {
    const at = browser(await shop());
    expect(await at.options("/sign-in/new-passkey", { name: "Tamsin" })).toMatchObject({
      rp: { id: "localhost" },
      attestation: "none",
      authenticatorSelection: { residentKey: "required", userVerification: "required" },
    });
    expect(await at.options("/sign-in/passkey")).toMatchObject({ rpId: "localhost", userVerification: "required" });
  });

  it.each([
    ["of another site", { origin: "https://evil.example" }],
    ["for another name", { name: "evil.example" }],
    ["of a user who was not verified", { userVerified: false }],
    ["to another challenge", { challenge: base64url(new Uint8Array(32)) }],
    ["for another account", { userHandle: base64url(new TextEncoder().encode("staff-wilmot")) }],
    ["whose counter went back, as a copy's would", { counter: 1 }],
    ["of another ceremony", { type: "webauthn.create" }],
  ])("refuses an answer %s", async (_, wrongs) => {
    const opened = await keyed();
    const good = browser(opened);
    await good.send("/sign-in", { passkey: await opened.device.get(await good.options("/sign-in/passkey"), { counter: 5 }) });
    const at = browser(opened);
    const passkey = await opened.device.get(await at.options("/sign-in/passkey"), { counter: 9, ...wrongs });
    const answer = await at.send("/sign-in", { passkey });
    expect(answer.status).toBe(401);
    expect(at.jar.has("ohmwright-staff")).toBe(false);
  });

  it("takes an answer once, within five minutes, from the browser that was asked", async () => {
    const opened = await keyed();
    const at = browser(opened);
    const options = await at.options("/sign-in/passkey");
    const asked = new Map(at.jar);
    const passkey = await opened.device.get(options);
    expect((await browser(opened).send("/sign-in", { passkey })).status).toBe(401);
    expect((await at.send("/sign-in", { passkey })).status).toBe(303);
    const again = browser(opened);
    for (const [name, value] of asked) again.jar.set(name, value);
    expect((await again.send("/sign-in", { passkey })).status).toBe(401);

    const late = browser(opened);
    const slow = await opened.device.get(await late.options("/sign-in/passkey"));
    opened.pass(300_000);
    expect((await late.send("/sign-in", { passkey: slow })).status).toBe(401);
  });

  it.each(["not JSON", "{}", '{"id":{"$gt":""}}', `{"id":"${"A".repeat(5000)}"}`])(
    "refuses %s without failing",
    async (passkey) => {
      const opened = await keyed();
      const at = browser(opened);
      await at.options("/sign-in/passkey");
      expect((await at.send("/sign-in", { passkey: passkey.slice(0, 6000) })).status).toBe(401);
    },
  );

  it("can be several, renamed and removed, but never the last way in", async () => {
    const opened = await keyed();
    const { at } = opened;
    const second = await authenticator(BASE);
    await at.send("/account/passkeys", { passkey: await second.create(await at.options("/sign-in/new-passkey")) });
    await at.send(`/account/passkeys/${second.id}/name`, { passkeyName: "Bench telephone" });
    const page = await (await at.get("/account")).text();
    expect(page).toContain('value="Bench telephone"');
    await at.send(`/account/passkeys/${opened.device.id}/removal`);
    const fresh = browser(opened);
    expect(
      (await fresh.send("/sign-in", { passkey: await opened.device.get(await fresh.options("/sign-in/passkey")) })).status,
    ).toBe(401);
    expect((await fresh.send("/sign-in", { passkey: await second.get(await fresh.options("/sign-in/passkey")) })).status).toBe(
      303,
    );
    const kept = await at.send(`/account/passkeys/${second.id}/removal`);
    expect([kept.status, await kept.text()]).toEqual([422, expect.stringContaining("only way in")]);
  });

  it("of someone else is neither renamed nor removed", async () => {
    const opened = await keyed();
    const wilmot = await signedIn(opened, await person(opened, "Wilmot", "technician"));
    await wilmot.send(`/account/passkeys/${opened.device.id}/removal`);
    await wilmot.send(`/account/passkeys/${opened.device.id}/name`, { passkeyName: "mine" });
    const { rows } = await opened.db.run("SELECT name FROM passkeys");
    expect(rows).toMatchObject([{ name: "Passkey 1" }]);
  });

  it("cannot be had at an address without a name; the page says where", async () => {
    const opened = await shop();
    const at = browser(opened, "http://127.0.0.1:4700");
    expect(await (await at.get("/set-up")).text()).toContain('href="http://localhost:4700/set-up"');
    const refused = await at.send("/sign-in/passkey", {}, { accept: "*/*" });
    expect([refused.status, await refused.json()]).toMatchObject([409, { type: "/problems/passkey-unusable" }]);
  });
});

describe("a session", () => {
  it("over HTTPS is a __Host- cookie: Secure, Path=/, no Domain (RFC 6265bis, 4.1.3.2)", async () => {
    const opened = await shop({ guard: "secret", secretOf: () => SECRET });
    const at = browser(opened, "https://shop.example");
    await at.send("/sign-in", { secret: SECRET });
    const made = await at.send("/set-up", { ...SHOP, name: "Tamsin", passphrase: PHRASE });
    const cookie = made.headers.getSetCookie().find((line) => line.includes("staff"))!;
    expect(cookie).toMatch(/^__Host-ohmwright-staff=/);
    for (const attribute of ["Secure", "HttpOnly", "SameSite=Lax", "Path=/"]) expect(cookie).toContain(attribute);
    expect(cookie).not.toMatch(/domain=/i);
    expect((await at.get("/")).status).toBe(200);
  });

  it("ends a week after its last use and a month after it began", async () => {
    const opened = await shop();
    const tamsin = await person(opened, "Tamsin", "manager");
    const day = 24 * 3_600_000;
    const idle = await signedIn(opened, tamsin);
    const used = await signedIn(opened, tamsin);
    opened.pass(6 * day);
    expect((await used.get("/")).headers.get("set-cookie")).toMatch(/^ohmwright-staff=.*Max-Age=604800/);
    opened.pass(2 * day);
    expect([(await idle.get("/")).status, (await used.get("/")).status]).toEqual([303, 200]);
    for (let n = 0; n < 3; n += 1) {
      opened.pass(6 * day);
      expect((await used.get("/")).status).toBe(200);
    }
    opened.pass(6 * day);
    expect((await used.get("/")).status).toBe(303);
  });

  it("cannot be altered, and ends when it is signed out, revoked elsewhere, or its person leaves", async () => {
    const opened = await shop();
    const tamsin = await person(opened, "Tamsin", "manager");
    const wilmot = await person(opened, "Wilmot", "technician");
    const [one, two, three] = [await signedIn(opened, tamsin), await signedIn(opened, tamsin), await signedIn(opened, wilmot)];
    const forged = browser(opened);
    forged.jar.set(
      "ohmwright-staff",
      one.jar.get("ohmwright-staff")!.replace(/^./, (first) => (first === "A" ? "B" : "A")),
    );
    expect((await forged.get("/")).status).toBe(303);

    const path = /\/account\/sessions\/[0-9a-f-]+\/end/.exec(await (await one.get("/account")).text())![0];
    expect((await three.send(path)).status).toBe(303);
    expect((await two.get("/")).status).toBe(200);
    await one.send(path);
    expect((await two.get("/")).status).toBe(303);

    const cookie = new Map(one.jar);
    expect((await one.send("/sign-out")).headers.get("location")).toBe("/sign-in");
    for (const [name, value] of cookie) one.jar.set(name, value);
    expect((await one.get("/")).status).toBe(303);

    const manager = await signedIn(opened, tamsin);
    expect((await three.get("/")).status).toBe(200);
    await manager.send(`/staff/${wilmot}/closing`);
    expect((await three.get("/")).status).toBe(303);
    await manager.send(`/staff/${wilmot}/opening`);
    expect((await three.get("/")).status).toBe(303);
  });

  it("of someone who left does nothing from the next request on, not even one that began while the account was being closed", async () => {
    const opened = await shop();
    const manager = await signedIn(opened, await person(opened, "Tamsin", "manager"));
    const wilmot = await person(opened, "Wilmot", "technician");
    const before = await signedIn(opened, wilmot);
    const saving = await before.get("/estimates/new").then(async (page) => fieldsIn(await page.text()));
    await manager.send(`/staff/${wilmot}/closing`);
    const begun = await signedIn(opened, wilmot);
    const kept = (await jobs.list(opened.db, { limit: 100 })).rows.length;
    for (const at of [before, begun]) {
      expect((await at.get("/")).headers.get("location")).toMatch(/^\/sign-in/);
      expect((await at.get("/api/owners")).status).toBe(401);
      const typed = {
        ...saving,
        "owner.name": "Orla Fennimore",
        "unit.maker": "Thornwick",
        "unit.model": "TR-4",
        intent: "save",
      };
      const answer = await at.send("/estimates/new", typed);
      expect([answer.status, await answer.text()]).toEqual([401, expect.stringContaining("Sign in")]);
    }
    expect((await jobs.list(opened.db, { limit: 100 })).rows).toHaveLength(kept);
    // Nor when it is opened again: a session or a token that was written meanwhile does not come back.
    const token = { authorization: `Bearer ${await tokenOf(opened, wilmot, "read")}` };
    await manager.send(`/staff/${wilmot}/opening`);
    for (const at of [before, begun]) expect((await at.get("/")).headers.get("location")).toMatch(/^\/sign-in/);
    expect((await opened.app.request("http://localhost:4700/api/owners", { headers: token })).status).toBe(401);
  });

  it("of every other browser ends with a new passphrase", async () => {
    const opened = await settled();
    const other = browser(opened);
    await other.send("/sign-in", { name: "Tamsin Oakhollow", passphrase: PHRASE });
    const wrong = await opened.at.send("/account/passphrase", {
      current: "not it at all",
      passphrase: "another good passphrase",
    });
    expect(wrong.status).toBe(422);
    await opened.at.send("/account/passphrase", { current: PHRASE, passphrase: "another good passphrase" });
    expect([(await opened.at.get("/")).status, (await other.get("/")).status]).toEqual([200, 303]);
  });
});

describe("what is kept", () => {
  it("holds no secret that opens anything, and no address", async () => {
    const opened = await settled({ addressOf: () => "192.0.2.77" });
    await browser(opened).send("/sign-in", { name: "Tamsin Oakhollow", passphrase: "wrong one here" });
    const token = /ohmwright_[\w-]{43}/.exec(
      await (
        await opened.at.send("/tokens", [
          ["name", "Till"],
          ["scopes", "read"],
        ])
      ).text(),
    )![0];
    const invited = /secret=([\w-]+)/.exec(
      await (await opened.at.send("/staff", { name: "Wilmot", role: "technician" })).text(),
    )![1]!;
    const session = opened.at.jar.get("ohmwright-staff")!.split(".")[0]!;
    const { rows } = await opened.db.run("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'find%'");
    let kept = "";
    for (const { name } of rows as unknown as { name: string }[])
      kept += JSON.stringify((await opened.db.run(`SELECT * FROM "${name}"`)).rows);
    for (const secret of [PHRASE, token, invited, session, ...opened.codes, "192.0.2.77"]) expect(kept).not.toContain(secret);
    expect(kept).toContain("Tamsin Oakhollow");
  });

  it("tells managers who came in, who was refused and what changed, by caller but not by address", async () => {
    const opened = await settled({ addressOf: () => "192.0.2.77" });
    await browser(opened).send("/sign-in", { name: "Tamsin Oakhollow", passphrase: "wrong one here" });
    const page = await (await opened.at.get("/staff")).text();
    for (const text of ["signed in", "set-up", "refused", "passphrase set", "account made"]) expect(page).toContain(text);
    expect(page).not.toContain("192.0.2.77");
  });
});

describe("the shop's secret, once someone has an account", () => {
  it("opens nothing any more, neither as token nor as pass", async () => {
    const opened = await shop({ guard: "secret", secretOf: () => SECRET });
    const pass = browser(opened);
    await pass.send("/sign-in", { secret: SECRET });
    expect((await pass.get("/")).status).toBe(200);
    await person(opened, "Tamsin", "manager");
    expect((await pass.get("/")).status).toBe(303);
    expect((await opened.call("/api/owners", { headers: { authorization: `Bearer ${SECRET}` } })).status).toBe(401);
    expect((await pass.send("/sign-in", { secret: SECRET })).status).toBe(422);
  });

  it("adds one more manager when no manager gets in, and that stands in the list of sign-ins", async () => {
    const opened = await shop({ guard: "secret", secretOf: () => SECRET });
    await person(opened, "Tamsin", "manager");
    const at = browser(opened);
    expect(await (await at.get("/sign-in")).text()).toContain("/sign-in/secret");
    const fields = { name: "Tamsin again", passphrase: PHRASE };
    expect((await at.send("/sign-in/secret", { ...fields, secret: "not the secret at all" })).status).toBe(401);
    expect((await at.send("/sign-in/secret", { ...fields, name: "tamsin", secret: SECRET })).status).toBe(422);
    expect((await at.send("/sign-in/secret", { ...fields, secret: SECRET })).status).toBe(200);
    const page = await (await at.get("/staff")).text();
    expect(page).toContain("shop&#39;s secret");
  });
});
