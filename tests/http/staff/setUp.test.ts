/** The first visit of an empty shop: what a price needs is asked, nothing typed is lost on any way through it, and the rates are the shop's own. */
import { describe, expect, it } from "vitest";
import type { RateBook } from "../../../src/estimating/input.js";
import { rateBooks } from "../../../src/records/rateBooks.js";
import { shopSettings } from "../../../src/records/settings.js";
import { fillOnce } from "../../../src/tools/firstShop.js";
import { madeOnce, migratedFile } from "../support/madeOnce.js";
import { words } from "../support/noScript.js";
import { browser, fieldsIn } from "../support/people.js";
import { shop } from "../support/shop.js";

const empty = madeOnce((db) => fillOnce(db, "empty", new Date("2026-11-25T09:00:00.000Z")), migratedFile);
const opened = async (options: Parameters<typeof shop>[0] = {}) => shop(options, (await empty()).path);

const SHOP = {
  shopName: "Quellmarsh Repairs",
  address: "3 Lock Lane\nLarkholt",
  currency: "EUR",
  timeZone: "Europe/Prague",
  locale: "de-DE",
  paper: "A4",
  hourlyRate: "62,50",
  tax: "included",
  taxName: "VAT",
  taxPercent: "19,5",
  diagnosisFee: "45",
  feeCredited: "yes",
};
const PHRASE = "kettle thimble orchard";
const YOU = { name: "Tamsin Oakhollow", passphrase: PHRASE };

async function bookOf({ db }: Awaited<ReturnType<typeof opened>>): Promise<RateBook> {
  return (await rateBooks.find(db, (await shopSettings(db)).rateBookId))!.book;
}

describe("setting up an empty shop", () => {
  it("is where its first page leads, with no figure of the example in the form, and goes on to the first estimate", async () => {
    const shopNow = await opened();
    const at = browser(shopNow);
    const first = await (await at.get("/")).text();
    expect(first).toContain('class="button primary" href="/set-up"');
    expect(words(first)).not.toContain("Go on without an account");
    const page = await (await at.get("/set-up")).text();
    expect(fieldsIn(page)).toMatchObject({ shopName: "", hourlyRate: "", diagnosisFee: "", taxName: "", taxPercent: "" });
    expect(page).toContain('data-guess="true"');
    const made = await at.send("/set-up", { ...SHOP, ...YOU });
    expect(made.status).toBe(200);
    expect(await made.text()).toContain('href="/estimates/new"');
    expect(await (await at.get("/")).text()).toContain('class="button primary" href="/estimates/new"');
  });

  it.each(["/set-up", "/set-up/later"])("by %s makes settings and a version of the rate book with these rates", async (path) => {
    const shopNow = await opened();
    const done = await browser(shopNow).send(path, { ...SHOP, ...YOU });
    expect([200, 303]).toContain(done.status);
    if (path === "/set-up/later") expect(done.headers.get("location")).toBe("/estimates/new");
    expect(await shopSettings(shopNow.db)).toMatchObject({
      ...{ name: "Quellmarsh Repairs", address: ["3 Lock Lane", "Larkholt"], currency: "EUR" },
      ...{ timeZone: "Europe/Prague", locale: "de-DE" },
    });
    const book = await bookOf(shopNow);
    expect(book).toMatchObject({
      ...{ currency: "EUR", inForceFrom: "2026-11-25", version: 2 },
      fees: { diagnosis: { amount: 4500, creditedOnAgreement: true }, storagePerDay: 0 },
      billing: { minimumCharge: 0 },
      tax: { included: true, labour: "standard", parts: "standard", freight: "standard", fees: "standard" },
    });
    expect(book.tax.categories).toContainEqual({ id: "standard", name: "VAT 19,5 %", percent: 19.5 });
    expect(book.labourClasses.map(({ attended, ratePerHour }) => (attended ? ratePerHour : 0))).toEqual([6250, 6250, 6250, 0]);
    for (const { attended, source } of book.labourClasses)
      expect(source.note === "the shop's own, given at set-up").toBe(attended);
    expect((await shopNow.db.run("SELECT count(*) AS n FROM rate_books")).rows).toMatchObject([{ n: 2 }]);
  });

  it("keeps what a mark-up leaves the shop where prices have the tax in, however often it is said anew", async () => {
    const shopNow = await opened();
    const marks = async () => (await bookOf(shopNow)).parts.markUp.map(({ percent }) => percent);
    expect(await marks()).toEqual([60, 50, 35, 25, 15]);
    const said = async (sent: object) => (await browser(shopNow).send("/set-up/later", { ...SHOP, ...sent })).status;
    expect(await said({ taxPercent: "20" })).toBe(303);
    expect(await marks()).toEqual([92, 80, 62, 50, 38]);
    expect(await said({ taxPercent: "20", hourlyRate: "70" })).toBe(303);
    expect(await marks()).toEqual([92, 80, 62, 50, 38]);
    expect(await said({ tax: "added" })).toBe(303);
    expect(await marks()).toEqual([60, 50, 35, 25, 15]);
  });

  it("without tax and diagnosis fee charges none", async () => {
    const shopNow = await opened();
    const { taxName: _, taxPercent: __, diagnosisFee: ___, ...bare } = SHOP;
    await browser(shopNow).send("/set-up/later", { ...bare, tax: "none" });
    const book = await bookOf(shopNow);
    expect(book.fees.diagnosis).toEqual({ amount: 0, creditedOnAgreement: false });
    expect(book.tax).toMatchObject({ categories: [{ id: "none", percent: 0 }], labour: "none", fees: "none" });
  });

  it("in a currency of other size moves what the example says of parts by tens, and keeps mark-up bands in order", async () => {
    const shopNow = await opened();
    const before = await bookOf(shopNow);
    await browser(shopNow).send("/set-up/later", { ...SHOP, currency: "HUF", hourlyRate: "12000" });
    const book = await bookOf(shopNow);
    expect(book.partTypes.map(({ typicalCost }) => typicalCost)).toEqual(
      before.partTypes.map(({ typicalCost }) => typicalCost * 100),
    );
    const bands = book.parts.markUp.flatMap(({ upTo }) => upTo ?? []);
    expect(bands).toEqual(before.parts.markUp.flatMap(({ upTo = 0 }) => (upTo ? [upTo * 100] : [])));
    // Three decimals, and a small figure: bands stay in order.
    const other = await opened();
    expect((await browser(other).send("/set-up/later", { ...SHOP, currency: "KWD", hourlyRate: "0,05" })).status).toBe(303);
  });

  it.each([
    [{ taxPercent: "250" }, "taxPercent", "at most 100"],
    [{ hourlyRate: "0" }, "hourlyRate", "is 0"],
    [{ hourlyRate: "" }, "hourlyRate", "is missing"],
    [{ hourlyRate: "-5" }, "hourlyRate", "at least 0"],
    [{ hourlyRate: "62.505,555" }, "hourlyRate", "decimals"],
    [{ tax: "" }, "tax", "is missing; choose one."],
    [{ tax: "none" }, "tax", "no tax is chosen"],
    [{ taxName: "" }, "taxName", "is missing"],
    [{ taxPercent: "" }, "taxPercent", "is missing"],
    [{ currency: "XTS" }, "currency", "ISO 4217"],
    [{ currency: "UYI", hourlyRate: "62" }, "currency", "ISO 4217"],
    [{ timeZone: "Nowhere/Town" }, "timeZone", "time zone"],
    [{ shopName: "" }, "shopName", "is missing"],
  ])("refuses %j beside the field, keeps all that was typed and writes nothing", async (changed, field, why) => {
    const shopNow = await opened();
    const sent = { ...SHOP, ...YOU, ...changed };
    for (const path of ["/set-up", "/set-up/later"]) {
      const answer = await browser(shopNow).send(path, sent);
      const page = await answer.text();
      expect(answer.status, path).toBe(422);
      expect(words(page.slice(page.indexOf(`id="${field}-wrong"`)).slice(0, 400)), path).toContain(why);
      const { passphrase: _, ...kept } = sent;
      expect(fieldsIn(page), path).toMatchObject(kept);
      expect(page, path).not.toContain(PHRASE);
    }
    expect(await shopSettings(shopNow.db)).toMatchObject({ version: 1 });
    expect(await bookOf(shopNow)).toMatchObject({ version: 1 });
  });

  it("names a rate of nothing and a tax of 250 % at once", async () => {
    const page = await (
      await browser(await opened()).send("/set-up/later", { ...SHOP, hourlyRate: "0", taxPercent: "250" })
    ).text();
    expect(page).toContain('id="hourlyRate-wrong"');
    expect(page).toContain('id="taxPercent-wrong"');
  });

  it("loses nothing where the way in is wrong, and writes neither shop nor account", async () => {
    const shopNow = await opened();
    const page = await (await browser(shopNow).send("/set-up", { ...SHOP, ...YOU, passphrase: "short" })).text();
    expect(fieldsIn(page)).toMatchObject({ ...SHOP, name: YOU.name });
    expect(page).toContain('id="passphrase-wrong"');
    expect(await bookOf(shopNow)).toMatchObject({ version: 1 });
  });

  it("loses nothing where the shop's secret is asked for first", async () => {
    const secret = "a secret of the shop";
    const shopNow = await opened({ guard: "secret", secretOf: () => secret });
    const at = browser(shopNow);
    const asked = await at.send("/set-up", { ...SHOP, ...YOU });
    const signIn = await asked.text();
    expect([asked.status, signIn]).toEqual([401, expect.stringContaining("What you typed is kept here")]);
    const offer = await (await at.send("/sign-in", { ...fieldsIn(signIn), secret })).text();
    expect(/<form[^>]* action="([^"]+)"/.exec(offer)![1]).toBe("/set-up");
    const back = await (await at.send("/set-up", fieldsIn(offer))).text();
    expect(fieldsIn(back)).toMatchObject({ ...SHOP, name: YOU.name });
    expect((await at.send("/set-up", { ...fieldsIn(back), passphrase: PHRASE })).status).toBe(200);
  });

  it("after going on without an account shows what was said, and an account alone makes no new version", async () => {
    const shopNow = await opened();
    const at = browser(shopNow);
    await at.send("/set-up/later", SHOP);
    const form = fieldsIn(await (await at.get("/set-up")).text());
    expect(form).toMatchObject({ ...SHOP, hourlyRate: "62,50", diagnosisFee: "45,00" });
    expect((await at.send("/set-up", { ...form, ...YOU })).status).toBe(200);
    expect(await bookOf(shopNow)).toMatchObject({ version: 2 });
  });

  it("without an account keeps the name that was given, and offers it in the forms that ask who", async () => {
    const at = browser(await opened());
    expect(fieldsIn(await (await at.get("/parts/goods-in")).text()).by).toBe("");
    expect((await at.send("/set-up/later", { ...SHOP, ...YOU })).status).toBe(303);
    expect(fieldsIn(await (await at.get("/parts/goods-in")).text()).by).toBe(YOU.name);
    expect((await at.get("/account")).status).not.toBe(200);
  });

  it("tells what is wrong with the form before a device makes a passkey", async () => {
    const at = browser(await opened());
    const ask = (fields: Record<string, string>) => at.send("/sign-in/new-passkey", fields);
    const refused = await ask({ ...SHOP, name: YOU.name, hourlyRate: "0" });
    expect([refused.status, await refused.text()]).toEqual([422, expect.stringContaining("Hourly rate is 0")]);
    expect((await ask({ ...SHOP, name: YOU.name })).status).toBe(200);
  });

  it("offers currencies by their names, and none of tests or funds", async () => {
    const page = await (await browser(await opened()).get("/set-up")).text();
    expect(page).toContain(">EUR, Euro</option>");
    for (const code of "XTS XXX XDR XAU CHE CHW UYI UYW BOV CLF COU MXV USN".split(" "))
      expect(page).not.toContain(`value="${code}"`);
  });
});

it("the demo shop is set up with its rates as they stand, in one press, and its rate book stays", async () => {
  const shopNow = await shop();
  const at = browser(shopNow);
  const form = fieldsIn(await (await at.get("/set-up")).text());
  expect(form).toMatchObject({
    hourlyRate: "48.00",
    tax: "added",
    taxName: "Sales tax",
    taxPercent: "20",
    diagnosisFee: "45.00",
  });
  expect((await at.send("/set-up", { ...form, ...YOU })).status).toBe(200);
  expect(await bookOf(shopNow)).toMatchObject({ version: 1 });
});
