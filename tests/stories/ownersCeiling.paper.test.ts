/** A total above what the owner had allowed: one most, on issue page, paper, owner's page, record, bench and account. The demo shop; people invented. */
import { expect, it } from "vitest";
import { jobAsItStands } from "../../src/acts/job.js";
import { answersOf } from "../../src/records/agreements.js";
import { estimates } from "../../src/records/estimates.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { come, issued, story, totalOn } from "../http/support/story.js";
import { api, cash, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";
const ALLOWED = 10_000;

it("is told beside what was allowed, and agreeing to it allows that and no more, wherever it is read", async () => {
  const told = await story();
  const { db } = told.opened;
  const form = await told.desk.get(`/estimates/${told.estimateId}?open=terms`);
  await told.desk.press(form, "Save", { "terms.ceiling": "100.00" });
  const issuing = words((await told.desk.get(`${told.job}/issue`)).html);
  const { owner, seen } = await come(told, await issued(told));
  const { sheet } = (await estimates.find(db, told.estimateId))!;
  const { total } = sheet!.totals;
  expect(total).toBeGreaterThan(ALLOWED);
  expect(issuing).toContain(`is above the owner's ceiling of ${cash(ALLOWED)}`);
  expect(issuing.replaceAll("\n", " ")).toContain(`Ceiling ${cash(total)}`);

  const raised = `You had allowed ${cash(ALLOWED)} at most: work waits for your answer, and agreeing allows this much.`;
  const { text } = await printed(told, "/o/estimate.pdf?revision=1", owner);
  const paper = text.replaceAll(/\s+/g, " ");
  expect(paper).toContain(raised);
  expect(paper).toContain(`for ${cash(total)}, tax included, and never for more than ${cash(total)}`);
  expect(words(seen.html)).toContain(raised);

  const check = await owner.press(seen, /^Agree to/, { name: NAME });
  const done = await owner.press(check, /^Agree to/);
  const record = (await answersOf(db, told.jobId)).at(-1)!;
  expect(record).toMatchObject({ amount: total, ceiling: total });
  expect(record.wording).toContain(`it comes to ${cash(total)}, tax included, and never to more than ${cash(total)}`);
  for (const page of [check, done]) expect(words(page.html)).toContain(record.wording);
  expect(totalOn(done.html)).toBe(cash(total));
  expect(words(done.html)).toContain(`Total ${cash(total)}, never more than ${cash(total)}.`);
  for (const page of [check, done, seen]) expect(words(page.html)).not.toMatch(/more than\s+£100\.00/);

  expect((await jobAsItStands(db, told.jobId))!.limit()).toMatchObject({ agreed: total, upTo: total });
  expect(words((await told.desk.get(`${told.job}/bench`)).html)).toContain(cash(total));
  expect(await api(told, `/api/jobs/${told.jobId}/agreements`)).toMatchObject({ items: [{ amount: total, ceiling: total }] });
  // The owner's own figure stays in the sheet, and what is promised stands beside it.
  expect(await api(told, `/api/estimates/${told.estimateId}/sheet`)).toMatchObject({
    ...{ neverMore: total, sheet: { ceiling: { amount: ALLOWED } } },
  });
  const sent = (await told.desk.get("/api/csv/estimates")).html.split("\r\n").map((row) => row.split(","));
  const [at, id] = ["ceiling", "id"].map((head) => sent[0]!.indexOf(head));
  expect(sent.find((row) => row[id!] === told.estimateId)![at!]).toBe((total / 100).toFixed(2));
  expect((await verifyShop(db)).mismatch).toBeUndefined();
});
