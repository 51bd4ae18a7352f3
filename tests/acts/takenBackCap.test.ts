/** What is owed once an owner took an agreement back: taxed by the book of each part, and never above what the words of the refusal say. Demo shop, people invented. */
import { describe, expect, it } from "vitest";
import { closeDeclined } from "../../src/acts/closeDeclined.js";
import { owed } from "../../src/acts/owed.js";
import { accountDeclined } from "../../src/acts/reckoning.js";
import type { RateBook, TaxRules } from "../../src/estimating/input.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { HAND } from "../records/support/closed.js";
import { draftSaved, nextDraft } from "../records/support/drafts.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, log, stands } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const BACK = { answer: "declined", channel: "in person", corrects: "yes", reason: "taken back" } as const;

async function agreed() {
  const { db } = await shop();
  const { id, version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
  const policy = { ...input.policy, diagnosis: true };
  await draftSaved(db, id, version, { jobId, rateBookId, rateBookVersion, input: { ...input, policy } }, at(0));
  const { record } = await issued(db, id);
  recordOf(await answer(db, "yes", await given(db, record.id), at(2)));
  answerOf(await log(db, { id: "open", job: TAPE_ECHO, when: at(3) }, { minutes: 60 }));
  const { input: wanted } = (await stands(db, TAPE_ECHO)).agreed()!;
  const item = wanted.items.find(({ part, certainty, count }) => part && certainty.is === "planned" && count > 1)!;
  return { db, record, item, rateBookId, rateBookVersion };
}

describe("tax of a job that is declined by another rate book than it was agreed by", () => {
  const taxedAs = (percent: number) => (tax: TaxRules) => ({
    ...tax,
    categories: tax.categories.map((each) => (each.percent === 20 ? { ...each, percent } : each)),
  });
  const renamed = (tax: TaxRules): TaxRules => ({
    ...tax,
    categories: [{ id: "new", name: "New 22 %", percent: 22 }],
    ...{ labour: "new", parts: "new", freight: "new", fees: "new" },
  });
  it.each([
    ["lower", taxedAs(5), 5],
    ["higher", taxedAs(25), 25],
    ["of another name", renamed, 22],
    ["included", (tax: TaxRules): TaxRules => ({ ...tax, included: true }), 20],
  ])("is that of each part's own book where it is %s", async (_, change, percent) => {
    const { db, record, item, rateBookId, rateBookVersion } = await agreed();
    answerOf(await log(db, { id: "worked", job: TAPE_ECHO, when: at(3) }, { item: item.id, minutes: 15 }));
    const old = (await rateBooks.findVersion(db, rateBookId, rateBookVersion))!;
    const kept = (await rateBooks.find(db, rateBookId))!;
    const book: Partial<RateBook> = { tax: change(old.book.tax) };
    await rateBooks.changed(db, kept, book as never, at(4)).write;
    const next = (await nextDraft(db, TAPE_ECHO, "second", at(4))).record!;
    await draftSaved(db, next.id, next.version, { ...next, rateBookVersion: kept.version + 1 } as never, at(5));
    await issued(db, next.id, at(6));
    recordOf(await answer(db, "no", await given(db, next.id, { answer: "declined" }), at(7)));
    recordOf(await answer(db, "back", await given(db, record.id, BACK), at(8)));
    const job = await stands(db, TAPE_ECHO);
    const account = accountDeclined(job)!;
    expect(owed(job).total).toBe(account.totals.total);
    const value = { by: HAND, closedOn: "2026-11-25", to: "Ottilie Vantongeren", accessories: [], oldParts: { is: "returned" } };
    const close = { ...value, agreedThen: "let go" } as const;
    answerOf(await done(closeDeclined, deskAt(db, at(9), "closed"), close as never, { job: TAPE_ECHO }));
    const { totals: alone, lines: looking } = (await stands(db, TAPE_ECHO)).closeOut!.result.account;
    // What the looking comes to is as without the other work, by the book it was declined by.
    expect(alone.taxGroups.map((group) => group.percent)).toEqual([percent]);
    const { agreedThen, lines, adjustments, totals } = account;
    expect(totals.total).toBe(alone.total + agreedThen!.amount);
    // Without tax, by the book it was agreed by.
    const signed = adjustments.map(({ charge, amount }) => ({ amount: charge ? amount : -amount }));
    const then = [...lines.slice(looking.length), ...signed].reduce((sum, { amount }) => sum + amount, 0);
    const net = change(old.book.tax).included ? then / 1.2 : then;
    expect(Math.abs(agreedThen!.amount - net * 1.2)).toBeLessThanOrEqual(2);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});
