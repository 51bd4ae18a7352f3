/** A revision offered once work has begun on a deposit that was paid: what it adds to the deposit is told alike on preview, paper, owner's page and record. The demo shop; people invented. */
import { expect, it } from "vitest";
import { jobAsItStands } from "../../src/acts/job.js";
import { owed } from "../../src/acts/owed.js";
import { answersOf } from "../../src/records/agreements.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { words } from "../http/support/noScript.js";
import { come, HAND, issued, story } from "../http/support/story.js";
import { cash, printed } from "./support/everywhere.js";

const NAME = "Žofie Kapradinová";

it("is due with the balance, and holds nothing up: no place says that it comes before work starts", async () => {
  const told = await story();
  const { desk, job, jobId, opened } = told;
  const agrees = async () => {
    const { owner, seen } = await come(told, await issued(told));
    await owner.press(await owner.press(seen, /^Agree to/, { name: NAME }), /^Agree to/);
    return (await answersOf(opened.db, jobId)).at(-1)!;
  };
  const paid = (await agrees()).deposit!;
  await desk.press(await desk.get(`${job}/payments`), "Record it", { by: HAND, how: "card", on: "2026-11-25" });
  const found = { reason: "a cracked jack", work: "Clean a board", count: "9" };
  await desk.press(await desk.get(`${job}/extra-fault`), "Add it to a draft of revision 2", found);
  const draft = (await jobAsItStands(opened.db, jobId))!.draft!;
  const { amount } = draft.sheet!.deposit;
  expect(amount).toBeGreaterThan(paid);
  const preview = async () => (await printed(told, `/estimates/${draft.id}.pdf`, desk)).text.replaceAll(/\s+/g, " ");
  expect(await preview()).toContain(`${cash(paid)} of it is paid; ${cash(amount - paid)} is still due`);
  expect(await preview()).toContain("Deposit before work starts");

  await desk.press(await desk.get(`${job}/work-log`), "Log it", { minutes: "5", person: HAND });
  const { owner, seen } = await come(told, await issued(told));
  const paper = (await printed(told, "/o/estimate.pdf?revision=2", owner)).text.replaceAll(/\s+/g, " ");
  const page = words(seen.html).replaceAll(/\s+/g, " ");
  for (const text of [page, paper]) {
    expect(text).toContain(cash(amount));
    expect(text).toContain(`${cash(paid)} of it is paid and work has begun; the rest is due with the balance`);
    expect(text).not.toMatch(/is still due|before work starts|before the work starts|before they are ordered|before we start/);
  }
  const check = await owner.press(seen, /^Agree to/, { name: NAME });
  const done = words((await owner.press(check, /^Agree to/)).html);
  expect((await answersOf(opened.db, jobId)).at(-1)).toMatchObject({ deposit: amount });
  expect(owed((await jobAsItStands(opened.db, jobId))!)).toMatchObject({ paid, deposit: 0 });
  expect(done).toContain(`${cash(paid)} of it is paid and work has begun; the rest is due with the balance.`);
  expect(done).not.toContain("Deposit still to pay");
  expect((await verifyShop(opened.db)).mismatch).toBeUndefined();
});
