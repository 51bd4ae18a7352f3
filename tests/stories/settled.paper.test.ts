/**
 * A whole life of a job: a question, agreed in part, an extra fault, a later revision declined, the work done, and settled by deposit,
 * balance and refund. Every figure and word is compared on page, PDF, API, record and account. The demo shop; people invented.
 */
import { expect, it } from "vitest";
import type { Agreement } from "../../src/records/agreements.js";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { estimates } from "../../src/records/estimates.js";
import { issues } from "../../src/records/issues.js";
import { paymentsOf } from "../../src/records/payments.js";
import { sha256 } from "../../src/records/sha256.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { type Filled, type Seen, words } from "../http/support/noScript.js";
import { come, HAND, issued, type Story, story, totalOn, type Visitor } from "../http/support/story.js";
import { worked } from "../records/support/closed.js";
import { api, cash, everywhere, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const ticked = ({ html }: Seen) => [...html.matchAll(/name="work" value="([^"]+)"/g)].map(([, id]) => id!);

/** The owner's answer by the page, and what each place says of it. */
async function answers(told: Story, owner: Visitor, seen: Seen, button: RegExp, filled: Filled): Promise<Agreement> {
  const check = await owner.press(seen, button, { ...filled, name: NAME });
  const done = await owner.press(check, button);
  const record = (await answersOf(told.opened.db, told.jobId)).at(-1)!;
  const { items } = await api<{ items: Agreement[] }>(told, `/api/jobs/${told.jobId}/agreements`);
  expect(items.at(-1)).toEqual(JSON.parse(JSON.stringify(record)));
  const said = [words(check.html), words(done.html), words((await told.desk.get(`${told.job}/answers`)).html)];
  for (const text of said) expect(text).toContain(record.wording);
  if (record.amount !== undefined) {
    expect(record.wording).toContain(`it comes to ${cash(record.amount)}, tax included`);
    expect(totalOn(done.html)).toBe(cash(record.amount));
  }
  return record;
}

/** The paper of the revision the owner has: the bytes on record, with its figures. */
async function paperOf(told: Story, owner: Visitor, estimateId: string) {
  const issue = (await issues.find(told.opened.db, estimateId))!;
  const { sheet } = (await estimates.find(told.opened.db, estimateId))!;
  const { bytes, text } = await printed(told, `/o/estimate.pdf?revision=${issue.revision}`, owner);
  expect(await sha256(bytes)).toBe(issue.pdfHash);
  for (const amount of [sheet!.totals.total, sheet!.ceiling.amount, sheet!.deposit.amount]) expect(text).toContain(cash(amount));
  // Nothing is owed for declining a revision while an earlier one stands agreed.
  expect(text.includes(cash(sheet!.ifDeclined.amount))).toBe(issue.revision === 1);
  expect((await api<{ sheet: { totals: unknown } }>(told, `/api/estimates/${estimateId}`)).sheet.totals).toEqual(sheet!.totals);
  return text;
}

async function pays(told: Story, what: string, amount: number, more: Filled = {}) {
  const page = await told.desk.get(`${told.job}/payments`);
  const typed = { by: HAND, for: what, amount: (amount / 100).toFixed(2), on: "2026-11-25", how: "card", ...more };
  const done = await told.desk.press(page, "Record it", typed);
  expect(words(done.html)).toContain("The payment is recorded.");
  const record = (await paymentsOf(told.opened.db, told.jobId)).at(-1)!;
  expect(record).toMatchObject({ for: what, amount, how: "card", by: HAND, on: "2026-11-25" });
  const { items } = await api<{ items: unknown[] }>(told, `/api/jobs/${told.jobId}/payments`);
  expect(items).toContainEqual(JSON.parse(JSON.stringify(record)));
  const { text } = await printed(told, `${told.job}/payments/${record.id}/receipt.pdf`, told.desk);
  const say = what === "refund" ? "Given back on" : `${what.charAt(0).toUpperCase()}${what.slice(1)} received on`;
  expect(text).toContain(`${say} 25 November 2026: ${cash(amount)}`);
  return record;
}

it("from a question to the last penny", async () => {
  const told = await story();
  const { db } = told.opened;
  const { owner, seen } = await come(told, await issued(told));
  await paperOf(told, owner, told.estimateId);

  // A question, and its reply, leave ticks and figures as they are.
  const asked = await owner.press(seen, "Send the question", { text: "Is the hum dangerous?", work: ticked(seen).slice(1) });
  expect(ticked(asked)).toEqual(ticked(seen));
  expect(await api(told, `/api/jobs/${told.jobId}`)).toMatchObject({ state: "with the owner", next: "reply to a question" });
  await told.desk.press(await told.desk.get(`${told.job}/answers`), "Send the reply", {
    text: "No, but it gets worse.",
    by: HAND,
  });
  const replied = await owner.get("/o/estimate");
  expect(words(replied.html)).toContain("No, but it gets worse.");

  // Agreed in part: the deposit is the one of that part.
  const struck = ticked(replied)[0]!;
  const part = await answers(told, owner, replied, /^Agree to/, { work: ticked(replied).filter((id) => id !== struck) });
  expect([part.answer, part.struck]).toEqual(["part agreed", [struck]]);
  const offered = (await estimates.find(db, told.estimateId))!.sheet!;
  expect(part.amount).toBeLessThan(offered.totals.total);
  expect(part.deposit).toBeGreaterThan(0);
  const agreed = (amount: number, paid: number, deposit: number) => ({ total: amount, paid, due: amount - paid, deposit });
  await everywhere(told, owner, "waiting for parts", "take the deposit", agreed(part.amount!, 0, part.deposit!));
  await pays(told, "deposit", part.deposit!);
  await everywhere(told, owner, "waiting for parts", "order parts", agreed(part.amount!, part.deposit!, 0));

  // An extra fault, agreed to.
  const FOUND = { reason: "a cracked jack", work: "Clean a board", count: "3" };
  await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", FOUND);
  const second = await come(told, await issued(told));
  const { id: secondId } = (await estimates.ofJob(db, told.jobId)).at(-1)!;
  expect(await paperOf(told, second.owner, secondId)).toContain("a cracked jack");
  expect(words(second.seen.html)).toContain("You left this out in revision 1");
  const more = await answers(told, second.owner, second.seen, /^Agree to/, { work: ticked(second.seen) });
  expect(more.amount).toBeGreaterThan(part.amount!);
  const deposit = Math.max(0, more.deposit! - part.deposit!);
  const next = deposit > 0 ? "take the deposit" : "order parts";
  await everywhere(told, second.owner, "waiting for parts", next, agreed(more.amount!, part.deposit!, deposit));
  if (deposit > 0) await pays(told, "deposit", deposit);
  const paid = part.deposit! + deposit;

  // A later revision, declined: what was agreed before stands.
  const AGAIN = { reason: "the lid is scratched", work: "Clean a board", count: "2" };
  await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 3", AGAIN);
  const third = await come(told, await issued(told));
  const flat = async (path: string) => words((await third.owner.get(path)).html).replaceAll(/\s+/g, " ");
  expect(await flat("/o/estimate?revision=2")).toContain(
    "Revision 3 waits for your answer. This one is agreed to, and it stands.",
  );
  const no = await answers(told, third.owner, third.seen, /^Decline/, { work: ticked(third.seen) });
  expect([no.answer, no.amount, no.deposit]).toEqual(["declined", undefined, undefined]);
  expect(no.wording).toContain("What I agreed to in revision 2 stands.");
  await everywhere(told, third.owner, "waiting for parts", "order parts", agreed(more.amount!, paid, 0));
  const stood = await flat("/o/estimate?revision=2");
  expect(stood).toContain("Revision 3 was declined. This one is agreed to, and it stands.");
  expect(stood).not.toContain("can no longer be agreed to");
  expect(await flat("/o/estimate?revision=1")).toContain("Revision 2 has taken the place of this one.");
  expect(stood).toContain("do not switch it on until");
  const refusedOne = async () => {
    const page = await flat("/o/estimate?revision=3");
    expect(page).toContain("Revision 3 was declined; what was agreed in revision 2 stands.");
    expect(page).toContain("What revision 3, which was declined, would have changed");
    for (const pending of ["agreed Never more than", "instead of the", "Deposit £"]) expect(page).not.toContain(pending);
    return page;
  };
  expect(await refusedOne()).toContain(`Agreed in revision 2, which stands ${cash(more.amount!)}`);

  // The work, as it was allowed; then the account.
  await worked(db, told.jobId);
  const form = await told.desk.get(`${told.job}/close-out`);
  const closed = await told.desk.press(form, "Close the job", { by: HAND, warrantyDays: "90", "costs.otherwise": "28.00" });
  expect(closed.status, words(closed.html)).toBe(200);
  const record = (await closeOuts.standing(db, told.jobId))!;
  const { account } = record.result;
  const { total, due } = account.totals;
  expect([total, account.totals.prepaid, due]).toEqual([more.amount, paid, more.amount! - paid]);
  const { result } = await api<{ result: { account: unknown } }>(told, `/api/jobs/${told.jobId}/close-out`);
  expect(result.account).toEqual(JSON.parse(JSON.stringify(account)));
  for (const amount of [total, paid, due]) expect(words(closed.html)).toContain(cash(amount));
  const { bytes, text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  expect(await sha256(bytes)).toBe(record.pdfHash);
  expect((await printed(told, "/o/final-account.pdf", third.owner)).bytes).toEqual(bytes);
  for (const { amount } of account.lines) expect(text).toContain(cash(amount));
  expect(text).toContain(`Total, tax included ${cash(total)}`);
  expect(text).toContain(`Deposit received on 25 November 2026 ${cash(-part.deposit!)}`);
  expect(text).toContain(`Still to pay ${cash(due)}`);
  expect(text).not.toContain("the lid is scratched");
  const theirs = words((await third.owner.get("/o/estimate")).html);
  expect(theirs.replaceAll(/\s+/g, " ")).toContain(`total ${cash(total)}, tax included; ${cash(due)} still to pay`);
  expect(await refusedOne()).toContain(`Final account ${cash(total)}`);
  for (const revision of [1, 2, 3]) expect(await flat(`/o/estimate?revision=${revision}`)).not.toContain("do not switch it on");
  await everywhere(told, third.owner, "closed", "take what is unpaid", agreed(total, paid, 0));

  // The balance, ten pounds too much; and the ten pounds back.
  const much = { by: HAND, for: "balance", amount: ((due + 1000) / 100).toFixed(2), on: "2026-11-25", how: "card" };
  const refused = await told.desk.press(await told.desk.get(`${told.job}/payments`), "Record it", much);
  expect([refused.status, words(refused.html).includes(`Amount: ${cash(due)} is still to pay`)]).toEqual([422, true]);
  await pays(told, "balance", due + 1000, { beyond: "yes" });
  await everywhere(told, third.owner, "closed", "pay back what is over", agreed(total, total + 1000, 0));
  await pays(told, "refund", 1000);
  await everywhere(told, third.owner, "closed", "nothing", agreed(total, total, 0));
  const settled = words((await told.desk.get(`${told.job}/close-out`)).html).replaceAll(/\s+/g, " ");
  expect(settled).toContain(`Paid already ${cash(total)} Still to pay ${cash(0)}`);
  const rows = await (await told.opened.call("/api/csv/payments")).text();
  const amounts = rows.split("\r\n").flatMap((line) => /,(-?\d+\.\d\d),GBP,/.exec(line)?.[1] ?? []);
  expect(amounts.reduce((sum, each) => sum + Math.round(Number(each) * 100), 0)).toBe(total);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);
