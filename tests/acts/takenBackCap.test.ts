/** What is owed once an owner took an agreement back: taxed by the book of each part, and never above what the words of the refusal say. Demo shop, people invented. */
import { describe, expect, it } from "vitest";
import { closeDeclined } from "../../src/acts/closeDeclined.js";
import { owed } from "../../src/acts/owed.js";
import { accountDeclined } from "../../src/acts/reckoning.js";
import type { RateBook, TaxRules, WorkItem } from "../../src/estimating/input.js";
import type { Database } from "../../src/records/database.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { HAND } from "../records/support/closed.js";
import { draftSaved, nextDraft } from "../records/support/drafts.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, log, stands, start, stop, tick } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const BACK = { answer: "declined", channel: "in person", corrects: "yes", reason: "taken back" } as const;

const EYE = {
  ...{ id: "eye", own: { name: "Replace the tuning eye", price: 4000 }, count: 1 },
  certainty: { is: "if found", probability: 0.4 },
} as const;
const PASS = { by: HAND, reason: "told to" };

async function agreed(more: readonly WorkItem[] = []) {
  const { db } = await shop();
  const { id, version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
  const policy = { ...input.policy, diagnosis: true };
  await draftSaved(
    db,
    id,
    version,
    { jobId, rateBookId, rateBookVersion, input: { ...input, items: [...input.items, ...more], policy } },
    at(0),
  );
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

describe("what the words of a refusal promise", () => {
  const saidIn = (wording: string) =>
    Number(/both together no more than £([\d.,]+), tax/.exec(wording)?.[1]?.replaceAll(/\D/g, ""));
  const lastOf = async (db: Database) => (await stands(db, TAPE_ECHO)).answers.at(-1)!;

  /** All of it ticked off and opened for hours, and then taken back. */
  async function allDone() {
    const made = await agreed([EYE]);
    const { db, record } = made;
    answerOf(await log(db, { id: "long", job: TAPE_ECHO, when: at(3) }, { minutes: 300 }));
    for (const { id: item, count, certainty } of (await stands(db, TAPE_ECHO)).agreed()!.input.items)
      if (certainty.is === "planned" && count > 0)
        answerOf(await tick(db, { job: TAPE_ECHO, when: at(4) }, { item, count, person: HAND }));
    recordOf(await answer(db, "back", await given(db, record.id, BACK), at(8)));
    return made;
  }

  it("stands on record, and nothing that is logged after it raises it", async () => {
    const { db } = await allDone();
    const { ceiling, wording } = await lastOf(db);
    expect(ceiling).toBe(saidIn(wording));
    expect(owed(await stands(db, TAPE_ECHO)).total).toBe(ceiling);
    answerOf(await log(db, { id: "eyed", job: TAPE_ECHO, when: at(9) }, { item: "eye", minutes: 5 }, PASS));
    expect(owed(await stands(db, TAPE_ECHO)).total).toBe(ceiling);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("is kept by an earlier record too, which says it in words alone or promised the looking alone", async () => {
    const { db, record } = await allDone();
    answerOf(await log(db, { id: "eyed", job: TAPE_ECHO, when: at(9) }, { item: "eye", minutes: 5 }, PASS));
    const job = await stands(db, TAPE_ECHO);
    const { ceiling, ...before } = job.answers.at(-1)!;
    const asKept = (wording: string) => accountDeclined(job.asAnswered([...job.answers.slice(0, -1), { ...before, wording }]))!;
    expect(asKept(before.wording).totals.total).toBe(ceiling);
    const [alone] = before.wording.split(" For work done while");
    const { totals, agreedThen } = asKept(alone!);
    expect([totals.total <= record.sheet!.ifDeclined.amount, agreedThen]).toEqual([true, undefined]);
  });

  it("counts a timer that runs, and holds what it comes to", async () => {
    const { db, record, item } = await agreed();
    answerOf(await log(db, { id: "long", job: TAPE_ECHO, when: at(3) }, { minutes: 300 }));
    answerOf(await start(db, { id: "timer", job: TAPE_ECHO, when: at(4) }, { person: "Ines", item: item.id }));
    recordOf(await answer(db, "back", await given(db, record.id, BACK), at(64)));
    const { ceiling, wording } = await lastOf(db);
    expect(ceiling).toBe(saidIn(wording));
    const before = owed(await stands(db, TAPE_ECHO)).total!;
    answerOf(await stop(db, { id: "stopped", job: TAPE_ECHO, when: at(65) }, { person: "Ines", override: PASS }));
    const after = owed(await stands(db, TAPE_ECHO)).total!;
    expect([after > before, after <= ceiling!]).toEqual([true, true]);
  });
});
