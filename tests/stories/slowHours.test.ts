/** Work billed as agreed that takes far longer than planned: every hour can be logged as it was, page and API tell what passes the bill, and the account is what was agreed. The demo shop; people and the work invented. */
import { expect, it } from "vitest";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { overridesOf } from "../../src/records/overrides.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { answerOf, log, stands, tick } from "../acts/support/bench.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, type Story, story } from "../http/support/story.js";
import { worked } from "../records/support/closed.js";
import { draftSaved } from "../records/support/drafts.js";
import { api, cash } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const EYE = { id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 1, certainty: { is: "planned" } } as const;
const at = (minute: number) => `2026-11-25T11:${String(minute).padStart(2, "0")}:00.000Z`;
const flat = ({ html }: { readonly html: string }) =>
  words(html)
    .replaceAll(/\s+/g, " ")
    .replaceAll(/ ([.,])/g, "$1");

interface Told {
  readonly agreed: { readonly asAgreed: boolean; readonly limit: { upTo: number }; readonly spent: { total: number } };
}

async function agreedTo(policy: object = {}) {
  const told = await story(1);
  const { db } = told.opened;
  const draft = (await stands(db, told.jobId)).draft!;
  const input = { ...draft.input, items: [...draft.input.items, EYE], policy: { ...draft.input.policy, ...policy } };
  expect((await draftSaved(db, draft.id, draft.version, { ...draft, input }, at(0))).is).toBe("done");
  const { owner, seen } = await come(told, await issued(told));
  await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/);
  return { told, amount: (await answersOf(db, told.jobId)).at(-1)!.amount! };
}

const standing = (told: Story) => api<Told>(told, `/api/jobs/${told.jobId}/standing`);

it("is logged to the last hour without an override, told to the shop, and billed as agreed", async () => {
  const { told, amount } = await agreedTo();
  const { db } = told.opened;
  const pages = [told.job, `${told.job}/bench`, `${told.job}/work-log`];
  answerOf(await tick(db, { job: told.jobId, when: at(1) }, { item: "eye", count: 1, person: HAND }));
  const { agreed: ticked } = await standing(told);
  // Its fixed price, the discount of 5 % off it and 20 % tax on it: the fee for looking is credited.
  expect(ticked.spent.total).toBe(4560);
  for (const page of pages) expect(flat(await told.desk.get(page)), page).toContain(`fees and charges included: ${cash(4560)}.`);

  await worked(db, told.jobId, 3);
  const { agreed } = await standing(told);
  expect([agreed.asAgreed, agreed.spent.total > agreed.limit.upTo]).toEqual([true, true]);
  const page = await told.desk.press(await told.desk.get(`${told.job}/work-log`), "Log it", { minutes: "30", person: HAND });
  expect([page.status, await overridesOf(db, told.jobId)]).toEqual([200, []]);
  const { spent } = (await standing(told)).agreed;
  for (const at of pages) {
    const text = flat(await told.desk.get(at));
    expect(text).toContain(`It is billed as agreed, whatever it takes, and never above ${cash(agreed.limit.upTo)}`);
    expect(text).toContain(`${cash(spent.total)}, which is ${cash(spent.total - amount)} more than is billed for it.`);
  }

  const form = await told.desk.get(`${told.job}/close-out`);
  const how = { by: HAND, "costs.otherwise": "28.00" };
  const asked = await told.desk.press(form, "Close the job", how);
  const parts = asked.html.includes('name="unlogged"') ? { unlogged: "as planned" } : {};
  const closed = asked.html.includes('name="unlogged"') ? await told.desk.press(asked, "Close the job", parts) : asked;
  expect(closed.status, words(closed.html)).toBe(200);
  const { account } = (await closeOuts.standing(db, told.jobId))!.result;
  expect([account.basis, account.totals.total, account.held.over]).toEqual(["fixed price", amount, 0]);
  expect(flat(await told.desk.get(told.job))).not.toContain("by an override");
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);

it("billed by its time is refused where it passes the limit, as the page says", async () => {
  const { told } = await agreedTo({ pricing: { is: "time and parts with ceiling", confidencePercent: 95 } });
  const { db } = told.opened;
  const { agreed } = await standing(told);
  expect(agreed.asAgreed).toBe(false);
  expect(flat(await told.desk.get(told.job))).toContain(`Work may go on up to ${cash(agreed.limit.upTo)}`);
  const slow = await log(db, { job: told.jobId, when: at(2) }, { item: "w01", minutes: 6000 });
  expect(slow).toMatchObject({ ok: false, refusal: { is: "limit passed" } });
}, 300_000);
