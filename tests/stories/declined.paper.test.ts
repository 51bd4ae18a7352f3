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
  const { owner, seen } = await come(told, await issued(told));
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
  const check = await owner.press(seen, button, { name: NAME });
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
    ["work-log", "The owner declined. Time for opening and refitting may be logged up to"],
  ] as const) {
    const read = words((await told.desk.get(`${told.job}/${page}`)).html);
    expect(read).toContain(says);
    expect(read).not.toContain("Nothing is agreed yet");
  }
  const early = await told.desk.get(`${told.job}/close-out`);
  expect(early.path).toBe(`${told.job}/hand-back`);

  const unsaid = await told.desk.press(form, "Close the job", { to: "", by: HAND, note: "closed up as it came" });
  expect([unsaid.status, words(unsaid.html).includes("Handed back to")]).toEqual([422, true]);
  expect(unsaid.html).toContain("closed up as it came");
  const closed = await told.desk.press(unsaid, "Close the job", {
    ...{ to: NAME, accessories: "mains lead\nvolume pedal", "costs.otherwise": "28.00" },
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
