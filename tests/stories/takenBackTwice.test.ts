/** Two revisions agreed, work of the second done, and then one answer or both taken back. The demo shop; people invented. */
import { describe, expect, it } from "vitest";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { estimates } from "../../src/records/estimates.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { lineTitle } from "../../src/wording/line.js";
import { come, HAND, issued, type Story, story } from "../http/support/story.js";

const NAME = "Žofie Kapradinová";
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

describe("work that only the second of two revisions had, done while that was agreed", () => {
  for (const order of ["second", "first"] as const)
    it(`is charged at its price and named by its work where both are taken back, the ${order} one first`, async () => {
      const { told, job, first, second, takenBack, lineOf, item } = await twice();
      for (const each of order === "second" ? [second, first] : [first, second]) await takenBack(each);
      await send(told, `${job}/hand-backs`, { ...HANDED, to: NAME, agreedThen: "charged" });
      const line = (await accountOf(told)).lines.find(({ from }) => from.some((by) => by.is === "item" && by.id === item))!;
      expect(line).toMatchObject({ id: lineOf.id, amount: lineOf.amount, assembly: lineOf.assembly });
      expect(lineTitle(line)).toBe(lineTitle(lineOf));
      expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
    }, 120_000);
});
