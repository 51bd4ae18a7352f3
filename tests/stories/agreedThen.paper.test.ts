/** The owner takes the agreement back after some of the agreed work was done. The demo shop; people invented. */
import { expect, it } from "vitest";
import { agreedThen } from "../../src/acts/agreedThen.js";
import { jobAsItStands } from "../../src/acts/job.js";
import { accountDeclined } from "../../src/acts/reckoning.js";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { estimates } from "../../src/records/estimates.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, type Story, story } from "../http/support/story.js";
import { api, cash, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");

interface Done {
  readonly opening?: number;
  readonly agreed?: number;
  readonly discount?: number;
  readonly diagnosisLimit?: number;
  readonly more?: readonly object[];
  /** All of the agreed work. */
  readonly ticked?: boolean;
  /** Minutes that one ran before. */
  readonly timer?: number;
}

/** Agreed, opened, forty minutes of agreed work, taken back. */
async function takenBack({ opening = 5, agreed = 40, discount, diagnosisLimit, more = [], ticked, timer }: Done = {}) {
  const told = await story();
  const { db } = told.opened;
  if (discount !== undefined || diagnosisLimit !== undefined) {
    const { version, input, rateBookId, rateBookVersion } = (await estimates.find(db, told.estimateId))!;
    const policy = {
      ...input.policy,
      ...(discount !== undefined && { discount: { amount: discount, reason: "loyal" } }),
      ...(diagnosisLimit !== undefined && { diagnosisLimit }),
    };
    const value = { jobId: told.jobId, rateBookId, rateBookVersion, input: { ...input, policy } };
    const path = `/api/estimates/${told.estimateId}`;
    const saved = await told.opened.send("PUT", path, value, { "if-match": `"${version}"` });
    expect(saved.status, await saved.clone().text()).toBe(200);
  }
  const { owner, seen } = await come(told, await issued(told));
  const check = await owner.press(seen, /^Agree to this work/, { name: NAME });
  await owner.press(check, /^Agree/);
  const { input, sheet } = (await estimates.find(db, told.estimateId))!;
  const item = input.items.find(({ part, certainty }) => part && certainty.is === "planned")!;
  const entry = { person: HAND, workedOn: "2026-11-25" };
  const log = `/api/jobs/${told.jobId}/work-log`;
  for (const each of [
    { ...entry, minutes: opening },
    { ...entry, item: item.id, minutes: agreed },
    ...more.map((each) => ({ ...entry, item: item.id, ...each })),
  ]) {
    const kept = await told.opened.send("POST", log, each);
    expect(kept.status, await kept.clone().text()).toBe(201);
  }
  for (const { id, count, certainty } of ticked ? input.items : []) {
    if (!(certainty.is === "planned" || (certainty.is === "optional" && certainty.chosen))) continue;
    const kept = await told.opened.send("POST", `/api/jobs/${told.jobId}/tick-offs`, { item: id, count, person: HAND });
    expect(kept.status, await kept.clone().text()).toBe(201);
  }
  if (timer !== undefined) {
    const begun = await told.opened.send("POST", `/api/jobs/${told.jobId}/timers`, { person: HAND, item: item.id });
    expect(begun.status, await begun.clone().text()).toBe(201);
    told.opened.pass(timer * 60_000);
  }
  const [yes] = await answersOf(db, told.jobId);
  const back = {
    answer: "declined",
    by: NAME,
    channel: "telephone",
    recordedBy: HAND,
    corrects: yes!.id,
    reason: "she changed her mind",
  };
  const answer = await told.opened.send("POST", `/api/estimates/${told.estimateId}/agreements`, back);
  expect(answer.status, await answer.clone().text()).toBe(201);
  const { wording } = (await answer.json()) as { wording: string };
  return { told, owner, wording, item: item.id, sheet: sheet!, promised: sheet!.ifDeclined };
}

const owedOn = async (told: Story) =>
  (await api<{ owed: { total: number } }>(told, `/api/jobs/${told.jobId}/standing`)).owed.total;

it("is asked whether that work is charged, with what it comes to, and never calls it fault finding", async () => {
  const { told, promised } = await takenBack();
  const { db } = told.opened;
  const form = await told.desk.get(`${told.job}/hand-back`);
  const [, amount] = /Work worth £([\d.]+), tax included, was done while it was agreed/.exec(flat(form.html)) ?? [];
  const worth = Number(amount?.replace(".", ""));
  expect(worth).toBeGreaterThan(0);
  const unsaid = await told.desk.press(form, "Close the job", { by: HAND, to: NAME });
  expect([unsaid.status, flat(unsaid.html).includes("Say whether it is charged.")]).toEqual([422, true]);

  const before = await owedOn(told);
  const closed = await told.desk.press(unsaid, "Close the job", { agreedThen: "charged", "costs.otherwise": "28.00" });
  expect(closed.status, words(closed.html)).toBe(200);
  const { account } = (await closeOuts.standing(db, told.jobId))!.result;
  expect(account.agreedThen).toEqual({ charged: true, amount: worth });
  expect(account.totals.total).toBe(before);
  expect(account.totals.total).toBeGreaterThan(worth);
  expect(account.totals.total - worth).toBeLessThanOrEqual(promised.amount);
  expect(account.notCharged).toBe(0);
  const { text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  const says = `As agreed, it comes to ${cash(worth)}, tax included, and is charged beside what was promised for declining.`;
  expect(text.replaceAll(/\s+/g, " ")).toContain(says);
  expect(flat(closed.html)).toContain(says);
  expect(flat(closed.html)).toContain(
    `is left of what is charged for looking at it and, ${cash(worth)} with tax, for the work done while it was agreed.`,
  );
  expect(text).not.toContain("Finding the fault took");
  expect((await verifyShop(db)).mismatch).toBeUndefined();

  const correction = await told.desk.get(`${told.job}/hand-back?correct`);
  const asked = await told.desk.press(correction, "Correct the close-out", { agreedThen: "let go", reason: "as a courtesy" });
  const shown = cash((await closeOuts.standing(db, told.jobId))!.result.account.totals.total);
  expect(flat(asked.html)).toContain(`where ${shown} was shown. Nothing is closed yet: close again to confirm.`);
  expect(flat(asked.html)).toMatch(/With what you chose, it comes to £[\d.]+, where £/);
  const let_go = await told.desk.press(asked, "Correct the close-out");
  expect(let_go.status, words(let_go.html)).toBe(200);
  const corrected = (await closeOuts.standing(db, told.jobId))!.result.account;
  expect(corrected.agreedThen).toEqual({ charged: false, amount: worth });
  expect(corrected.totals.total).toBeLessThanOrEqual(promised.amount);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);

it("closed in one of two tabs, the other shows its form again with what was typed, and why", async () => {
  const { told } = await takenBack();
  const [here, there] = [await told.desk.get(`${told.job}/hand-back`), await told.desk.get(`${told.job}/hand-back`)];
  const typed = { by: HAND, to: NAME, agreedThen: "charged" };
  expect((await told.desk.press(here, "Close the job", typed)).status).toBe(200);
  const late = await told.desk.press(there, "Close the job", { ...typed, note: "the lid is scratched" });
  expect(late.status).toBe(409);
  const { total } = (await closeOuts.standing(told.opened.db, told.jobId))!.result.account.totals;
  expect(flat(late.html)).toContain(
    `It was closed on 25 November 2026 by ${HAND}. On record it comes to ${cash(total)}, work done while it was agreed charged. What you typed is below, and nothing of it is recorded`,
  );
  expect(late.html).toMatch(/<textarea[^>]*name="note"[^>]*>the lid is scratched</);
  const corrected = await told.desk.press(late, "Correct the close-out", { reason: "said of the lid" });
  expect(corrected.status, words(corrected.html)).toBe(200);
  const { basis } = (await closeOuts.standing(told.opened.db, told.jobId))!;
  expect(basis.terms.handBack).toMatchObject({ note: "the lid is scratched" });
}, 300_000);

it("is asked by program too", async () => {
  const { told } = await takenBack();
  const said = { by: HAND, closedOn: "2026-11-25", to: NAME, oldParts: { is: "returned" } };
  const at = `/api/jobs/${told.jobId}/hand-backs`;
  const unsaid = await told.opened.send("POST", at, said);
  expect([unsaid.status, await unsaid.json()]).toMatchObject([
    422,
    { errors: [{ pointer: "/agreedThen", name: "agreed work unsaid" }] },
  ]);
  expect((await told.opened.send("POST", at, { ...said, agreedThen: "let go" })).status).toBe(201);
}, 300_000);

it("is never dearer than it was agreed at, nor with the looking than the job as agreed, as the words of the refusal say", async () => {
  const all = await takenBack({ opening: 600, agreed: 3000, ticked: true, diagnosisLimit: 90000 });
  const bill = all.sheet.totals.total;
  expect(all.wording).toContain(
    `I owe at most what was agreed for it, and for both together no more than ${cash(bill)}, tax included.`,
  );
  expect(await owedOn(all.told)).toBe(bill);
  const said = { by: HAND, closedOn: "2026-11-25", to: NAME, oldParts: { is: "returned" }, agreedThen: "charged" };
  const closed = await all.told.opened.send("POST", `/api/jobs/${all.told.jobId}/hand-backs`, said);
  expect(closed.status, await closed.clone().text()).toBe(201);
  const { account } = (await closeOuts.standing(all.told.opened.db, all.told.jobId))!.result;
  const amount = bill - all.sheet.ifDeclined.amount;
  expect([account.totals.total, account.agreedThen]).toMatchObject([bill, { charged: true, amount, held: { upTo: bill } }]);
  const { text } = await printed(all.told, `${all.told.job}/final-account.pdf`, all.told.desk);
  expect(text).toContain(cash(bill));
  expect((await verifyShop(all.told.opened.db)).mismatch).toBeUndefined();

  const slow = await takenBack({ agreed: 3000 });
  const { lines } = accountDeclined((await jobAsItStands(slow.told.opened.db, slow.told.jobId))!)!;
  const of = (all: typeof lines) => all.find(({ id }) => id === `labour:${slow.item}`)!.amount;
  expect(of(lines)).toBe(of(slow.sheet.lines));
}, 300_000);

it("bears its share of a discount in money, which was for all that was agreed", async () => {
  const [plain, less] = [await takenBack(), await takenBack({ discount: 10000 })];
  const accountOf = async ({ told }: typeof plain) => accountDeclined((await jobAsItStands(told.opened.db, told.jobId))!)!;
  const [whole, part] = [await accountOf(plain), await accountOf(less)];
  const sundries = whole.adjustments.reduce((sum, { amount }) => sum + amount, 0);
  const work = whole.lines.filter(({ id }) => id.startsWith("labour:") || id.startsWith("part:"));
  const share = (10000 / less.sheet.totals.linesNet) * work.reduce((sum, { amount }) => sum + amount, 0);
  const discount = part.adjustments.find(({ sort }) => sort === "discount")!;
  expect(Math.abs(discount.amount - share)).toBeLessThanOrEqual(2);
  expect([sundries > 0, part.agreedThen!.amount < whole.agreedThen!.amount]).toEqual([true, true]);
}, 300_000);

it("counts the time beside a part told by its price, and a timer from its start; not what was worked after", async () => {
  const { told, item } = await takenBack({ more: [{ minutes: 60 }], timer: 57 });
  const { opened, jobId } = told;
  opened.pass(180_000);
  const pass = { override: { by: HAND, reason: "it ran on" } };
  const stopped = await opened.send("POST", `/api/jobs/${jobId}/timers/stop`, { person: HAND, ...pass });
  expect(stopped.status, await stopped.clone().text()).toBeLessThan(300);
  const late = { person: HAND, workedOn: "2026-11-25", item, minutes: 20, ...pass };
  expect((await opened.send("POST", `/api/jobs/${jobId}/work-log`, late)).status).toBe(201);
  const stands = (await jobAsItStands(opened.db, jobId))!;
  // Earlier logs have it.
  const entries = stands.entries.map((entry) => (entry.minutes === 60 ? { ...entry, parts: 5000 } : entry));
  const job = { ...stands, entries };
  const counted = job.entries.filter(({ id }) => agreedThen(job)!.entries.includes(id));
  expect(counted.map(({ minutes, parts, startedAt }) => [minutes, parts, startedAt !== undefined])).toEqual([
    [40, undefined, false],
    [60, 5000, false],
    [undefined, undefined, true],
  ]);
}, 300_000);
