/** What whoever is refused reads. The demo shop (invented). */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { answerByLink } from "../../src/acts/answerByLink.js";
import { askQuestion } from "../../src/acts/askQuestion.js";
import { asLogged } from "../../src/acts/asWork.js";
import { beginUnpaid } from "../../src/acts/beginUnpaid.js";
import { bringIn } from "../../src/acts/bringIn.js";
import { changeRateBook } from "../../src/acts/changeRateBook.js";
import { countKind, countShelf } from "../../src/acts/countStock.js";
import { donorName } from "../../src/acts/donor.js";
import { priceExtraFault } from "../../src/acts/extraFault.js";
import { shapeFaults } from "../../src/acts/fault.js";
import { faultOf, namesIn, namesWrong } from "../../src/acts/line.js";
import { mergePartKind } from "../../src/acts/mergePartKind.js";
import { addModel } from "../../src/acts/model.js";
import { addOffer } from "../../src/acts/offer.js";
import { orderFromList, placeOrder } from "../../src/acts/order.js";
import { addPasskey } from "../../src/acts/ownAccount.js";
import { shopPaperwork } from "../../src/acts/paperwork.js";
import { addPhotos, showPhotos } from "../../src/acts/photos.js";
import { gone } from "../../src/acts/record.js";
import { recordAnswer } from "../../src/acts/recordAnswer.js";
import { replyToQuestion } from "../../src/acts/replyToQuestion.js";
import { closeAccount } from "../../src/acts/staff.js";
import { takePayment, withdrawPayment } from "../../src/acts/takePayment.js";
import { stopTimer } from "../../src/acts/timer.js";
import { makeToken } from "../../src/acts/tokens.js";
import { withdrawDraft } from "../../src/acts/withdrawDraft.js";
import { withdrawEntry } from "../../src/acts/withdrawEntry.js";
import type { Database } from "../../src/records/database.js";
import { offers } from "../../src/records/offers.js";
import { eventsOf } from "../../src/records/trail.js";
import { photoRefusalText } from "../../src/wording/photoRefusal.js";
import { openShop, shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { agreedJob, closed, closing, HAND } from "../records/support/closed.js";
import { at, draftOf, given, issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { put } from "../records/support/put.js";
import { close, stands } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

it("an answer cannot be corrected once the account is final, and says since when it is", async () => {
  const { db } = await shop();
  await closed(db);
  const job = await stands(db, TAPE_ECHO);
  const changed = { corrects: job.agreed()!.agreement.id, reason: "misread", answer: "declined" } as const;
  const refused = await answer(db, "later", await given(db, job.current!.id, changed), at(9999));
  expect(refused).toMatchObject({
    is: "job closed",
    detail: expect.stringMatching(/^The job was closed on .* 2026, and its account is final\.$/),
  });
});

it("work is let begin before a deposit only where one is awaited, and once", async () => {
  const { db } = await shop();
  const begin = (reason: string) => done(beginUnpaid, deskAt(db, at(4)), { by: HAND, reason }, { job: TAPE_ECHO });
  const detail = "No deposit is awaited on this job.";
  expect(await begin("an old friend")).toMatchObject({ ok: false, refusal: { is: "nothing awaited", detail } });
  await agreedJob(db);
  expect(await begin("an old friend")).toMatchObject({ ok: true, answer: { reason: "an old friend" } });
  const before = `${HAND} let it begin already: an old friend`;
  expect(await begin("so they say")).toMatchObject({ ok: false, refusal: { is: "nothing awaited", detail: before } });
});

it("photos are not ticked on a draft that was issued meanwhile", async () => {
  const { db } = await shop();
  await issued(db, (await draftOf(db, TAPE_ECHO)).id);
  const on = { job: TAPE_ECHO, unfit: async () => [] };
  expect(await done(showPhotos, deskAt(db, at(4)), { onPaper: [] }, on)).toMatchObject({
    ok: false,
    refusal: {
      is: "estimate issued",
      detail: "There is no open draft any more, so nothing was kept. Begin the next revision first.",
    },
  });
});

it("what was withdrawn says by whom and why, and what still stands says nothing", () => {
  const record = { id: "o", createdAt: at(0), updatedAt: at(0), version: 2 };
  const withdrawal = { at: at(1), by: HAND, reason: "sold out" };
  expect(gone("offer", { ...record, withdrawal })).toEqual({
    is: "withdrawn already",
    detail: `This offer was withdrawn by ${HAND}: sold out. Add it again if it was right after all.`,
  });
  expect(gone("offer", record)).toBeUndefined();
});

it("a program makes no token that may more than its own", async () => {
  const { db } = await shop();
  const desk = { ...deskAt(db, at(1)), scopes: ["read"] as const };
  const outcome = await done(makeToken, desk, { name: "more", scopes: ["read", "write"] }, {});
  expect(outcome).toMatchObject({
    ok: false,
    refusal: {
      is: "input refused",
      errors: [{ pointer: "/scopes", detail: "What it may: a token makes none that may more than itself, here write." }],
    },
  });
});

it("a line names the part that is fitted now by a name on the list, and a fault of another line is none of its own", async () => {
  const { db } = await shop();
  const { input } = await draftOf(db, TAPE_ECHO);
  const rateBook = (await stands(db, TAPE_ECHO)).inputOf((await stands(db, TAPE_ECHO)).draft!).rateBook;
  const names = namesIn({ ...input, rateBook }, []);
  const [work] = names.work;
  expect(namesWrong(names, { work: work!.name, fittedType: "no such part" }).map(({ pointer }) => pointer)).toEqual([
    "/fittedType",
  ]);
  const negative = (pointer: string) =>
    faultOf({ name: "count negative", at: "Lamp", what: "Lamp", count: -1, pointer } as never, 3);
  expect([negative("/items/3/count").pointer, negative("/items/4/count").pointer]).toEqual(["/count", ""]);
});

it("an entry of the log counts with its work, its minutes, and the money of its parts", () => {
  const book = { rateBook: { parts: { markUp: [{ percent: 0 }] } } } as never;
  const entry = { id: "e", person: HAND, workedOn: "2026-11-25" };
  expect(asLogged({ ...entry, item: "w01", minutes: 5 }, book)).toEqual({ item: "w01", minutes: 5 });
  expect(asLogged({ ...entry, item: "w01", parts: 300 }, book)).toEqual({ item: "w01", parts: 300 });
});

it("a fault shows what was given, cut off where it is long", () => {
  const told = (count: string) => {
    const fields = z.object({ count: z.number() });
    return shapeFaults(fields.safeParse({ count }).error!.issues, { count })[0]!.detail;
  };
  expect(told("x".repeat(60))).toContain(`"${"x".repeat(60)}"`);
  expect(told("x".repeat(60))).not.toContain("...");
  expect(told("x".repeat(61))).toContain(`"${"x".repeat(60)}"...`);
});

it("a donor is called by what is known of it", () => {
  expect(donorName({ maker: "Threnwick", model: "Cadence 3" })).toBe("Donor Threnwick Cadence 3");
});

it("a payment stands on the trail of its job", async () => {
  const { db } = await shop();
  await agreedJob(db);
  const value = { for: "deposit", amount: 100, on: at(4).slice(0, 10), how: "card", by: HAND, beyond: true } as const;
  expect(await done(takePayment, deskAt(db, at(4)), value, { job: TAPE_ECHO })).toMatchObject({ ok: true });
  expect((await eventsOf(db, TAPE_ECHO)).at(-1)).toMatchObject({ is: "payment recorded", content: { by: HAND } });
});

it("what is added names records that are there", async () => {
  const { db } = await shop();
  const value = { kind: "no-such", source: "Quillmere", on: "2026-11-20", currency: "GBP", price: 100, packSize: 1, leadDays: 4 };
  const outcome = await done(addOffer, deskAt(db, at(4)), { ...value, state: "new" } as never, {} as never);
  expect(outcome).toMatchObject({
    ok: false,
    refusal: {
      errors: [
        {
          pointer: "/kind",
          name: "record unknown",
          detail: expect.stringContaining(" is 'no-such', which names no record; add that one first."),
        },
      ],
    },
  });
});

it("a link to a job that is gone opens nothing, to ask or to answer", async () => {
  const { db } = await shop();
  const gone = { link: { id: "l", jobId: "nowhere" }, estimate: "none" } as never;
  const refusal = { is: "not found", detail: "This link opens no such revision." };
  expect(await done(askQuestion, deskAt(db, at(4)), { text: "Why?" }, gone)).toMatchObject({ ok: false, refusal });
  const answer = { answer: "declined", name: "Ottilie Vantongeren", hash: "0" } as const;
  expect(await done(answerByLink, deskAt(db, at(4)), answer, gone)).toMatchObject({ ok: false, refusal });
});

it("a passkey that the browser did not send is asked for again", async () => {
  const { db } = await shop();
  expect(await done(addPasskey, deskAt(db, at(4)), {} as never, {} as never)).toMatchObject({
    ok: false,
    refusal: { errors: [{ pointer: "/passkey", detail: "The browser sent no passkey; press the button again." }] },
  });
});

it("the shop's tax number is on its papers", async () => {
  const { db } = await shop();
  const { settings } = await stands(db, TAPE_ECHO);
  expect(shopPaperwork({ ...settings, taxNumber: "DEMO-TAX-1" }).shop).toMatchObject({ taxNumber: "DEMO-TAX-1" });
});

const GOODS = {
  ...({ receivedOn: "2026-11-25", kind: "el-1000u-50", source: "Pindrake Components", state: "new" } as const),
  ...{ currency: "GBP", by: HAND, pieces: 10, paid: 905 },
};

const ODD_MAP = {
  assemblies: [{ id: "a", name: "Board", sort: "board", behind: ["no-such"], access: { by: "fasteners", fasteners: [] } }],
};

describe("on a shop as it stands", () => {
  let [db, shut]: [Database, () => Promise<void>] = [undefined as never, undefined as never];
  beforeAll(async () => {
    ({ db, close: shut } = await openShop());
    const { id: _, version: __, createdAt: ___, updatedAt: ____, ...offer } = (await offers.find(db, "o09"))!;
    await put(db, offers, "dollars", { ...offer, currency: "USD" }, at(0));
  });
  afterAll(() => shut());
  const desk = () => deskAt(db, at(4));
  const [on, by] = [{ job: TAPE_ECHO }, HAND];
  const money = { for: "deposit", amount: 100, on: "2026-11-25", how: "card", by } as const;
  const [shelf, why] = [
    { reason: "looked", by },
    { by, reason: "typed on the wrong job" },
  ];
  const wrong = (pointer: string, name: string, detail: string) => ({ is: "input refused", errors: [{ pointer, name, detail }] });
  const none = (detail: string, is = "not found") => ({ is, detail });
  const draft = async () => (await draftOf(db, TAPE_ECHO)).id;
  const withPhotos = () => ({ ...desk(), photos: {} as never });
  const dark = { id: "p", name: "dark.jpg", read: { is: "photo missing" } } as const;

  it.each<[string, () => Promise<unknown>, object]>([
    [
      "a payment of nothing",
      () => done(takePayment, desk(), { ...money, amount: 0 }, on),
      wrong("/amount", "number out of range", "Amount: give more than 0; money given back is a refund."),
    ],
    [
      "a payment of tomorrow",
      () => done(takePayment, desk(), { ...money, on: "2026-11-26" }, on),
      wrong("/on", "day ahead", "Day: a payment is recorded when it was made, not before."),
    ],
    [
      "a refund of what nobody paid",
      () => done(takePayment, desk(), { ...money, for: "refund" }, on),
      wrong("/amount", "more than owed", "Amount: £0.00 was paid, and more cannot be given back; tick the box below if it was."),
    ],
    [
      "a payment to withdraw that is not there",
      () => done(withdrawPayment, desk(), why, { ...on, payment: "p" }),
      none("There is no such payment on this job."),
    ],
    [
      "a shelf without a count",
      () => done(countShelf, desk(), { ...shelf, counted: {} }, {}),
      wrong("", "key missing", "Nothing was counted: type a number beside a part first."),
    ],
    [
      "a count of a part that is no more, on the shelf",
      () => done(countShelf, desk(), { ...shelf, counted: { gone: 1 } }, {}),
      wrong("/counted/gone", "record unknown", "There is no part kind 'gone' any more."),
    ],
    [
      "a count of a part that is no more",
      () => done(countKind, desk(), { ...shelf, kind: "gone", counted: 1 }, {}),
      wrong("/kind", "record unknown", "There is no part kind 'gone' any more."),
    ],
    [
      "an order of no source",
      () => done(orderFromList, desk(), { by, packs: { o09: 1 } } as never, { serves: new Map() }),
      wrong("", "key missing", "Nothing was ordered: press the button below the source that you order from."),
    ],
    [
      "an order of no packs",
      () => done(orderFromList, desk(), { by, from: "nobody", packs: { o09: 0 } } as never, { serves: new Map() }),
      wrong("", "key missing", "Nothing to order: that source has no parts on the list any more, or all its packs are 0."),
    ],
    [
      "an order in two currencies",
      () =>
        done(
          placeOrder,
          desk(),
          {
            ...{ source: "Pindrake Components", orderedOn: "2026-11-25", by },
            lines: ["o09", "dollars"].map((offer) => ({ offer, packs: 1 })),
          },
          {},
        ),
      wrong("/lines/1/offer", "number out of range", "Offer 'dollars' is in USD; an order is in one currency."),
    ],
    [
      "no photo",
      () => done(addPhotos, withPhotos(), { of: "intake" }, { ...on, sent: [] }),
      wrong("/photo", "picture unreadable", photoRefusalText({ is: "photo missing" }, "Photos to add")),
    ],
    [
      "one photo that cannot be read",
      () => done(addPhotos, withPhotos(), { of: "intake" }, { ...on, sent: [dark] }),
      wrong("/photo", "picture unreadable", photoRefusalText({ is: "photo missing" }, "dark.jpg")),
    ],
    [
      "a photo that cannot be read among others",
      () => done(addPhotos, withPhotos(), { of: "intake" }, { ...on, sent: [dark, dark] }),
      wrong("/photo", "picture unreadable", `${photoRefusalText({ is: "photo missing" }, "dark.jpg")} None was added.`),
    ],
    [
      "a rate book that starts before the one in force",
      () =>
        done(changeRateBook, desk(), { inForceFrom: "2020-01-01", name: "Earlier" } as never, { id: "bench-book", seen: "any" }),
      {
        is: "input refused",
        errors: [
          {
            pointer: "/inForceFrom",
            name: "starts too early",
            detail: expect.stringMatching(/cannot start before it, on 2020-01-01/),
          },
        ],
      },
    ],
    [
      "a model whose map names a place that it does not have",
      () => done(addModel, desk(), { maker: "Threnwick", model: "Cadence 3", map: ODD_MAP } as never, {} as never),
      { is: "input refused", errors: [{ pointer: "/map/assemblies/0/behind/0" }] },
    ],
    [
      "a timer to pause that does not run",
      () => done(stopTimer, desk(), { person: by } as never, on),
      none("No timer of this person is running on this job, so there is nothing to pause.", "no timer running"),
    ],
    ["an account that is not there", () => done(closeAccount, desk(), {}, { staff: "s" }), none("There is no such account.")],
    [
      "a reply to no question",
      () => done(replyToQuestion, desk(), { text: "Yes.", by }, { question: "q" }),
      none("There is no such question."),
    ],
    [
      "an entry to withdraw that is not there",
      () => done(withdrawEntry, desk(), why, { ...on, entry: "e" }),
      none("The work log of this job has no such entry; open the log again and choose one.", "log entry unknown"),
    ],
    [
      "an entry of a job that is not there",
      () => done(withdrawEntry, desk(), why, { job: "nowhere", entry: "e" }),
      none("There is no such job."),
    ],
    [
      "a draft to withdraw that is gone",
      () => done(withdrawDraft, desk(), why, { id: "gone" }),
      none("There is no such estimate; the draft may be withdrawn already."),
    ],
    [
      "a part merged into itself",
      () => done(mergePartKind, desk(), { into: "el-10u-50", by }, { id: "el-10u-50" }),
      wrong("/into", "record unknown", "Part to keep: this is the part itself; choose the other one."),
    ],
    [
      "an answer to no estimate",
      () =>
        done(
          recordAnswer,
          desk(),
          { answer: "agreed", by, channel: "e-mail", writing: "a letter", recordedBy: by },
          { estimate: "e" },
        ),
      none("There is no such estimate."),
    ],
    [
      "an answer to a draft",
      async () =>
        done(
          recordAnswer,
          desk(),
          { answer: "agreed", by, channel: "e-mail", writing: "a letter", recordedBy: by },
          { estimate: await draft() },
        ),
      { is: "estimate not issued" },
    ],
    [
      "goods of a line that was never ordered",
      () => done(bringIn, desk(), { ...GOODS, orderLineId: "l" }, {}),
      wrong("/orderLineId", "record unknown", "There is no order line 'l'; choose one that is on record."),
    ],
    [
      "an extra fault in no place",
      () => done(priceExtraFault, desk(), { own: "Clean it", minutes: 5, placeSize: "small" } as never, on),
      wrong("/where", "key missing", "Where is missing; name the place whose way is said below."),
    ],
    [
      "an extra fault in a place of no size",
      () => done(priceExtraFault, desk(), { own: "Clean it", minutes: 5, where: "Lid", placeMounting: "screws" } as never, on),
      wrong("/placeSize", "key missing", "Size is missing; count what holds the place, or give its size and how it is mounted."),
    ],
    [
      "an extra fault in a place of no mounting",
      () => done(priceExtraFault, desk(), { own: "Clean it", minutes: 5, where: "Lid", placeSize: "small" } as never, on),
      wrong("/placeMounting", "key missing", "Mounting is missing; say how a place of that size is mounted."),
    ],
    [
      "a declined job that was never issued and is closed with an account",
      () => close(db, { job: TAPE_ECHO, when: at(4) }, closing()),
      { is: "nothing agreed" },
    ],
  ])("%s is refused, and it says why", async (_, act, refusal) => {
    expect(await act()).toMatchObject({ ok: false, refusal });
  });
});
