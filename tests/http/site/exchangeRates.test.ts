/** Offers in another currency, from the first rate to the job's log, by pages, programs and CSV. The demo shop and its rates are invented. */
import { describe, expect, it } from "vitest";
import { addExtraFault } from "../../../src/acts/extraFault.js";
import { exchangeRates, newestRates } from "../../../src/records/exchangeRates.js";
import { goodsInPage } from "../../../src/records/goodsIn.js";
import { offers } from "../../../src/records/offers.js";
import { deskAt, done } from "../../acts/support/desk.js";
import { at, draftOf, TAPE_ECHO } from "../../records/support/livedIn.js";
import { visitor, words } from "../support/noScript.js";
import { shop } from "../support/shop.js";

const BY = "Wilhelmina Stråhle";
const PART = "output-pentode";
const YEN = { currency: "JPY", rate: "0.0052", on: "2026-11-20", source: "the shop's bank" };
const OFFER = {
  ...{ kind: PART, source: "Hoshimi Parts", on: "2026-11-20", currency: "JPY", price: 2400, packSize: 1, leadDays: 12 },
  ...{ state: "new", freight: 1800, dutyPercent: 2.5, importTaxPercent: 20, parcelFee: 800 },
};

describe("an exchange rate", () => {
  it("is typed on its page as the shop writes decimals, changed, and withdrawn with who and why", async () => {
    const opened = await shop();
    const desk = visitor(opened);
    const wrong = await desk.press(await desk.get("/parts/rates"), "Save", { ...YEN, currency: "YEN", rate: "0" });
    expect(wrong.status).toBe(422);
    expect(words(wrong.html)).toContain("'YEN' is not a currency of ISO 4217");
    expect(words(wrong.html)).toContain("the rate is '0'; give a decimal above 0");
    const saved = await desk.press(wrong, "Save", YEN);
    expect(words(saved.html)).toMatch(/JPY\s+20 November 2026\s+0\.0052 GBP\s+the shop's bank/);
    const [kept] = await exchangeRates.where(opened.db, undefined);
    expect(kept).toMatchObject({ ...YEN, into: "GBP" });
    await desk.press(await desk.get(`/parts/rates/${kept!.id}`), "Save", { rate: "0.00525" });
    expect(await exchangeRates.find(opened.db, kept!.id)).toMatchObject({ rate: "0.00525", into: "GBP" });
    await desk.press(await desk.get(`/parts/rates/${kept!.id}`), "Withdraw it", { reason: "of last year", by: BY });
    expect(await newestRates(opened.db)).toEqual([]);
  });

  it("may have its currency typed small; it is kept in capitals", async () => {
    const opened = await shop();
    const desk = visitor(opened);
    await desk.press(await desk.get("/parts/rates"), "Save", { ...YEN, currency: "jpy" });
    expect(await exchangeRates.where(opened.db, undefined)).toMatchObject([{ currency: "JPY" }]);
  });

  it.each([
    ["of a day ahead", { on: "2099-01-01" }, "/on", "exchange rate ahead"],
    ["of the shop's own currency", { currency: "GBP" }, "/currency", "exchange rate of itself"],
    ["below nothing", { rate: "-0.5" }, "/rate", "exchange rate unreadable"],
    ["with more digits than are kept", { rate: "0.1234567890123" }, "/rate", "exchange rate unreadable"],
  ])("%s is refused by name", async (_, more, pointer, name) => {
    const { send } = await shop();
    const answer = await send("POST", "/api/exchange-rates", { ...YEN, ...more });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ pointer, name }] });
  });

  it("comes from CSV, once however often the file comes, each row told by its column", async () => {
    const { send, db } = await shop();
    const text = "Code,Date,Rate,From\nJPY,2026-11-20,0.0052,the bank\nBHD,2026-11-20,2.0945,the bank\n";
    const bad = await (await send("POST", "/api/imports/exchange-rates", { text: text.replace("2.0945", "none") })).json();
    expect(bad).toMatchObject({ changes: 0, rows: [{ is: "new" }, { is: "wrong", faults: [{ column: "Rate" }] }] });
    expect(await (await send("POST", "/api/imports/exchange-rates", { text, carryOut: true })).json()).toMatchObject({
      written: 2,
    });
    expect(await (await send("POST", "/api/imports/exchange-rates", { text, carryOut: true })).json()).toMatchObject({
      written: 0,
    });
    expect(await newestRates(db)).toEqual([
      { currency: "BHD", rate: "2.0945", on: "2026-11-20", source: "the bank", into: "GBP" },
      { currency: "JPY", rate: "0.0052", on: "2026-11-20", source: "the bank", into: "GBP" },
    ]);
  });
});

describe("an offer in another currency", () => {
  it("wants a rate, keeps its own currency with the parcel's fee in the shop's, and is frozen with its rate in the estimate", async () => {
    const opened = await shop();
    const { send, db } = opened;
    const refused = await send("POST", "/api/offers", OFFER);
    expect(await refused.json()).toMatchObject({ errors: [{ pointer: "/currency", name: "currency differs" }] });
    expect((await send("POST", "/api/exchange-rates", YEN)).status).toBe(201);
    const { id } = (await (await send("POST", "/api/offers", OFFER)).json()) as { id: string };
    const page = await visitor(opened).get(`/parts/offers/${id}`);
    expect(page.html).toMatch(/name="price"[^>]*value="2400"|value="2400"[^>]*name="price"/);
    expect(page.html).toMatch(/name="parcelFee"[^>]*value="8\.00"|value="8\.00"[^>]*name="parcelFee"/);

    for (const other of await offers.where(db, undefined))
      if (other.kind === PART && other.id !== id)
        await send("POST", `/api/offers/${other.id}/withdrawal`, { reason: "sold out", by: BY });
    const said = { reason: "worn", part: PART } as Parameters<typeof addExtraFault.decide>[1];
    expect(await done(addExtraFault, deskAt(db, at(1)), said, { job: TAPE_ECHO })).toMatchObject({ ok: true });
    const { input, sheet } = await draftOf(db, TAPE_ECHO);
    expect(input.exchange).toEqual([YEN]);
    // 2,400 yen are 12.48; duty 0.31; import tax on 12.79 is 2.56.
    const line = sheet!.lines.find(({ sort, part }) => sort === "part" && part?.kind === PART)!;
    expect(line.from).toContainEqual({ is: "landed", packSize: 1, amount: 1535 });
    expect(sheet!.adjustments).toContainEqual(expect.objectContaining({ id: "freight:Hoshimi Parts", amount: 936 + 800 }));
    await send("POST", "/api/exchange-rates", { ...YEN, rate: "0.9", on: "2026-11-21" });
    expect((await draftOf(db, TAPE_ECHO)).input.exchange).toEqual([YEN]);
  });

  it("is what goods in of another currency become, at the rate that was paid", async () => {
    const { send, db } = await shop();
    const goods = {
      ...{ receivedOn: "2026-11-20", kind: PART, source: "Hoshimi Parts", state: "new", pieces: 4, paid: 9600, currency: "JPY" },
      ...{ packSize: 1, leadDays: 12, by: BY },
    };
    const refused = await send("POST", "/api/goods-in", goods);
    expect(await refused.json()).toMatchObject({ errors: [{ pointer: "/currency", name: "currency differs" }] });
    expect(await (await send("POST", "/api/goods-in", { ...goods, rate: "0" })).json()).toMatchObject({
      errors: [{ pointer: "/rate", name: "exchange rate unreadable" }],
    });
    expect((await send("POST", "/api/goods-in", { ...goods, rate: "0.0053" })).status).toBe(201);
    const [brought] = await goodsInPage(db, 1);
    expect(await offers.find(db, brought!.offerId)).toMatchObject({ currency: "JPY", price: 2400 });
    expect(await newestRates(db)).toEqual([
      { currency: "JPY", rate: "0.0053", on: "2026-11-20", source: "Goods in from Hoshimi Parts", into: "GBP" },
    ]);
  });
});
