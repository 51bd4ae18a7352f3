/** Two revisions agreed, work of the second done, and then one answer or both taken back. The demo shop; people invented. */
import { describe, expect, it } from "vitest";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { estimates } from "../../src/records/estimates.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { allowanceTexts } from "../../src/wording/account.js";
import { lineTitle } from "../../src/wording/line.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, type Story, story } from "../http/support/story.js";
import { api, cash } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const flat = ({ html }: { readonly html: string }) => words(html).replaceAll(/\s+/g, " ");
const FAULT = { reason: "regulator drops out when warm", part: "Voltage regulator", where: "Supply board" };

async function agreed(told: Story) {
  const { owner, seen } = await come(told, await issued(told));
  await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/);
  return owner;
}

async function send(told: Story, path: string, value: object) {
  const answer = await told.opened.send("POST", `/api/${path}`, value);
  expect(answer.status, await answer.clone().text()).toBe(201);
}

/** Revision 2 has a regulator to replace beside the work of revision 1; it is ticked off, with some of its time. */
async function twice() {
  const told = await story();
  await agreed(told);
  const form = await told.desk.get(`${told.job}/extra-fault`);
  await told.desk.press(form, "Add it to a draft of revision 2", FAULT);
  const owner = await agreed(told);
  const [first, second] = await estimates.ofJob(told.opened.db, told.jobId);
  const item = second!.input.items.at(-1)!.id;
  const job = `jobs/${told.jobId}`;
  await send(told, `${job}/work-log`, { person: HAND, workedOn: "2026-11-25", item, minutes: 6 });
  await send(told, `${job}/tick-offs`, { item, count: 1, person: HAND });
  const takenBack = async (of: { readonly id: string }) => {
    told.opened.pass(60_000);
    const answers = await answersOf(told.opened.db, told.jobId);
    await send(told, `estimates/${of.id}/agreements`, {
      ...{ answer: "declined", by: NAME, channel: "telephone", recordedBy: HAND, reason: "mind changed" },
      corrects: answers.find(({ estimateId }) => estimateId === of.id)!.id,
    });
  };
  const lineOf = second!.sheet!.lines.find(({ id }) => id === `labour:${item}`)!;
  return { told, owner, job, first: first!, second: second!, item, takenBack, lineOf };
}

const HANDED = { by: HAND, closedOn: "2026-11-25", oldParts: { is: "returned" } };
const accountOf = async ({ opened: { db }, jobId }: Story) => (await closeOuts.standing(db, jobId))!.result.account;

interface Stands {
  readonly owed: { readonly total: number; readonly due: number };
  readonly agreed: { readonly spent: { readonly total: number } };
}

describe("work of the second of two revisions whose answer was taken back while the first stands", () => {
  for (const way of ["charged", "let go"] as const)
    it(`needs no correction of the log, is asked about, counted wherever it is told, and ${way} as agreed then`, async () => {
      const { told, owner, job, first, second, takenBack, lineOf, item } = await twice();
      const before = await api<Stands>(told, `/api/${job}/standing`);
      await takenBack(second);
      const stands = await api<Stands>(told, `/api/${job}/standing`);
      const beside = stands.owed.total - first.sheet!.totals.total;
      // Replaced beside others of its kind, it cost less than its line.
      expect(beside).toBeGreaterThan(0);
      expect(stands.owed.total).toBe(before.owed.total);
      expect(stands.agreed.spent.total).toBeGreaterThanOrEqual(beside);

      const page = flat(await told.desk.get(told.job));
      expect(page).not.toContain("not billed");
      expect(page).not.toMatch(/so not to be worked on: [^.]*regulator/i);
      expect(page).toContain(`still to pay ${cash(stands.owed.due)}`);
      expect(page).toContain(`of it ${cash(beside)} for work done while it was agreed, before that was taken back`);
      expect(flat(await told.desk.get(`${told.job}/payments`))).toContain(`of it ${cash(beside)} for work done while it was`);
      expect(flat(await owner.get("/o/estimate"))).toContain(cash(beside));
      expect(flat(await owner.get("/o/estimate?revision=1"))).toContain(
        `Beside it, work done while it was agreed, before that was taken back, comes to ${cash(beside)}`,
      );
      const form = await told.desk.get(`${told.job}/close-out`);
      expect(flat(form)).toContain(`Work worth ${cash(beside)}, tax included, was done while it was agreed`);
      expect(flat(form)).not.toContain("not in the agreed revision");

      const closing = { ...HANDED, warrantyDays: 90, untouched: { all: "done, not timed" }, costs: { otherwise: 2800 } };
      const unsaid = await told.opened.send("POST", `/api/${job}/close-outs`, closing);
      expect([unsaid.status, await unsaid.json()]).toMatchObject([
        422,
        { errors: [{ pointer: "/agreedThen", name: "agreed work unsaid" }] },
      ]);
      await send(told, `${job}/close-outs`, { ...closing, agreedThen: way });
      const account = await accountOf(told);
      const charged = way === "charged";
      const { held } = account.agreedThen!;
      expect(account.agreedThen).toMatchObject({ charged, amount: beside });
      expect(held).toEqual(charged ? { over: expect.any(Number), upTo: second.sheet!.totals.total, rows: 1 } : undefined);
      expect(allowanceTexts(account)).toEqual(charged ? ["Above the most for all together, not charged"] : []);
      expect(account.totals.total).toBe(charged ? stands.owed.total : first.sheet!.totals.total);
      expect(account.totals.total).toBeLessThanOrEqual(second.sheet!.totals.total);
      const line = account.lines.find(({ from }) => from.some((by) => by.is === "item" && by.id === item));
      expect(line && [line.amount, lineTitle(line)]).toEqual(charged ? [lineOf.amount, lineTitle(lineOf)] : undefined);
      const { agreed, steps } = account.since!;
      expect(steps.reduce((sum, { amount }) => sum + amount, agreed)).toBe(account.totals.total);
      expect(flat(await told.desk.get(`${told.job}/close-out`))).toContain(
        charged
          ? `${cash(held!.over)} of it is not charged, as all together comes to no more than ${cash(held!.upTo)}; so ${cash(beside)} is.`
          : "is not charged",
      );
      const correcting = await told.desk.get(`${told.job}/close-out?correct`);
      expect(correcting.html).toMatch(new RegExp(`value="${way}" selected`));
      expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
    }, 120_000);
});

describe("work that only the second of two revisions had, done while that was agreed", () => {
  for (const order of ["second", "first"] as const)
    it(`is charged at its price and named by its work where both are taken back, the ${order} one first`, async () => {
      const { told, owner, job, first, second, takenBack, lineOf, item } = await twice();
      for (const each of order === "second" ? [second, first] : [first, second]) await takenBack(each);
      const { wording } = (await answersOf(told.opened.db, told.jobId)).at(-1)!;
      expect(flat(await owner.get("/o/estimate"))).toContain(wording);
      await send(told, `${job}/hand-backs`, { ...HANDED, to: NAME, agreedThen: "charged" });
      const line = (await accountOf(told)).lines.find(({ from }) => from.some((by) => by.is === "item" && by.id === item))!;
      expect(line).toMatchObject({ id: lineOf.id, amount: lineOf.amount, assembly: lineOf.assembly });
      expect(lineTitle(line)).toBe(lineTitle(lineOf));
      expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
    }, 120_000);
});
