/** A later revision is declined, then the first one is taken back too: every page tells the same. The demo shop; people invented. */
import { expect, it } from "vitest";
import { answersOf } from "../../src/records/agreements.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, story } from "../http/support/story.js";
import { api, cash } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");

interface Stands {
  readonly owed: { readonly total: number; readonly paid: number; readonly due: number; readonly deposit: number };
}

it("owner's page, job and work log tell what is declined, owed and paid back", async () => {
  const told = await story();
  const { db, send } = told.opened;
  const owed = async () => (await api<Stands>(told, `/api/jobs/${told.jobId}/standing`)).owed;
  const { owner, seen } = await come(told, await issued(told));
  const check = await owner.press(seen, /^Agree to this work/, { name: NAME });
  await owner.press(check, /^Agree/);
  const { deposit } = await owed();
  expect(deposit).toBeGreaterThan(0);

  await told.desk.send(`${told.job}/revisions`, []);
  await issued(told);
  const decline = { answer: "declined", by: NAME, channel: "telephone", recordedBy: HAND };
  const two = (await api<{ current: { id: string } }>(told, `/api/jobs/${told.jobId}/standing`)).current.id;
  expect((await send("POST", `/api/estimates/${two}/agreements`, decline)).status).toBe(201);

  // The first stands, and so does its deposit, whichever revision is looked at.
  for (const revision of [1, 2])
    expect(flat((await owner.get(`/o/estimate?revision=${revision}`)).html)).toContain(`Deposit still to pay: ${cash(deposit)}.`);

  const paid = { for: "deposit", amount: deposit, on: "2026-11-25", how: "cash", by: HAND };
  expect((await send("POST", `/api/jobs/${told.jobId}/payments`, paid)).status).toBe(201);
  const [yes] = await answersOf(db, told.jobId);
  const back = { ...decline, corrects: yes!.id, reason: "she takes it back" };
  expect((await send("POST", `/api/estimates/${told.estimateId}/agreements`, back)).status).toBe(201);

  const { total, due } = await owed();
  expect(due).toBe(total - deposit);
  const rest = due < 0 ? `to be paid back to you: ${cash(-due)}` : `still to pay: ${cash(due)}`;
  const pages = await Promise.all(
    [1, 2].map(async (revision) => flat((await owner.get(`/o/estimate?revision=${revision}`)).html)),
  );
  for (const page of pages) {
    expect(page).toContain(`Paid so far: ${cash(deposit)}; ${rest}.`);
    expect(page).toContain("Declined; at most you owe");
    for (const never of [
      "Never more than £",
      "once the work is done",
      "has taken the place",
      "Good until",
      "If you decline once",
    ])
      expect(page.split("How it adds up")[0]!.split("How this estimate added up")[0]).not.toContain(never);
  }

  expect(flat((await told.desk.get(told.job)).html)).toContain(`declined ${cash(total)} in all`);
  const log = await told.desk.get(`${told.job}/work-log`);
  expect(flat(log.html)).toContain("The owner declined. Opening and refitting are logged as they were; with the fee, at most £");
  const entry = { person: HAND, workedOn: "2026-11-25", minutes: 300 };
  expect((await send("POST", `/api/jobs/${told.jobId}/work-log`, entry)).status).toBe(201);
  const { input } = await api<{ input: { items: { id: string }[] } }>(told, `/api/estimates/${told.estimateId}`);
  const refused = await send("POST", `/api/jobs/${told.jobId}/work-log`, { ...entry, item: input.items[0]!.id });
  expect([refused.status, await refused.json()]).toMatchObject([
    409,
    { detail: expect.stringContaining("Not agreed: the owner declined") },
  ]);
}, 120_000);
