/** A job that was declined after it was opened: the fee by what was promised, the unit handed back, closed. The demo shop; people invented. */
import { expect, it } from "vitest";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { estimates } from "../../src/records/estimates.js";
import { sha256 } from "../../src/records/sha256.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, story } from "../http/support/story.js";
import { api, cash, everywhere, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");

it("declined after opening, the fee charged, the unit handed back, closed", async () => {
  const told = await story();
  const { db } = told.opened;
  const { owner } = await come(told, await issued(told));
  const { sheet, input } = (await estimates.find(db, told.estimateId))!;
  const promised = sheet!.ifDeclined.amount;
  expect(promised).toBeGreaterThan(0);
  expect((await printed(told, "/o/estimate.pdf?revision=1", owner)).text).toContain(cash(promised));

  // Opened and looked at, up to what the owner owes for that; more is not agreed.
  const entry = { item: input.items[0]!.id, minutes: 20, person: HAND, workedOn: "2026-11-25" };
  const at = `/api/jobs/${told.jobId}/work-log`;
  expect((await told.opened.send("POST", at, { ...entry, minutes: 900 })).status).toBe(409);
  expect((await told.opened.send("POST", at, entry)).status).toBe(201);

  const button = new RegExp(`^Decline, and owe ${cash(promised).replace(".", "\\.")} at most`);
  const check = await owner.press(await owner.get("/o/estimate"), button, { name: NAME });
  await owner.press(check, /^Decline/);
  const [answer] = await answersOf(db, told.jobId);
  expect(answer!.wording).toContain(`For opening and diagnosis already done I owe no more than ${cash(promised)}, tax included.`);

  // What is owed stands before it is closed, and on the form that closes it.
  const form = await told.desk.get(`${told.job}/hand-back`);
  expect(words(form.html)).toContain(`at most ${cash(promised)}, as promised.`);
  const owed = Number(/id="total"><strong>£([\d.]+)</.exec(form.html)![1]!.replace(".", ""));
  expect(owed).toBeGreaterThan(0);
  expect(owed).toBeLessThanOrEqual(promised);
  const stands = (paid: number) => ({ total: owed, paid, due: owed - paid, deposit: 0 });
  await everywhere(told, owner, "declined", "hand back", stands(0));
  const job = await told.desk.get(told.job);
  expect([...job.html.matchAll(/class="button primary"[^>]*>([^<]+)</g)].map(([, text]) => text)).toEqual([
    "Close and hand back",
  ]);
  for (const [page, says] of [
    ["bench", "The owner declined, so nothing may be worked on."],
    ["work-log", "The owner declined. Opening and refitting are logged as they were; with the fee, at most"],
  ] as const) {
    const read = words((await told.desk.get(`${told.job}/${page}`)).html);
    expect(read).toContain(says);
    expect(read).not.toContain("Nothing is agreed yet");
  }
  const early = await told.desk.get(`${told.job}/close-out`);
  expect(early.path).toBe(`${told.job}/hand-back`);

  const unsaid = await told.desk.press(form, "Close the job", { to: "", by: HAND, note: "closed up as it came" });
  expect([unsaid.status, words(unsaid.html).includes("Handed back to")]).toEqual([422, true]);
  expect(words(unsaid.html)).toContain("Was the unit opened? is missing; opening that is not logged is not charged.");
  expect(unsaid.html).toContain("closed up as it came");
  const closed = await told.desk.press(unsaid, "Close the job", {
    ...{ to: NAME, opened: "yes", accessories: "mains lead\nvolume pedal", "costs.otherwise": "28.00" },
  });
  expect(closed.status, words(closed.html)).toBe(200);
  const after = words((await told.desk.get(told.job)).html);
  for (const act of ["Extra fault", "Record an answer", "Start a new revision", "Close and hand back"])
    expect(after).not.toContain(act);
  const record = (await closeOuts.standing(db, told.jobId))!;
  const { account, margin, closeOut } = record.result;
  expect([closeOut, account.totals.total, account.basis]).toEqual([undefined, owed, "declined"]);
  expect(account.handBack).toEqual({ to: NAME, accessories: ["mains lead", "volume pedal"], note: "closed up as it came" });
  expect(margin!.margin).toBe(account.totals.withoutTax - Math.round((20 * 2800) / 60));
  const { result } = await api<{ result: unknown }>(told, `/api/jobs/${told.jobId}/close-out`);
  expect(result).toEqual(JSON.parse(JSON.stringify(record.result)));

  const { bytes, text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  expect(await sha256(bytes)).toBe(record.pdfHash);
  expect((await printed(told, "/o/final-account.pdf", owner)).bytes).toEqual(bytes);
  const wants = [
    "Declined: diagnosis and opening, no more than promised",
    `Total, tax included ${cash(owed)}`,
    `Still to pay ${cash(owed)}`,
    `Handed back to ${NAME} on 25 November 2026. With it: mains lead, volume pedal.`,
    "closed up as it came",
    "Parts that were taken out go back with the unit.",
    ...account.lines.map(({ amount }) => cash(amount)),
  ];
  for (const want of wants) expect(text).toContain(want);
  expect(text).not.toContain("Warranty");
  for (const want of wants.slice(3, 6)) expect(flat(closed.html)).toContain(want);
  expect(flat((await owner.get("/o/estimate")).html)).toContain(
    `The unit was handed back Final account of 25 November 2026: total ${cash(owed)}, tax included; ${cash(owed)} still to pay`,
  );
  const theirs = flat((await owner.get("/o/estimate")).html);
  expect(theirs).toContain("do not switch it on until");
  expect(theirs).toContain("Taken off if the work goes ahead.");
  expect(theirs).not.toContain("because the work goes ahead");
  await everywhere(told, owner, "closed", "take what is unpaid", stands(0));

  // The fee, as the page of payments proposes it.
  const page = await told.desk.get(`${told.job}/payments`);
  await told.desk.press(page, "Record it", { amount: (owed / 100).toFixed(2), how: "cash" });
  expect(await api(told, `/api/jobs/${told.jobId}/payments`)).toMatchObject({ items: [{ for: "decline fee", amount: owed }] });
  await everywhere(told, owner, "closed", "nothing", stands(owed));
  const board = words((await told.desk.get("/looking-back")).html);
  expect(board).toContain("No job of agreed work is closed yet");
  expect(board).toContain(cash(margin!.margin));
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);

it("declined before it was opened: no words of a refit on button, record and final account, and the shop is asked once", async () => {
  const told = await story();
  const { db } = told.opened;
  const { owner, seen } = await come(told, await issued(told));
  const promised = cash((await estimates.find(db, told.estimateId))!.sheet!.ifDeclined.amount);
  const check = await owner.press(seen, /^Decline and have it back as it came, and owe £[\d.]+ at most/, { name: NAME });
  const shown = `Return the unit, and open nothing more of it. For what was done before this I owe no more than ${promised}, tax included.`;
  expect(words(check.html)).toContain(shown);

  // Logged between the words and the answer: they are shown anew and not put on record otherwise.
  const log = { minutes: 10, person: HAND, workedOn: "2026-11-25" };
  const { id } = await (await told.opened.send("POST", `/api/jobs/${told.jobId}/work-log`, log)).json();
  const moved = await owner.press(check, /^Decline/);
  expect(moved.status).toBe(409);
  expect(words(moved.html)).toContain(`Decline, and owe ${promised} at most`);
  expect(await answersOf(db, told.jobId)).toEqual([]);
  const withdrawn = { by: HAND, reason: "on the wrong job" };
  expect((await told.opened.send("POST", `/api/jobs/${told.jobId}/work-log/${id}/withdrawal`, withdrawn)).status).toBe(201);
  await owner.press(check, /^Decline/);
  expect((await answersOf(db, told.jobId))[0]!.wording).toContain(shown);

  const form = await told.desk.get(`${told.job}/hand-back`);
  expect(words(form.html)).toContain("No opening is logged, and time that is not logged is not charged.");
  const said = { by: HAND, to: NAME, "costs.otherwise": "28.00" };
  const unsaid = await told.desk.press(form, "Close the job", said);
  expect(unsaid.status).toBe(422);
  const closed = await told.desk.press(unsaid, "Close the job", { opened: "no" });
  expect(closed.status, words(closed.html)).toBe(200);
  const { text } = await printed(told, "/o/final-account.pdf", owner);
  for (const want of ["Declined before it was opened: diagnosis", "The unit was not opened, and nothing was taken out of it."]) {
    expect(text).toContain(want);
    expect(flat(closed.html)).toContain(want);
  }
  expect(text).not.toContain("taken out go back");
  const again = await told.desk.get(`${told.job}/hand-back?correct`);
  expect(again.html).toMatch(/<option value="no" selected/);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);
