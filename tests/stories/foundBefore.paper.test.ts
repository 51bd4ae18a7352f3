/**
 * Work that may be found, was agreed in advance and turned up before the next revision: it is part of what is still to pay, stands in that
 * revision's total and ceiling, and is on the account, alike on page, paper, API and record. The demo shop; people and the work invented.
 */
import { expect, it } from "vitest";
import { owed } from "../../src/acts/owed.js";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { answerOf, log, stands, tick } from "../acts/support/bench.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, type Story, story } from "../http/support/story.js";
import { worked } from "../records/support/closed.js";
import { draftSaved } from "../records/support/drafts.js";
import { api, cash, everywhere, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const EYE = { id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 1 } as const;
const FAULT = { reason: "a cracked jack", work: "Clean a board", count: "9" };
const at = (minute: number) => `2026-11-25T11:${String(minute).padStart(2, "0")}:00.000Z`;
const flat = ({ html }: { readonly html: string }) => words(html).replaceAll(/\s+/g, " ");

async function changed({ opened, jobId }: Story, more: object, minute = 0) {
  const draft = (await stands(opened.db, jobId)).draft!;
  const saved = await draftSaved(
    opened.db,
    draft.id,
    draft.version,
    { ...draft, input: { ...draft.input, ...more } },
    at(minute),
  );
  expect(saved.is).toBe("done");
}

/** The second demo job, with an eye that may have to be replaced; revision 1 is agreed to. */
async function agreedTo() {
  const told = await story(1);
  const { items } = (await stands(told.opened.db, told.jobId)).draft!.input;
  await changed(told, { items: [...items, { ...EYE, certainty: { is: "if found", probability: 0.4 } }] });
  const owner = await agrees(told);
  const { amount } = (await answersOf(told.opened.db, told.jobId)).at(-1)!;
  const promised = (await stands(told.opened.db, told.jobId)).agreed()!.sheet.ifFound.find(({ id }) => id === "eye")!.price;
  return { told, owner, amount: amount!, promised };
}

async function agrees(told: Story) {
  const { owner, seen } = await come(told, await issued(told));
  await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/);
  return owner;
}

async function closes({ desk, job }: Story) {
  const how = { "untouched.all": "done, not timed", unlogged: "as planned" };
  const form = await desk.press(await desk.get(`${job}/close-out`), "Close the job", { by: HAND, "costs.otherwise": "28.00" });
  const said = Object.fromEntries(Object.entries(how).filter(([name]) => form.html.includes(`name="${name}"`)));
  const closed = await desk.press(form, "Close the job", said);
  expect(closed.status, words(closed.html)).toBe(200);
}

const eyeIn = async ({ opened, jobId }: Story) =>
  (await stands(opened.db, jobId)).latest!.input.items.find(({ id }) => id === "eye")?.certainty.is;

it("is in what is still to pay from its tick on, in the next revision's total, and on the account", async () => {
  const { told, owner, amount, promised } = await agreedTo();
  const { db } = told.opened;
  const made = { job: told.jobId, when: at(1) };
  const { deposit } = owed(await stands(db, told.jobId));
  answerOf(await log(db, made, { minutes: 6 }));
  answerOf(await tick(db, { ...made, when: at(2) }, { item: "eye", count: 1, person: HAND }));
  const total = amount + promised;
  await everywhere(told, owner, "waiting for parts", "take the deposit", {
    total,
    found: promised,
    paid: 0,
    due: total,
    deposit,
  });
  const said = `of it ${cash(promised)} for possible work found necessary, as far as it is logged`;
  for (const page of [told.job, `${told.job}/payments`]) expect(flat(await told.desk.get(page))).toContain(said);
  expect(flat(await owner.get("/o/estimate"))).toContain(
    `in case it is necessary, ${cash(promised)} has proved necessary so far; with it the total is ${cash(total)}`,
  );

  // What an extra fault adds is added to all of that; nothing is offered as a chance that is done.
  const costs = await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "See what it costs", FAULT);
  await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", FAULT);
  const body = await api<{ faults: { together: number } }>(told, `/api/jobs/${told.jobId}/changes`);
  const draft = (await stands(db, told.jobId)).draft!;
  expect(draft.sheet!.ifFound.map(({ id }) => id)).not.toContain("eye");
  expect(draft.sheet!.totals.total).toBe(total + body.faults.together);
  expect(flat(costs)).toContain(`+${cash(body.faults.together)} on what is agreed`);
  expect(draft.sheet!.ceiling.amount).toBeGreaterThanOrEqual(draft.sheet!.totals.total);
  expect(flat(await told.desk.get(`${told.job}/issue`))).not.toContain("would not be charged");
  const second = await agrees(told);
  const paper = (await printed(told, "/o/estimate.pdf?revision=2", second)).text.replaceAll(/\s+/g, " ");
  expect(paper).toContain(cash(draft.sheet!.totals.total));
  expect(paper).toContain(`Possible work that proved necessary +${cash(promised)}`);
  const after = owed(await stands(db, told.jobId));
  expect([after.total, after.found]).toEqual([draft.sheet!.totals.total, undefined]);

  await worked(db, told.jobId);
  await closes(told);
  const { account } = (await closeOuts.standing(db, told.jobId))!.result;
  expect([account.totals.total, account.held.over]).toEqual([draft.sheet!.totals.total, 0]);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);

it("closed without another revision comes to what was still to pay, ticked off or logged", async () => {
  const { told, amount, promised } = await agreedTo();
  const { db } = told.opened;
  answerOf(await tick(db, { job: told.jobId, when: at(2) }, { item: "eye", count: 1, person: HAND }));
  await worked(db, told.jobId);
  const { total } = owed(await stands(db, told.jobId));
  expect(total).toBe(amount + promised);
  expect(flat(await told.desk.get(`${told.job}/close-out`))).toContain("Replace the tuning eye it was ticked off at the bench");
  await closes(told);
  expect((await closeOuts.standing(db, told.jobId))!.result.account.totals.total).toBe(total);
  expect((await verifyShop(db)).mismatch).toBeUndefined();
}, 300_000);

it("above what the owner had allowed is part of what the next revision asks for, and is charged", async () => {
  const { told, amount, promised } = await agreedTo();
  const { db } = told.opened;
  answerOf(await tick(db, { job: told.jobId, when: at(2) }, { item: "eye", count: 1, person: HAND }));
  await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", FAULT);
  const { policy } = (await stands(db, told.jobId)).draft!.input;
  await changed(told, { policy: { ...policy, ceiling: amount } }, 5);
  await agrees(told);
  const record = (await answersOf(db, told.jobId)).at(-1)!;
  expect(record.amount).toBeGreaterThan(amount + promised);
  expect(record.ceiling).toBe(record.amount);
  await worked(db, told.jobId);
  await closes(told);
  const { account } = (await closeOuts.standing(db, told.jobId))!.result;
  expect([account.totals.total, account.held.over]).toEqual([record.amount, 0]);
}, 300_000);

it("is planned in a draft that was begun before it was found, and its leaving that draft is said before it is issued", async () => {
  for (const way of ["ticked", "logged"] as const) {
    const { told } = await agreedTo();
    const { db } = told.opened;
    await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", FAULT);
    expect(await eyeIn(told)).toBe("if found");
    const made = { job: told.jobId, when: at(2) };
    if (way === "ticked") answerOf(await tick(db, made, { item: "eye", count: 1, person: HAND }));
    else answerOf(await log(db, made, { item: "eye", minutes: 12 }));
    expect(await eyeIn(told)).toBe("planned");
    const { items } = (await stands(db, told.jobId)).draft!.input;
    const said = "Replace the tuning eye: agreed and done, and not in the total of this revision, so it would not be charged.";
    const again = items.map((item) => (item.id === "eye" ? { ...item, certainty: { is: "if found", probability: 0.4 } } : item));
    for (const left of [again, items.filter(({ id }) => id !== "eye")]) {
      await changed(told, { items: left }, 6);
      expect(flat(await told.desk.get(`${told.job}/issue`))).toContain(said);
      const standing = await api<{ draft: { leftOut?: string } }>(told, `/api/jobs/${told.jobId}/standing`);
      expect(standing.draft.leftOut).toContain(said);
    }
    await changed(told, { items }, 7);
    expect(flat(await told.desk.get(`${told.job}/issue`))).not.toContain("would not be charged");
  }
}, 300_000);

it("stays found where the next revision is declined: what was agreed is charged with it, and the one after has it", async () => {
  const { told, amount, promised } = await agreedTo();
  const { db } = told.opened;
  answerOf(await log(db, { job: told.jobId, when: at(2) }, { item: "eye", minutes: 12 }));
  await told.desk.press(await told.desk.get(`${told.job}/extra-fault`), "Add it to a draft of revision 2", FAULT);
  const { owner, seen } = await come(told, await issued(told));
  await owner.press(await owner.press(seen, /^Decline/, { name: NAME }), /^Decline/);
  expect(owed(await stands(db, told.jobId))).toMatchObject({ total: amount + promised, found: promised });
  await told.desk.send(`${told.job}/revisions`, []);
  expect(await eyeIn(told)).toBe("planned");
  expect((await stands(db, told.jobId)).draft!.sheet!.totals.total).toBe(amount + promised);
}, 300_000);
