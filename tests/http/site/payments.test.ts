import { sql } from "drizzle-orm";
import { expect, it } from "vitest";
import { jobAsItStands } from "../../../src/acts/job.js";
import { owed } from "../../../src/acts/owed.js";
import { jobs as listed } from "../../../src/records/jobs.js";
import { unevenAmong } from "../../../src/records/payments.js";
import { eventsOf } from "../../../src/records/trail.js";
import { verifyShop } from "../../../src/tools/verify/verifyShop.js";
import { links } from "../../records/support/answer.js";
import { agreedJob, closed, HAND, worked } from "../../records/support/closed.js";
import { TAPE_ECHO } from "../../records/support/livedIn.js";
import { agreedPaidBefore } from "../support/agreedShop.js";
import { visitor, words } from "../support/noScript.js";
import { demo, shop } from "../support/shop.js";
import { come, issued, story } from "../support/story.js";

const page = `/jobs/${TAPE_ECHO}/payments`;

it("records a deposit and a balance once each, shows what is owed on job, board, bench, owner's page and account", async () => {
  const opened = await shop();
  const { db } = opened;
  const desk = visitor(opened);
  const { id: estimateId } = await agreedJob(db);
  await worked(db, TAPE_ECHO);
  const deposit = (await jobAsItStands(db, TAPE_ECHO))!.agreed()!.sheet.deposit.amount;
  const cash = (amount: number) => `£${(amount / 100).toFixed(2)}`;
  expect(words((await desk.get(`/jobs/${TAPE_ECHO}/bench`)).html)).toContain(`A deposit of ${cash(deposit)} is awaited`);

  const form = await desk.get(page);
  expect(form.html).toMatch(
    new RegExp(`value="${(deposit / 100).toFixed(2)}"[^>]*name="amount"|name="amount"[^>]*value="${(deposit / 100).toFixed(2)}"`),
  );
  const typed = { by: HAND, for: "deposit", how: "card", on: "2026-11-25" };
  const none = await desk.press(form, "Record it", { ...typed, amount: "0" });
  expect([none.status, words(none.html).includes("give more than 0")]).toEqual([422, true]);
  const ahead = await desk.press(form, "Record it", { ...typed, amount: "5", on: "2026-11-26" });
  expect(words(ahead.html)).toContain("a payment is recorded when it was made");
  const much = await desk.press(form, "Record it", { ...typed, amount: "99999" });
  expect([much.status, words(much.html).includes("is still to pay; tick the box below")]).toEqual([422, true]);
  expect((await jobAsItStands(db, TAPE_ECHO))!.payments).toEqual([]);
  const done = await desk.press(form, "Record it", { ...typed, amount: (deposit / 100).toFixed(2) });
  expect(done.status, words(done.html)).toBe(200);
  expect(words(done.html)).toContain("The payment is recorded.");

  const stands = (await jobAsItStands(db, TAPE_ECHO))!;
  expect(stands.payments).toMatchObject([{ for: "deposit", amount: deposit, how: "card", by: HAND, on: "2026-11-25" }]);
  const { total } = stands.agreed()!.sheet.totals;
  expect(words((await desk.get(`/jobs/${TAPE_ECHO}`)).html)).toContain(
    `Total ${cash(total)}, paid ${cash(deposit)}, still to pay ${cash(total - deposit)}.`,
  );
  expect(words((await desk.get("/")).html)).toContain(`${cash(deposit)} paid`);
  expect((await desk.get(`/jobs/${TAPE_ECHO}/bench`)).html).not.toContain("deposit-awaited");
  const receipt = await opened.app.request(`http://localhost:4700${page}/${stands.payments[0]!.id}/receipt.pdf`);
  expect(receipt.headers.get("content-type")).toBe("application/pdf");

  const sent = { by: HAND, deliveredTo: "ottilie@larkholt.example" };
  const link = await links(db, estimateId, sent, "2026-11-25T09:00:00.000Z");
  const owner = visitor(opened);
  const seen = await owner.send("/o/entry", [["link", link.secret.fragment]]);
  expect(words(seen.html)).toContain(`Paid so far: ${cash(deposit)}`);

  const closing = await desk.get(`/jobs/${TAPE_ECHO}/close-out`);
  const closed = await desk.press(closing, "Close the job", { by: HAND, warrantyDays: "90" });
  expect(closed.status, words(closed.html)).toBe(200);
  const { account } = (await jobAsItStands(db, TAPE_ECHO))!.closeOut!.result;
  expect(account.payments).toEqual([{ on: "2026-11-25", amount: deposit, for: "deposit" }]);
  const balance = account.totals.due;
  expect(words((await desk.get("/?state=closed")).html)).toContain(`${cash(balance)} unpaid`);
  const unsettled = async (at = "/") =>
    words((await desk.get(at)).html)
      .split("Closed and not settled")
      .at(2) ?? "";
  expect(await unsettled()).toMatch(
    new RegExp(`closed\\s+Take what is unpaid\\s+closed on 25 November 2026\\s+.*\\s+${cash(balance)} unpaid`),
  );
  expect([await unsettled("/?state=closed"), await unsettled("/?after=zzz")]).toEqual(["", ""]);
  const rest = { ...typed, for: "balance", amount: (balance / 100).toFixed(2) };
  await desk.press(await desk.get(page), "Record it", rest);
  expect(await unsettled()).toBe("");
  expect(words((await desk.get(page)).html)).toContain("still to pay £0.00.");
  expect(words((await owner.get("/o/estimate")).html)).toContain("£0.00 still to pay");

  // Typed twice by mistake: withdrawn, it counts nowhere and stays on record.
  await desk.press(await desk.get(page), "Record it", { ...rest, beyond: "yes" });
  const twice = (await jobAsItStands(db, TAPE_ECHO))!.payments;
  expect(twice).toHaveLength(3);
  expect(await unsettled()).toContain(`${cash(balance)} to pay back`);
  const asked = await desk.get(`${page}?withdraw=${twice.at(-1)!.id}`);
  const unsaid = await desk.press(asked, "Withdraw it", { by: HAND });
  expect(unsaid.status).toBe(422);
  const gone = await desk.press(asked, "Withdraw it", { by: HAND, reason: "typed twice" });
  expect(words(gone.html)).toContain("typed twice");
  expect(words(gone.html)).toContain("still to pay £0.00.");
  expect(await unsettled()).toBe("");
  const told = (await eventsOf(db, TAPE_ECHO)).map(({ is }) => is).filter((is) => is.startsWith("payment"));
  expect(told).toEqual(["payment recorded", "payment recorded", "payment recorded", "payment withdrawn"]);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
});

it("asks about a deposit above what is awaited of it, as from a second tab, and about money given back that is not owed", async () => {
  const opened = await shop();
  await agreedJob(opened.db);
  const desk = visitor(opened);
  const [one, other] = [await desk.get(page), await desk.get(page)];
  const typed = { by: HAND, for: "deposit", how: "card", on: "2026-11-25" };
  const paid = async () => (await jobAsItStands(opened.db, TAPE_ECHO))!.payments.map(({ for: what }) => what);
  expect(words((await desk.press(one, "Record it", typed)).html)).toContain("The payment is recorded.");
  const twice = await desk.press(other, "Record it", typed);
  expect(twice.status).toBe(422);
  expect(words(twice.html)).toContain("£0.00 is still awaited of the deposit; tick the box below if more was paid.");
  expect(await paid()).toEqual(["deposit"]);
  await desk.press(twice, "Record it", { beyond: "yes", amount: "20" });
  expect(await paid()).toEqual(["deposit", "deposit"]);

  const back = await desk.press(await desk.get(page), "Record it", { ...typed, for: "refund", amount: "20" });
  expect(back.status).toBe(422);
  expect(words(back.html)).toContain("£0.00 is to be given back; tick the box below if more was.");
  expect(await paid()).toHaveLength(2);
  expect(words((await desk.press(back, "Record it", { beyond: "yes" })).html)).toContain("The payment is recorded.");
  expect(await paid()).toEqual(["deposit", "deposit", "refund"]);
  // What is owed back is given back without a question.
  const { due } = owed((await jobAsItStands(opened.db, TAPE_ECHO))!);
  const much = { ...typed, for: "balance", beyond: "yes", amount: ((due! + 700) / 100).toFixed(2) };
  await desk.press(await desk.get(page), "Record it", much);
  const seven = await desk.press(await desk.get(page), "Record it", { ...typed, for: "refund", amount: "7" });
  expect(words(seven.html)).toContain("The payment is recorded.");
});

it("asks the owner for no more of a deposit that was paid when work began", async () => {
  const told = await story();
  const agrees = async () => {
    const { owner, seen } = await come(told, await issued(told));
    const check = await owner.press(seen, /^Agree to/, { name: "Žofie Kapradinová" });
    return { owner, seen: await owner.press(check, /^Agree to/) };
  };
  await agrees();
  await told.desk.press(await told.desk.get(`${told.job}/payments`), "Record it", { by: HAND, how: "card", on: "2026-11-25" });
  const found = { reason: "a cracked jack", work: "Clean a board", count: "9" };
  await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", found);
  const { owner, seen } = await agrees();
  expect(words(seen.html)).toMatch(/Deposit still to pay: £[\d.]+\./);
  expect(words(seen.html)).toMatch(/£[\d.]+ of it is paid; £[\d.]+ is still due\./);
  const log = await told.desk.get(`${told.job}/work-log`);
  expect(words((await told.desk.press(log, "Log it", { minutes: "5", person: HAND })).html)).toContain("Logged.");
  const then = words((await owner.get("/o/estimate")).html);
  expect(then).not.toContain("Deposit still to pay");
  expect(then).toMatch(/£[\d.]+ of it is paid and work has begun; the rest is due with the balance\./);
  expect(then).not.toContain("is still due.");
  for (const page of [told.job, `${told.job}/bench`, "/"])
    expect(words((await told.desk.get(page)).html)).not.toMatch(/is awaited|take the deposit/i);
});

it("says when what the estimate counted as paid no longer counts, and offers to put it on record", async () => {
  const { desk } = await agreedPaidBefore(4200);
  const before = await desk.get(page);
  expect(words(before.html)).toContain("The estimate says that £42.00 was paid before, and no such payment is on record.");
  expect(words(before.html)).toContain("from then on only what is on record does");
  const typed = { by: HAND, for: "deposit", how: "card", on: "2026-11-25" };
  const after = await desk.press(before, "Record it", { ...typed, amount: "10" });
  expect(words(after.html)).toContain("paid £10.00");
  expect(words(after.html)).toContain("It no longer counts, since payments are on record now.");
  const closing = await desk.get(`/jobs/${TAPE_ECHO}/close-out`);
  expect(words(closing.html)).toContain("The estimate counted £42.00 as paid already");

  const offered = await desk.get(`${page}?unrecorded`);
  expect(offered.html).toMatch(/id="amount"[^>]*value="42\.00"/);
  const both = await desk.press(offered, "Record it", { by: HAND });
  expect(words(both.html)).toContain("paid £52.00");
  expect(both.html).not.toContain('id="unrecorded"');
});

it("tells a form that was gone back to and changed that it was sent before", async () => {
  const opened = await shop();
  await agreedJob(opened.db);
  const desk = visitor(opened);
  const form = await desk.get(page);
  const typed = { by: HAND, for: "deposit", how: "card", on: "2026-11-25" };
  expect(words((await desk.press(form, "Record it", { ...typed, amount: "10" })).html)).toContain("The payment is recorded.");
  const again = await desk.press(form, "Record it", { ...typed, amount: "20" });
  expect(words(again.html)).toContain("This form was sent before and is done; gone back to and changed, it is not done again.");
  expect((await jobAsItStands(opened.db, TAPE_ECHO))!.payments).toHaveLength(1);
});

it("asks in closing once about a payment that is on record, with its tick, and takes it", async () => {
  const opened = await shop();
  const { db } = opened;
  await agreedJob(db);
  await worked(db, TAPE_ECHO);
  const desk = visitor(opened);
  const paid = { by: HAND, amount: "29.44", on: "2026-11-25", for: "balance", how: "cash" };
  await desk.press(await desk.get(page), "Record it", paid);
  const form = await desk.get(`/jobs/${TAPE_ECHO}/close-out`);
  expect(form.html).not.toContain('name="paidAgain"');
  const typed = Object.fromEntries(["amount", "on", "for", "how"].map((key) => [`payments.0.${key}`, paid[key as "on"]]));
  const asked = await desk.press(form, "Close the job", { by: HAND, "costs.otherwise": "28.00", ...typed });
  expect(asked.status).toBe(422);
  expect(words(asked.html)).toContain("balance of £29.44 is on record of 25 November 2026 already; tick the box below");
  const done = await desk.press(asked, "Close the job", { paidAgain: "yes" });
  expect(done.status, words(done.html)).toBe(200);
  expect((await jobAsItStands(db, TAPE_ECHO))!.payments).toHaveLength(2);
}, 60_000);

it("lists what is unsettled longest first, and what an account credits without a record of it takes no place there", async () => {
  const opened = await shop();
  const { db } = opened;
  const [first, second, third] = (await demo()).jobs.map(({ id }) => id) as [string, string, string];
  await closed(db, first, { closedOn: "2026-11-27" }, 1, "c1");
  await closed(db, second, { closedOn: "2026-11-26" }, 1, "c2");
  const { due: total } = (await closed(db, third, { closedOn: "2026-11-25" }, 1, "c3")).result.account.totals;
  const uneven = async (most: number) =>
    (await listed.list(db, { limit: 9 }, unevenAmong(500, most))).rows.map(({ id }) => id).toSorted();
  expect(await uneven(9)).toEqual([first, second, third].toSorted());
  expect(await uneven(1)).toEqual([third]);
  // As accounts were before payments had records of their own.
  await db.run(sql`drop trigger close_outs_stay`);
  const paid = (amount: number) => JSON.stringify({ on: "2026-11-25", amount, for: "other" });
  const credit = (...amounts: number[]) =>
    db.run(
      sql`update close_outs set basis = json_set(basis, '$.terms.payments', json(${`[${amounts.map(paid)}]`})) where id = 'c3'`,
    );
  await credit(100, 100, total - 200);
  expect(await uneven(9)).toEqual([first, second].toSorted());
  expect(await uneven(1)).toEqual([second]);
  const said = words((await visitor(opened).get("/")).html);
  expect(said.match(/closed on \d+ November/g)).toEqual(["closed on 26 November", "closed on 27 November"]);
  expect(said).toContain("All that are closed");
  await credit(100, 100, total - 201);
  expect(await uneven(1)).toEqual([third]);
});
