/** What whoever is refused reads. The demo shop (invented). */
import { expect, it } from "vitest";
import { z } from "zod";
import { answerByLink } from "../../src/acts/answerByLink.js";
import { askQuestion } from "../../src/acts/askQuestion.js";
import { asLogged } from "../../src/acts/asWork.js";
import { beginUnpaid } from "../../src/acts/beginUnpaid.js";
import { donorName } from "../../src/acts/donor.js";
import { shapeFaults } from "../../src/acts/fault.js";
import { faultOf, namesIn, namesWrong } from "../../src/acts/line.js";
import { addOffer } from "../../src/acts/offer.js";
import { addPasskey } from "../../src/acts/ownAccount.js";
import { shopPaperwork } from "../../src/acts/paperwork.js";
import { showPhotos } from "../../src/acts/photos.js";
import { gone } from "../../src/acts/record.js";
import { takePayment } from "../../src/acts/takePayment.js";
import { makeToken } from "../../src/acts/tokens.js";
import { eventsOf } from "../../src/records/trail.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { agreedJob, closed, HAND } from "../records/support/closed.js";
import { at, draftOf, given, issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { stands } from "./support/bench.js";
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
