/** Agreed to, and then nothing of it could be done, or not all. The demo shop; people invented. */
import { expect, it } from "vitest";
import { closeOuts } from "../../src/records/closeOuts.js";
import { outcomesOf } from "../../src/records/outcomes.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, type Story, story, type Visitor } from "../http/support/story.js";
import { api, cash, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");

async function agreed(): Promise<{ told: Story; owner: Visitor }> {
  const told = await story();
  const { owner, seen } = await come(told, await issued(told));
  const check = await owner.press(seen, /^Agree to this work/, { name: NAME });
  const after = await owner.press(check, /^Agree/);
  expect(after.status, words(after.html)).toBe(200);
  return { told, owner };
}

const NOT_DONE = { "untouched.all": "not done", by: HAND, "costs.otherwise": "28.00" };

it("charges looking as promised where nothing that was agreed was done, says so before it is closed, and gives no warranty", async () => {
  const { told, owner } = await agreed();
  const { db } = told.opened;
  const { sheet, input } = (await api<{
    sheet: { ifDeclined: { amount: number; diagnosis: number } };
    input: { items: { id: string }[] };
  }>(told, `/api/estimates/${told.estimateId}`))!;
  expect(input.items.length).toBeGreaterThan(0);
  const open = { minutes: 10, person: HAND, workedOn: "2026-11-25" };
  expect((await told.opened.send("POST", `/api/jobs/${told.jobId}/work-log`, open)).status).toBe(201);

  const form = await told.desk.get(`${told.job}/close-out`);
  const shown = await told.desk.press(form, "Work out the account", NOT_DONE);
  const says = `Owed is what declining would have cost: the fee and the time logged for opening and looking, at most ${cash(sheet.ifDeclined.amount)}, as promised. There is no warranty.`;
  expect(flat(shown.html)).toContain(says);
  // Pressed at once, the total has moved since it was shown.
  const early = await told.desk.press(form, "Close the job", NOT_DONE);
  expect([early.status, flat(early.html).includes(says)]).toEqual([409, true]);

  const waived = flat((await told.desk.press(shown, "Work out the account", { looking: "waived" })).html);
  expect(waived).toContain("Total, tax included £0.00");

  const closed = await told.desk.press(shown, "Close the job");
  expect(closed.status, words(closed.html)).toBe(200);
  const record = (await closeOuts.standing(db, told.jobId))!;
  const { account } = record.result;
  expect(account.basis).toBe("nothing done");
  expect(account.lines.filter(({ id }) => id.startsWith("fee:")).map(({ id }) => id)).toEqual(["fee:diagnosis"]);
  expect(account.totals.total).toBeGreaterThan(sheet.ifDeclined.diagnosis);
  expect(account.totals.total).toBeLessThanOrEqual(sheet.ifDeclined.amount);
  expect(account.warranty.days).toBe(0);
  expect((await outcomesOf(db, told.jobId))[0]).toMatchObject({ declined: true, billedTotal: account.totals.total });

  const { text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  expect(text).toContain("Nothing that was agreed was done: diagnosis and opening, no more than declining would have cost");
  expect(text).toContain(`Total, tax included ${cash(account.totals.total)}`);
  for (const never of ["Warranty", "warranty", "credited"]) expect(text).not.toContain(never);
  const theirs = flat((await owner.get("/o/estimate")).html);
  expect(theirs).toContain(
    `Nothing that was agreed was done Final account of 25 November 2026: total ${cash(account.totals.total)}, tax included`,
  );
  expect(theirs).not.toContain("The work is done");
  expect((await verifyShop(db)).mismatch).toBeUndefined();

  // Corrected to what it should have been: warranty and what was learned follow.
  const page = await told.desk.get(`${told.job}/close-out?correct`);
  const counts = [...page.html.matchAll(/name="(done\.[^"]+)"/g)].map(([, name]) => [name!, ""]);
  const asked = await told.desk.press(page, "Work out the account", { reason: "typed wrongly", ...Object.fromEntries(counts) });
  const again = await told.desk.press(asked, "Work out the account", { "untouched.all": "done, not timed" });
  const corrected = await told.desk.press(again, "Correct the close-out");
  expect(corrected.status, words(corrected.html)).toBe(200);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
  const done = (await closeOuts.standing(db, told.jobId))!.result.account;
  expect([done.basis, done.warranty.days > 0]).toEqual(["fixed price", true]);
  expect(flat((await owner.get("/o/estimate")).html)).toContain("The work is done Corrected final account of");
}, 300_000);

it("asks whether it was opened, where none is logged, and takes no 'no' where what is closed in was worked on", async () => {
  const { told } = await agreed();
  const form = await told.desk.get(`${told.job}/close-out`);
  expect(form.html).not.toContain('name="opened"');
  const shown = await told.desk.press(form, "Work out the account", NOT_DONE);
  const unsaid = await told.desk.press(shown, "Close the job");
  expect([unsaid.status, flat(unsaid.html).includes("Was the unit opened? is missing;")]).toEqual([422, true]);
  const { items } = (await api<{ input: { items: { id: string; assembly: string }[] } }>(
    told,
    `/api/estimates/${told.estimateId}`,
  ))!.input;
  const inside = {
    item: items.find(({ assembly }) => assembly === "supply")!.id,
    minutes: 10,
    person: HAND,
    workedOn: "2026-11-25",
  };
  const entry = await told.opened.send("POST", `/api/jobs/${told.jobId}/work-log`, inside);
  const { id } = (await entry.json()) as { id: string };
  const value = {
    ...{ by: HAND, closedOn: "2026-11-25", warrantyDays: 0, oldParts: { is: "returned" }, untouched: { all: "not done" } },
    ...{ unlogged: "none used", done: Object.fromEntries(items.map((item) => [item.id, 0])), opened: "no" },
  };
  const shut = await told.opened.send("POST", `/api/jobs/${told.jobId}/close-outs`, value);
  expect([shut.status, await shut.json()]).toMatchObject([422, { errors: [{ pointer: "/opened", name: "opening told" }] }]);
  const out = { by: HAND, reason: "it was another unit" };
  await told.opened.send("POST", `/api/jobs/${told.jobId}/work-log/${id}/withdrawal`, out);

  const closed = await told.desk.press(unsaid, "Close the job", { opened: "no" });
  expect(closed.status, words(closed.html)).toBe(200);
  const { account } = (await closeOuts.standing(told.opened.db, told.jobId))!.result;
  expect(account.handBack).toEqual({ accessories: [], opened: false });
  const { text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  expect(text.replaceAll(/\s+/g, " ")).toContain("The unit was not opened, and nothing was taken out of it.");
  expect(text).not.toContain("Handed back");
  const fee = cash(account.totals.total);
  expect(flat((await told.desk.get(told.job)).html)).toContain(`Used, fees and charges included: ${fee}`);
  expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
}, 300_000);

it("tells the owner which of the agreed work was not done", async () => {
  const { told, owner } = await agreed();
  const { input } = (await api<{ input: { items: { id: string }[] } }>(told, `/api/estimates/${told.estimateId}`))!;
  const jack = "Tighten a loose jack";
  const override = { by: HAND, reason: "it was in the hand" };
  const own = { own: jack, minutes: 10, person: HAND, workedOn: "2026-11-25", override };
  expect((await told.opened.send("POST", `/api/jobs/${told.jobId}/work-log`, own)).status).toBe(201);
  const form = await told.desk.get(`${told.job}/close-out`);
  const said = { "untouched.all": "done, not timed", [`untouched.each.${input.items[0]!.id}`]: "not done", by: HAND };
  const shown = await told.desk.press(form, "Work out the account", said);
  const closed = await told.desk.press(shown, "Close the job");
  expect(closed.status, words(closed.html)).toBe(200);
  const job = flat((await told.desk.get(told.job)).html);
  expect(job).toContain(`Worked on, with no agreement that stands; not billed: ${jack}`);
  expect(/Not agreed, and not done: [^.]*/.exec(job)?.[0] ?? "").not.toContain(jack);
  expect(flat((await told.desk.get(`${told.job}/work-log`)).html)).not.toContain("Work may go on up to");
  const { text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  const [, left] = /Not done: ([^£]+?) -?£/.exec(text.replaceAll(/\s+/g, " ")) ?? [];
  expect(left).toBeTruthy();
  expect(flat((await owner.get("/o/estimate")).html)).toContain(`The work is done Not done: ${left!.replace(/ [-−]$/, "")}.`);
}, 300_000);
