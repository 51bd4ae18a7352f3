/** The sign-in ends in the middle of a form: nothing is done, and nothing typed is lost. */
import { describe, expect, it } from "vitest";
import { takenBy } from "../../../src/http/guard/mediaType.js";
import { newRecoveryCodes, recoveryCodes } from "../../../src/records/recoveryCodes.js";
import { BASE } from "../support/documented.js";
import { browser, fieldsIn, person, signedIn } from "../support/people.js";
import { shop } from "../support/shop.js";

const AWKWARD = '  <b>"Über" & co</b>\r\nsecond line\n ';

async function expired() {
  const opened = await shop();
  const tamsin = await person(opened, "Tamsin", "manager");
  const { codes, rows } = await newRecoveryCodes(tamsin, "2026-11-25T09:00:00.000Z");
  for (const write of recoveryCodes.replacing(opened.db, tamsin, rows)) await write;
  const at = await signedIn(opened, tamsin);
  const end = () => opened.pass(8 * 24 * 3_600_000);
  return { ...opened, at, end, codes };
}

describe("a form sent after the sign-in ended", () => {
  it("comes back after signing in, and is sent by whoever is in now", async () => {
    const { at, end, codes, db } = await expired();
    const page = await (await at.get("/settings")).text();
    const fields = { ...fieldsIn(page), terms: AWKWARD.trim(), name: "Quellmarsh & Söhne" };
    end();
    const refused = await at.send("/settings", fields);
    const signIn = await refused.text();
    expect([refused.status, signIn]).toEqual([401, expect.stringContaining("What you typed is kept here")]);
    expect(await namesIn(db)).not.toContain("Quellmarsh & Söhne");

    const wrong = await (await at.send("/sign-in", { ...fieldsIn(signIn), code: "not a code" })).text();
    const kept = await at.send("/sign-in", { ...fieldsIn(wrong), code: codes[0]! });
    const offer = await kept.text();
    expect(offer).toContain("You are signed in as Tamsin");
    expect(await namesIn(db)).not.toContain("Quellmarsh & Söhne");
    expect(/<form[^>]* action="([^"]+)"/.exec(offer)![1]).toBe("/settings");
    const again = fieldsIn(offer);
    expect(again).toEqual(fields);
    expect((await at.send("/settings", again)).headers.get("location")).toBe("/settings?saved");
    expect(await namesIn(db)).toContain("Quellmarsh & Söhne");
  });

  it("of the intake shows the form again, filled in", async () => {
    const { at, end, codes } = await expired();
    const page = await (await at.get("/estimates/new?open=intake")).text();
    const fields = {
      ...fieldsIn(page),
      "owner.name": "Žofie Kapradinová",
      "unit.maker": "Quellmarsh",
      "job.reported": AWKWARD,
      intent: "save",
    };
    end();
    const signIn = await (await at.send("/estimates/new", fields)).text();
    const offer = await (await at.send("/sign-in", { ...fieldsIn(signIn), code: codes[0]! })).text();
    expect(offer).toContain('name="intent" value="recalculate"');
    const again = fieldsIn(offer);
    expect(again).not.toHaveProperty("intent");
    const form = await at.send("/estimates/new", { ...again, intent: "recalculate" });
    expect(form.status).toBe(200);
    const shown = fieldsIn(await form.text());
    expect(shown).toMatchObject({ "owner.name": "Žofie Kapradinová", "unit.maker": "Quellmarsh" });
  });

  it("keeps every field of a form, in order, also those that stand several times, and any text", async () => {
    const { at, end, codes } = await expired();
    end();
    const fields: [string, string][] = [
      ["a", AWKWARD],
      ["tick", "1"],
      ["tick", "2"],
      ["empty", ""],
      ["a", "\n\nagain"],
      ["ключ", "</textarea><script>"],
    ];
    const signIn = await (await at.send("/jobs/x/answers?y=1", fields)).text();
    const offer = await (await at.send("/sign-in", { ...fieldsIn(signIn), code: codes[0]! })).text();
    expect(offer).toContain('action="/jobs/x/answers?y=1"');
    expect(offer).not.toContain("<script>");
    const form = offer.slice(offer.indexOf("<form"), offer.indexOf("</form>"));
    const sent = [...form.matchAll(/<input type="hidden" name="([^"]*)" value="([^"]*)"\/>/g)].map(([, name, value]) => [
      plain(name!),
      plain(value!),
    ]);
    expect(sent).toEqual(fields);
  });

  it("is not kept, nor read to its end, above 64 kB or 500 fields", async () => {
    const { app, at, end } = await expired();
    end();
    const many = await at.send(
      "/settings",
      Array.from({ length: 501 }, (): [string, string] => ["a", ""]),
    );
    expect([many.status, await many.text()]).toEqual([401, expect.stringContaining("too long to be kept here")]);
    let read = 0;
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        read += 16_384;
        controller.enqueue(new Uint8Array(16_384).fill(97));
        if (read > 1_000_000) controller.close();
      },
    });
    const headers = { accept: "text/html", origin: BASE, "content-type": "application/x-www-form-urlencoded" };
    const long = await app.request(
      new Request(`${BASE}/settings`, { method: "POST", headers, body, duplex: "half" } as RequestInit),
    );
    const page = await long.text();
    expect([long.status, page.includes("too long to be kept here"), page.length < 20_000]).toEqual([401, true, true]);
    const before = process.cpuUsage();
    const parts = Array.from(
      { length: 100_000 },
      (_, n) => `--x\r\ncontent-disposition: form-data; name="a${n}"\r\n\r\n1\r\n`,
    ).join("");
    const answer = await app.request(`${BASE}/jobs/x/photos`, {
      method: "POST",
      headers: { ...headers, "content-type": "multipart/form-data; boundary=x", "content-length": String(parts.length) },
      body: `${parts}--x--`,
    });
    // A multipart of 100,000 parts: it was 8.7 s.
    expect([answer.status, process.cpuUsage(before).user < 1_000_000]).toEqual([401, true]);
  });

  it("is held for every page that takes one: none lets a stranger in, none loses a field", async () => {
    const { app, at, end } = await expired();
    end();
    const paths = app.routes
      .filter(({ method, path }) => method === "POST" && !/^\/(api|o|sign-in|sign-out)(\/|$)/.test(path))
      .map(({ path }) => ({ pattern: path, sent: path.replaceAll(/:\w+(\{.+?\})?/g, "x") }));
    const distinct = [...new Set(paths.map(({ sent }) => sent))];
    expect(distinct.length).toBeGreaterThan(15);
    for (const path of distinct) {
      const [type] = takenBy(paths.find((each) => each.sent === path)!.pattern);
      const files = type === "multipart/form-data";
      // HTML Standard, 4.10.22.8: with files every line break is CRLF.
      const note = files ? AWKWARD.replaceAll(/\r?\n/g, "\r\n") : AWKWARD;
      const body = files ? new FormData() : new URLSearchParams();
      body.set("note", AWKWARD);
      const answer = await at.ask(path, { method: "POST", body, headers: { origin: BASE } });
      expect(answer.status, path).toBe(401);
      expect(JSON.parse(fieldsIn(await answer.text()).held!), path).toMatchObject({ path, fields: [["note", note]] });
    }
  });

  it("holds no secret, which whoever signs in next could read", async () => {
    const { at, end, codes } = await expired();
    end();
    const secrets = {
      current: "kettle thimble orchard",
      passphrase: "anvil lantern meadow",
      passkey: "{}",
      secret: "lock and key",
    };
    const signIn = await (await at.send("/account/passphrase", { ...secrets, note: "kept" })).text();
    const offer = await (await at.send("/sign-in", { ...fieldsIn(signIn), code: codes[0]! })).text();
    expect(fieldsIn(offer)).toMatchObject({ note: "kept" });
    for (const page of [signIn, offer]) expect(page).not.toMatch(/kettle thimble|anvil lantern|lock and key/);
  });

  it("of the largest size a form may have is held too", async () => {
    const { at, end, codes } = await expired();
    end();
    const fields = { note: 'Ж"\n'.repeat(4_000) };
    const signIn = await (await at.send("/settings", fields)).text();
    const offer = await at.send("/sign-in", { ...fieldsIn(signIn), code: codes[0]! });
    expect([offer.status, (await offer.text()).length > 16_000]).toEqual([200, true]);
  });

  it("with files keeps the rest and asks for the files again", async () => {
    const { app, at, end, codes } = await expired();
    end();
    const body = new FormData();
    body.set("note", "the back panel");
    body.set("photo", new File(["x"], "back.jpg", { type: "image/jpeg" }));
    const answer = await app.request(`${BASE}/jobs/x/photos`, {
      method: "POST",
      body,
      headers: { origin: BASE, accept: "text/html" },
    });
    const offer = await (await at.send("/sign-in", { ...fieldsIn(await answer.text()), code: codes[0]! })).text();
    expect(offer).toContain('enctype="multipart/form-data"');
    expect(offer).toMatch(/<input type="file"[^>]* name="photo"/);
    expect(fieldsIn(offer)).toMatchObject({ note: "the back panel" });
  });

  it.each(["https://evil.example/x", "//evil.example", "/\\evil.example", "javascript:alert(1)"])(
    "is never sent to %s",
    async (path) => {
      const opened = await expired();
      const held = JSON.stringify({ path, kind: "plain", fields: [["a", "b"]], files: [] });
      const offer = await (await browser(opened).send("/sign-in", { held, code: opened.codes[0]! })).text();
      expect(/<form[^>]* action="([^"]+)"/.exec(offer)![1]).toMatch(/^\/([^/\\]|$)/);
    },
  );

  it("that is nonsense is left out", async () => {
    const opened = await expired();
    for (const [at, held] of ["{", '{"path":1}', "[]"].entries())
      expect((await browser(opened).send("/sign-in", { held, code: opened.codes[at]! })).status).toBe(303);
  });
});

const namesIn = async (db: Awaited<ReturnType<typeof expired>>["db"]) =>
  JSON.stringify((await db.run("SELECT name FROM settings")).rows);
const plain = (html: string) =>
  html
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&#39;", "'")
    .replaceAll("&amp;", "&");
