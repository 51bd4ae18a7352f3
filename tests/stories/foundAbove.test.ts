/** Possible work that is found and ticked off above the owner's ceiling. The demo shop; people invented. */
import { expect, it } from "vitest";
import { estimates } from "../../src/records/estimates.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, story } from "../http/support/story.js";
import { cash } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const EYE = { id: "eye", own: { name: "Replace the tuning eye", price: 40_000 }, count: 1 } as const;
const MOST = 110_000;

it("says beside the tick what of it is not charged, as the account will", async () => {
  const told = await story();
  const { db, send } = told.opened;
  const { version, input, rateBookId, rateBookVersion } = (await estimates.find(db, told.estimateId))!;
  const items = [...input.items, { ...EYE, certainty: { is: "if found", probability: 0.2 } }];
  const value = {
    jobId: told.jobId,
    rateBookId,
    rateBookVersion,
    input: { ...input, items, policy: { ...input.policy, ceiling: MOST } },
  };
  expect((await send("PUT", `/api/estimates/${told.estimateId}`, value, { "if-match": `"${version}"` })).status).toBe(200);
  const { owner, seen } = await come(told, await issued(told));
  await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree/);
  const tick = async (count: number) =>
    expect((await send("POST", `/api/jobs/${told.jobId}/tick-offs`, { item: EYE.id, count, person: HAND })).status).toBe(201);
  const flat = (html: string) => words(html).replaceAll(/\s+/g, " ");
  const benchHtml = async () => (await told.desk.get(`${told.job}/bench`)).html;
  const above = /£[\d.,]+ above the limit agreed, £[\d.,]+, is not charged\./;

  expect(flat(await benchHtml())).not.toMatch(above);
  await tick(1);
  expect((await estimates.find(db, told.estimateId))!.sheet!.totals.total).toBeLessThan(MOST);
  const rows = (await benchHtml()).match(/<li class="bench-row[\s\S]*?<\/li>/g)!.filter((row) => above.test(flat(row)));
  expect(rows.map(flat)).toEqual([expect.stringContaining(EYE.own.name)]);
  const said = above.exec(flat(rows[0]!))![0];
  expect(said).toContain(cash(MOST));
  expect(flat((await told.desk.get(`${told.job}/close-out`)).html)).toContain(said);
  await tick(0);
  expect(flat(await benchHtml())).not.toMatch(above);
}, 120_000);
