/** A unit that its owner takes back before any estimate was issued: looked at up to what the receipt says, or not at all. The demo shop; people invented. */
import { expect, it } from "vitest";
import { closeOuts } from "../../src/records/closeOuts.js";
import { estimates } from "../../src/records/estimates.js";
import { sha256 } from "../../src/records/sha256.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { HAND, type Story, story } from "../http/support/story.js";
import { draftSaved } from "../records/support/drafts.js";
import { at } from "../records/support/livedIn.js";
import { api, cash, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");
const LIMIT = 4_500;

/** The draft as it came in, with so much authorised for looking. */
async function authorised(told: Story, policy: object) {
  const { db } = told.opened;
  const { id, version, jobId, rateBookId, rateBookVersion, input } = (await estimates.find(db, told.estimateId))!;
  await draftSaved(db, id, version, { jobId, rateBookId, rateBookVersion, input: { ...input, policy } }, at(0));
}

async function handedBack(told: Story, said: object = {}) {
  const form = await told.desk.get(`${told.job}/hand-back`);
  expect(form.status, words(form.html)).toBe(200);
  const closed = await told.desk.press(form, "Close the job", { by: HAND, to: NAME, "costs.otherwise": "28.00", ...said });
  expect(closed.status, words(closed.html)).toBe(200);
  return { form: flat(form.html), closed: flat(closed.html), record: (await closeOuts.standing(told.opened.db, told.jobId))! };
}

const rowOf = async (told: Story, state: string) => {
  const { html } = await told.desk.get(`/?state=${state}`);
  return html.includes(`href="${told.job}"`);
};

it("looked at for less than was authorised: the time is owed, the unit handed back, closed", async () => {
  const told = await story();
  const { db } = told.opened;
  await authorised(told, { diagnosisLimit: LIMIT });
  expect((await printed(told, `/estimates/${told.estimateId}/intake-receipt.pdf`, told.desk)).text).toContain(cash(LIMIT));
  const page = await told.desk.get(told.job);
  for (const way of ["Bench", "Work log", "Close and hand back"]) expect(page.html).toContain(`>${way}</a>`);

  const log = `/api/jobs/${told.jobId}/work-log`;
  const opening = { minutes: 20, person: HAND, workedOn: "2026-11-25" };
  expect((await told.opened.send("POST", log, opening)).status).toBe(201);
  expect((await told.opened.send("POST", log, { ...opening, minutes: 900 })).status).toBe(409);
  const repair = (await estimates.find(db, told.estimateId))!.input.items.find(({ part }) => part)!.id;
  const override = { by: HAND, reason: "told to go on at the counter" };
  expect((await told.opened.send("POST", log, { ...opening, item: repair, minutes: 30, override })).status).toBe(201);

  const { form, closed, record } = await handedBack(told, { accessories: "mains lead", note: "closed up as it came" });
  expect(form).toContain(
    `no estimate was issued. Owed is what was logged of opening it and looking for the fault, with the fee for that, and at most ${cash(LIMIT)}, as the receipt says`,
  );
  const { account, margin, closeOut } = record.result;
  expect([account.basis, closeOut, record.agreementId, record.basis.steps]).toEqual(["taken back", undefined, undefined, []]);
  // Twenty minutes at the bench; what was done without asking is the shop's.
  expect(account.lines).toHaveLength(1);
  expect(account.totals.total).toBeLessThan(LIMIT);
  expect(account.totals.total).toBeGreaterThan(0);
  expect(account.notCharged).toBeGreaterThan(0);
  expect(margin!.margin).toBe(account.totals.withoutTax - Math.round((50 * 2800) / 60));
  const { bytes, text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  expect(await sha256(bytes)).toBe(record.pdfHash);
  for (const want of [
    "Taken back before an estimate was issued: diagnosis and opening, no more than was authorised",
    `Total, tax included ${cash(account.totals.total)}`,
    `Handed back to ${NAME} on 25 November 2026. With it: mains lead.`,
    "closed up as it came",
    ...account.lines.map(({ amount }) => cash(amount)),
  ])
    expect(text).toContain(want);
  for (const never of ["Agreed", "Declined", "Warranty", "revision"]) expect(text).not.toContain(never);
  expect(closed).toContain("It was taken back before an estimate was issued;");
  expect(closed).toContain(`Total, tax included ${cash(account.totals.total)}`);
  expect(await api(told, `/api/jobs/${told.jobId}/close-out`)).toMatchObject({ result: { account: { basis: "taken back" } } });
  expect(await api(told, `/api/jobs/${told.jobId}`)).toMatchObject({ state: "closed", next: "take what is unpaid" });
  expect([await rowOf(told, "closed"), await rowOf(told, "draft")]).toEqual([true, false]);

  // It is over: nothing is issued, and a mistake is corrected on top, also once the draft is gone.
  const draft = (await estimates.find(db, told.estimateId))!;
  const late = await told.opened.send(
    "POST",
    `/api/estimates/${told.estimateId}/issue`,
    { by: HAND },
    { "if-match": `"${draft.version}"` },
  );
  expect(late.status).toBe(409);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
  const correction = await told.desk.get(`${told.job}/hand-back?correct`);
  await told.desk.press(correction, "Correct the close-out", { to: "a courier", reason: "he sent for it" });
  const corrected = (await closeOuts.standing(db, told.jobId))!;
  expect([corrected.corrects, corrected.result.account.handBack!.to]).toEqual([record.id, "a courier"]);
  expect(corrected.result.account.totals).toEqual(account.totals);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);

it("held to what was authorised, a fee is owed once somebody looked, and nothing where nobody did", async () => {
  const limited = await story();
  await authorised(limited, { diagnosisLimit: 1_000 });
  const log = { minutes: 10, person: HAND, workedOn: "2026-11-25" };
  const over = { ...log, minutes: 60, override: { by: HAND, reason: "told to at the counter" } };
  expect((await limited.opened.send("POST", `/api/jobs/${limited.jobId}/work-log`, over)).status).toBe(201);
  expect((await handedBack(limited)).record.result.account.totals.total).toBe(1_000);

  const fee = await story();
  await authorised(fee, { diagnosis: true });
  expect((await fee.opened.send("POST", `/api/jobs/${fee.jobId}/work-log`, log)).status).toBe(201);
  const { account } = (await handedBack(fee)).record.result;
  expect(account.lines.map(({ id }) => id)[0]).toBe("fee:diagnosis");
  expect(account.totals.total).toBe(account.limit.upTo);

  const untouched = await story();
  await authorised(untouched, { diagnosis: true });
  const { record, form } = await handedBack(untouched, { opened: "no" });
  expect(form).toContain("nothing where nothing was logged");
  expect(record.result.account.totals.total).toBe(0);
  expect((await printed(untouched, `${untouched.job}/final-account.pdf`, untouched.desk)).text).toContain(
    "Nothing is owed: the unit was taken back before anybody had opened it",
  );
  for (const { opened } of [limited, fee, untouched]) expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
}, 300_000);

it("a job whose draft was withdrawn is closed as well, and no estimate is begun for it any more", async () => {
  const told = await story();
  const { db } = told.opened;
  const page = await told.desk.get(`${told.job}/draft/withdrawal`);
  await told.desk.press(page, "Withdraw it", { by: HAND, reason: "begun on the wrong job" });
  expect((await told.desk.get(told.job)).html).toContain("close and hand the unit back");
  const { record, form } = await handedBack(told);
  expect(form).toContain("so nothing is owed");
  expect(record.result.account.totals.total).toBe(0);
  const job = flat((await told.desk.get(told.job)).html);
  expect(job).toContain("Closed on 25 November 2026 without an estimate: the account");
  expect(job).not.toContain("Start an estimate");
  const { text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  expect(text).toContain("Nothing is owed: no fee and no limit for finding the fault was agreed beforehand.");
  expect(await rowOf(told, "closed")).toBe(true);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);

it("once an estimate was issued its answer is recorded first", async () => {
  const told = await story();
  const form = await told.desk.get(`${told.job}/issue`);
  await told.desk.press(form, "Issue revision 1", { by: HAND });
  expect((await told.desk.get(`${told.job}/hand-back`)).status).toBe(409);
  expect((await told.desk.get(told.job)).html).not.toContain("Close and hand back");
}, 300_000);
