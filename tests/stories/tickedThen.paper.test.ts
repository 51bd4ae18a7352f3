/** Work that was ticked off as done while it was agreed, not timed and its parts not logged, before the owner took the agreement back. The demo shop; people invented. */
import { expect, it } from "vitest";
import type { Policy, WorkItem } from "../../src/estimating/input.js";
import { answersOf } from "../../src/records/agreements.js";
import { closeOuts } from "../../src/records/closeOuts.js";
import { estimates } from "../../src/records/estimates.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, type Story, story } from "../http/support/story.js";
import { api, cash, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const EYE = { id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 2, certainty: { is: "planned" } } as const;
const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");
const penceIn = (text: string, at: RegExp) => Number(at.exec(text)?.[1]?.replace(".", ""));

/** Agreed with two eyes at a fixed price beside the demo job's work. */
async function agreed(policy: Policy = {}, more: WorkItem = EYE) {
  const told = await story();
  const { db } = told.opened;
  const { version, input, rateBookId, rateBookVersion } = (await estimates.find(db, told.estimateId))!;
  const wanted = { ...input, items: [...input.items, more], policy: { ...input.policy, ...policy } };
  const value = { jobId: told.jobId, rateBookId, rateBookVersion, input: wanted };
  const saved = await told.opened.send("PUT", `/api/estimates/${told.estimateId}`, value, { "if-match": `"${version}"` });
  expect(saved.status, await saved.clone().text()).toBe(200);
  const { owner, seen } = await come(told, await issued(told));
  const check = await owner.press(seen, /^Agree to this work/, { name: NAME });
  await owner.press(check, /^Agree/);
  const { sheet } = (await estimates.find(db, told.estimateId))!;
  // Its part is no other work's, so the part's line is its own.
  const caps = input.items.find(({ id, part, count, certainty }) => {
    const line = sheet!.lines.find((each) => each.sort === "part" && each.from.some((by) => by.is === "item" && by.id === id));
    return part && count > 1 && certainty.is === "planned" && line?.from.filter(({ is }) => is === "item").length === 1;
  })!;
  return { told, owner, caps, sheet: sheet! };
}

async function said(told: Story, path: string, value: object) {
  const answer = await told.opened.send("POST", `/api/jobs/${told.jobId}/${path}`, value);
  expect(answer.status, await answer.clone().text()).toBe(201);
}
const ticked = (told: Story, item: string, count: number) => said(told, "tick-offs", { item, count, person: HAND });
const logged = (told: Story, entry: object) => said(told, "work-log", { person: HAND, workedOn: "2026-11-25", ...entry });

async function takenBack(told: Story) {
  const [yes] = await answersOf(told.opened.db, told.jobId);
  const back = {
    answer: "declined",
    by: NAME,
    channel: "telephone",
    recordedBy: HAND,
    corrects: yes!.id,
    reason: "mind changed",
  };
  const answer = await told.opened.send("POST", `/api/estimates/${told.estimateId}/agreements`, back);
  expect(answer.status, await answer.clone().text()).toBe(201);
}

const standingOf = async ({ opened: { db }, jobId }: Story) => (await closeOuts.standing(db, jobId))!;
const owedOn = async (told: Story) =>
  (await api<{ owed: { total: number } }>(told, `/api/jobs/${told.jobId}/standing`)).owed.total;
const itemOf = ({ id }: WorkItem) => `labour:${id}`;

it("is asked about and charged at the prices agreed, with their sundries, each line named on page, PDF, API and record", async () => {
  const { told, owner, caps, sheet } = await agreed();
  await logged(told, { minutes: 5 });
  await ticked(told, EYE.id, 1);
  await ticked(told, caps.id, caps.count);
  const { id: yes } = (await answersOf(told.opened.db, told.jobId))[0]!;
  const asks = flat((await told.desk.get(`${told.job}/answers?corrects=${yes}`)).html);
  const foreseen = penceIn(asks, /As log and ticks stand, £([\d.]+), tax included, is then owed\./);
  await takenBack(told);
  expect(foreseen).toBe(await owedOn(told));

  const form = await told.desk.get(`${told.job}/hand-back`);
  const asked = penceIn(flat(form.html), /Work worth £([\d.]+), tax included, was done while it was agreed/);
  expect(asked, flat(form.html)).toBeGreaterThan(4000);
  expect(flat(form.html)).toContain(EYE.own.name);
  const before = await owedOn(told);
  const theirs = flat((await owner.get("/o/estimate")).html);
  expect(theirs).toContain(cash(asked));

  const unsaid = await told.desk.press(form, "Close the job", { by: HAND, to: NAME });
  expect([unsaid.status, flat(unsaid.html).includes("Say whether it is charged.")]).toEqual([422, true]);
  const closed = await told.desk.press(unsaid, "Close the job", { agreedThen: "charged" });
  expect(closed.status, words(closed.html)).toBe(200);

  const { account } = (await standingOf(told)).result;
  expect([account.totals.total, account.agreedThen]).toEqual([before, { charged: true, amount: asked }]);
  const lineOf = (id: string) => account.lines.find((line) => line.id === id);
  const planned = (id: string) => sheet.lines.find((line) => line.id === id)!;
  expect(lineOf(itemOf(EYE))).toMatchObject({ amount: 4000, count: 1 });
  expect(lineOf(itemOf(caps))).toMatchObject({ amount: planned(itemOf(caps)).amount, count: caps.count });
  const part = sheet.lines.find(({ sort, from }) => sort === "part" && from.some((by) => by.is === "item" && by.id === caps.id))!;
  expect(lineOf(part.id)).toMatchObject({ amount: part.amount, count: part.count });
  expect(account.adjustments.map(({ sort }) => sort)).toContain("sundries");
  expect(account.fitted).toMatchObject([{ part: { name: part.part!.name }, count: caps.count }]);

  const { text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  const paper = text.replaceAll(/\s+/g, " ");
  expect(paper).toContain("Declined: diagnosis and opening, no more than promised, and the work done before, as agreed");
  for (const told of [EYE.own.name, "40.00", part.part!.name, cash(asked), cash(account.totals.total)])
    expect(paper).toContain(told);
  expect(flat(closed.html)).toContain(cash(account.totals.total));
  expect(await owedOn(told)).toBe(account.totals.total);
  expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
}, 300_000);

it("is never charged twice where its time was logged too, nor above what was agreed for it where it was only timed", async () => {
  const { told, caps, sheet } = await agreed();
  await logged(told, { item: EYE.id, minutes: 600 });
  await ticked(told, caps.id, caps.count);
  await logged(told, { item: caps.id, minutes: 3000 });
  await takenBack(told);
  const value = { by: HAND, closedOn: "2026-11-25", to: NAME, oldParts: { is: "returned" }, agreedThen: "charged" };
  const shut = await told.opened.send("POST", `/api/jobs/${told.jobId}/hand-backs`, { ...value, opened: "no" });
  expect([shut.status, await shut.json()]).toMatchObject([422, { errors: [{ pointer: "/opened", name: "opening told" }] }]);
  await said(told, "hand-backs", value);
  const { account } = (await standingOf(told)).result;
  const amounts = account.lines
    .filter(({ id }) => [itemOf(EYE), itemOf(caps)].includes(id))
    .map(({ id, amount }) => [id, amount]);
  expect(amounts.sort()).toEqual(
    [
      [itemOf(EYE), 8000],
      [itemOf(caps), sheet.lines.find(({ id }) => id === itemOf(caps))!.amount],
    ].sort(),
  );
  expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
}, 300_000);

it("by time and parts it is charged by what is logged, and as planned where nothing is; what is unticked again is not", async () => {
  const { told, caps, sheet } = await agreed({ pricing: { is: "time and parts with ceiling", confidencePercent: 95 } });
  await ticked(told, EYE.id, 2);
  await ticked(told, caps.id, caps.count);
  await takenBack(told);
  // Ticked off by mistake, as is seen when the unit goes back.
  const owed = await owedOn(told);
  expect((await told.desk.get(`${told.job}/bench`)).html).toMatch(/name="item" value="eye"/);
  await ticked(told, EYE.id, 0);
  expect(await owedOn(told)).toBeLessThan(owed);
  const more = await told.opened.send("POST", `/api/jobs/${told.jobId}/tick-offs`, { item: EYE.id, count: 1, person: HAND });
  expect(more.status).toBe(409);
  await said(told, "hand-backs", {
    by: HAND,
    closedOn: "2026-11-25",
    to: NAME,
    oldParts: { is: "returned" },
    agreedThen: "charged",
  });
  const { account } = (await standingOf(told)).result;
  const own = account.lines.filter(({ sort }) => sort !== "fee");
  expect(own.map(({ id }) => id)).toContain(itemOf(caps));
  expect(own.map(({ id }) => id)).not.toContain(itemOf(EYE));
  expect(own.find(({ id }) => id === itemOf(caps))!.amount).toBe(sheet.lines.find(({ id }) => id === itemOf(caps))!.amount);
  expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
}, 300_000);

it("found where the price covers it, is charged at no more than that price, which stands in a row of its own", async () => {
  const policy: Policy = { pricing: { is: "fixed price", confidencePercent: 60 } };
  const { told, caps } = await agreed(policy, { ...EYE, certainty: { is: "if found", probability: 0.05 } });
  await ticked(told, EYE.id, EYE.count);
  await ticked(told, caps.id, caps.count);
  await takenBack(told);
  const owed = await owedOn(told);
  await said(told, "hand-backs", {
    ...{ by: HAND, closedOn: "2026-11-25", to: NAME, oldParts: { is: "returned" }, agreedThen: "charged" },
  });
  const { account } = (await standingOf(told)).result;
  const row = account.adjustments.find(({ sort }) => sort === "promised price")!;
  expect(account.lines.find(({ id }) => id === itemOf(EYE))).toMatchObject({ amount: 8000 });
  expect([row.charge, row.amount > 0, account.totals.total]).toEqual([false, true, owed]);
  expect(flat((await told.desk.get(`${told.job}/close-out`)).html)).toContain(cash(account.totals.total));
  const { text } = await printed(told, `${told.job}/final-account.pdf`, told.desk);
  expect(text.replaceAll(/\s+/g, " ")).toContain(`Kept to the prices promised ${cash(-row.amount)}`);
  expect((await verifyShop(told.opened.db)).mismatch).toBeUndefined();
}, 300_000);
