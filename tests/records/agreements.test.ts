import { describe, expect, it } from "vitest";
import type { Given } from "../../src/acts/answered.js";
import { withChoices } from "../../src/estimating/agreement/choices.js";
import { estimate } from "../../src/estimating/estimate.js";
import { SPOKEN_FIELDS } from "../../src/estimating/law/spoken.js";
import { agreedTo, answersOf, standingAnswer } from "../../src/records/agreements.js";
import type { Database } from "../../src/records/database.js";
import { estimates } from "../../src/records/estimates.js";
import { issues } from "../../src/records/issues.js";
import { ownerLinks } from "../../src/records/ownerLinks.js";
import { eventsOf } from "../../src/records/trail.js";
import { answerOf, log, stands } from "../acts/support/bench.js";
import { shop } from "../http/support/shop.js";
import { answer } from "./support/answer.js";
import { draftSaved, nextDraft } from "./support/drafts.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "./support/livedIn.js";

/** A shop whose tape echo is issued, and what its owner would say. */
async function opened(profile?: string) {
  const { db } = await shop();
  if (profile) await under(db, profile);
  const { record, secret } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
  const input = await estimates.inputOf(db, record);
  const say = async (changed: Partial<Given>, id: string = crypto.randomUUID(), when = at(2)) =>
    answer(db, id, await given(db, record.id, changed), when);
  return { db, record, secret, input, say };
}

/** With what a profile asks of the paper. */
async function under(db: Database, profile: string) {
  await db.run("UPDATE settings SET registration = 'E-12345', phone = '01632 960100'");
  await db.run("UPDATE owners SET address = '[\"1 Demo Lane\"]'");
  await db.run("UPDATE units SET serial = 'TE-1'");
  const draft = await draftOf(db, TAPE_ECHO);
  const input = { ...draft.input, policy: { ...draft.input.policy, profile } };
  await draftSaved(db, draft.id, draft.version, { ...draft, input }, at(0));
}

/** Another revision, dearer by six capacitors' worth of work. */
async function dearer(db: Database) {
  const next = await nextDraft(db, TAPE_ECHO, "second", at(5));
  if (!next.record) throw new Error(next.is);
  const { jobId, rateBookId, rateBookVersion, input } = next.record;
  const items = [...input.items, { ...input.items[0]!, id: "extra", count: 6 }];
  await draftSaved(db, "second", 1, { jobId, rateBookId, rateBookVersion, input: { ...input, items } }, at(6));
  return issued(db, "second", at(7));
}

describe("an answer", () => {
  it("holds hashes, wording, times, amount, ceiling, options, who, and where the link was delivered", async () => {
    const { db, record, secret, input, say } = await opened();
    const link = (await ownerLinks.byFragment(db, secret.fragment))!;
    const option = record.sheet!.options[0]!.id;
    const from = { link, address: "192.0.2.7", agent: "a browser", chosen: [option] };
    const kept = recordOf(await say(from, "one"));
    const priced = estimate(withChoices(input, [option]));
    if (!priced.ok) throw new Error("problems");
    const issue = (await issues.find(db, record.id))!;
    expect(kept).toEqual({
      id: "one",
      jobId: TAPE_ECHO,
      at: at(2),
      zone: "Europe/London",
      estimateId: record.id,
      revision: 1,
      contentHash: issue.contentHash,
      pdfHash: issue.pdfHash,
      answer: "agreed",
      by: "Ottilie Vantongeren",
      channel: "page",
      wording: kept.wording,
      currency: "GBP",
      chosen: [option],
      struck: [],
      amount: priced.sheet.totals.total,
      ceiling: priced.sheet.ceiling.amount,
      deposit: priced.sheet.deposit.amount,
      linkId: link.id,
      deliveredTo: "on paper",
      address: "192.0.2.7",
      agent: "a browser",
    });
    expect(await answersOf(db, TAPE_ECHO)).toEqual([kept]);
    expect((await eventsOf(db, TAPE_ECHO)).at(-1)).toMatchObject({ is: "answered", content: { revision: 1, answer: "agreed" } });
  });

  it("prices the set that was chosen as a whole, and what is struck out is not in it", async () => {
    const { input, record, say } = await opened();
    const struck = input.items.find(({ certainty }) => certainty.is === "planned")!.id;
    const kept = recordOf(await say({ answer: "part agreed", struck: [struck], chosen: [] }));
    const without = withChoices(input, []);
    const outcome = estimate({ ...without, items: without.items.filter(({ id }) => id !== struck) });
    if (!outcome.ok) throw new Error("problems");
    expect(kept).toMatchObject({ amount: outcome.sheet.totals.total, ceiling: outcome.sheet.ceiling.amount, struck: [struck] });
    expect(kept.amount).toBeLessThan(record.sheet!.totals.total);
  });

  it("that declines has no amount, and what was ticked beside it does not count", async () => {
    const { record, say } = await opened();
    const kept = recordOf(await say({ answer: "declined", chosen: [record.sheet!.options[0]!.id], struck: ["w01"] }));
    expect(kept).toMatchObject({ answer: "declined", chosen: [], struck: [] });
    expect(kept).not.toHaveProperty("amount");
    expect(agreedTo([kept])).toBeUndefined();
  });

  it("given twice, in any order of its options, is the first record", async () => {
    const { db, record, say } = await opened();
    const ids = record.sheet!.options.map(({ id }) => id);
    const first = await say({ chosen: ids }, "first");
    const again = await say({ chosen: [...ids, ...ids].reverse() }, "second", at(9));
    expect(again).toEqual({ is: "recorded", record: recordOf(first), again: true });
    expect(await answersOf(db, TAPE_ECHO)).toHaveLength(1);
  });

  it.each([
    ["another content", { contentHash: "0".repeat(64) }, { is: "content differs" }],
    ["an option that is none", { chosen: ["w01"] }, { is: "record unknown", pointers: ["/chosen"] }],
    ["an option struck out", { answer: "part agreed", struck: ["w20"] }, { is: "record unknown", pointers: ["/struck"] }],
    ["work that is not there", { answer: "part agreed", struck: ["nothing"] }, { is: "record unknown", pointers: ["/struck"] }],
    ["all of it, with work struck out", { struck: ["w01"] }, { is: "answer and set differ" }],
    ["part of it, with nothing struck out", { answer: "part agreed" }, { is: "answer and set differ" }],
    ["a price that was not shown", { shown: 1 }, { is: "price differs" }],
    ["a correction of nothing", { corrects: "nothing" }, { is: "nothing to correct" }],
  ] as const)("to %s is refused", async (_, changed, refusal) => {
    const { db, say } = await opened();
    expect(await say(changed as Partial<Given>)).toMatchObject(refusal);
    expect(await answersOf(db, TAPE_ECHO)).toEqual([]);
  });

  it("that leaves nothing is declining, not agreeing", async () => {
    const { input, say } = await opened();
    const all = input.items.filter(({ certainty, count }) => certainty.is !== "optional" && count > 0).map(({ id }) => id);
    expect(await say({ answer: "part agreed", struck: all, chosen: [] })).toMatchObject({ is: "answer and set differ" });
  });

  it("may still decline past the last day, and the shop may knowingly take one that agrees", async () => {
    const { db, record } = await opened();
    const late = "2027-06-01T09:00:00.000Z";
    const shops = { channel: "e-mail", writing: "message of 1 June", recordedBy: "Wilhelmina" } as const;
    expect(await answer(db, "one", await given(db, record.id, shops), late)).toMatchObject({ is: "offer ended" });
    const knowingly = { ...shops, afterEnd: true };
    expect(await answer(db, "one", await given(db, record.id, knowingly), late)).toMatchObject({ is: "recorded" });
    const other = await opened();
    expect(await other.say({}, "late", late)).toMatchObject({ is: "revision lapsed" });
    expect(await other.say({ answer: "declined" }, "no", late)).toMatchObject({ is: "recorded" });
  });

  it("corrected to leave out possible work that was found leaves it out of the open draft too, where finding had planned it", async () => {
    const { db, say } = await opened();
    recordOf(await say({}, "one"));
    await nextDraft(db, TAPE_ECHO, "next", at(3));
    const found = async () => (await stands(db, TAPE_ECHO)).draft!.input.items.find(({ id }) => id === "w17")!.certainty;
    answerOf(await log(db, { job: TAPE_ECHO, when: at(3) }, { item: "w17", minutes: 5, person: "Wilhelmina" }));
    expect(await found()).toEqual({ is: "planned" });
    const corrected = { answer: "part agreed", struck: ["w17"], corrects: "one", reason: "w17 was left out" } as const;
    recordOf(
      await say({ ...corrected, channel: "e-mail", writing: "message of 25 November", recordedBy: "Wilhelmina" }, "two", at(4)),
    );
    expect(await found()).toMatchObject({ is: "optional", chosen: false, refused: 1 });
  });

  it("is only to what was issued", async () => {
    const { db } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    expect(await answer(db, "one", await given(db, draft.id), at(1))).toMatchObject({ is: "estimate not issued" });
    expect(await answer(db, "one", { ...(await given(db, draft.id)), estimateId: "nothing" }, at(1))).toMatchObject({
      is: "not found",
    });
  });
});

// The particulars are those of 16 CCR 2722(a) (SEEN, CHECKS 3.1).
describe("a spoken answer", () => {
  const whole = (additionalCost: number) => ({
    date: "2026-11-25",
    time: "10:15",
    authoriser: "Ottilie Vantongeren",
    numberCalled: "01632 960999",
    receiver: "Wilhelmina Stråhle",
    conditions: "none",
    extraPartsAndLabour: "as on revision 1",
    additionalCost,
  });

  it("is complete with who, to whom, when and at what amount, and refused without any one of them", async () => {
    const { input, say } = await opened();
    const outcome = estimate(withChoices(input, []));
    if (!outcome.ok) throw new Error("problems");
    const { date, time, authoriser, receiver } = whole(0);
    const spoken = { date, time, authoriser, receiver };
    const shown = outcome.sheet.totals.total;
    for (const field of Object.keys(spoken) as (keyof typeof spoken)[]) {
      const { [field]: _, ...rest } = spoken;
      expect(await say({ channel: "telephone", spoken: rest, shown }), field).toMatchObject({
        is: "spoken item missing",
        pointers: [`/spoken/${field}`],
      });
    }
    expect(await say({ channel: "telephone", spoken })).toMatchObject({ is: "key missing", pointers: ["/amount"] });
    for (const day of ["2020-11-25", "2027-11-25"])
      expect(await say({ channel: "telephone", spoken: { ...spoken, date: day }, shown }), day).toMatchObject({
        is: "said on no such day",
        pointers: ["/spoken/date"],
      });
    expect(await say({ channel: "telephone", spoken, shown: shown + 1 })).toMatchObject({ is: "price differs" });
    expect(recordOf(await say({ channel: "telephone", spoken, shown, recordedBy: "Wilhelmina" }))).toMatchObject({ spoken });
  });

  it("under California's profile is complete with all eight particulars and refused without any one of them", async () => {
    const { db, say, input } = await opened("us-ca");
    const outcome = estimate(withChoices(input, []));
    if (!outcome.ok) throw new Error("problems");
    // Sales tax is not part of the estimate (16 CCR 2722(b)).
    const spoken = whole(outcome.sheet.totals.withoutTax);
    for (const field of SPOKEN_FIELDS) {
      const { [field]: _, ...rest } = spoken;
      expect(await say({ channel: "telephone", spoken: rest }), field).toMatchObject({
        is: "spoken item missing",
        pointers: [`/spoken/${field}`],
      });
    }
    expect(await say({ channel: "telephone" })).toMatchObject({ pointers: SPOKEN_FIELDS.map((field) => `/spoken/${field}`) });
    expect(recordOf(await say({ channel: "telephone", spoken }))).toMatchObject({ spoken });
    expect(await answersOf(db, TAPE_ECHO)).toHaveLength(1);
  });

  it("must have told the very cost that is agreed to on top of what was agreed before", async () => {
    const { db, record, input, say } = await opened();
    const first = estimate(withChoices(input, []));
    if (!first.ok) throw new Error("problems");
    recordOf(await say({ shown: first.sheet.totals.total }));
    const second = await dearer(db);
    const more = estimate(withChoices(await estimates.inputOf(db, second.record), []));
    if (!more.ok) throw new Error("problems");
    const expected = more.sheet.totals.total - first.sheet.totals.total;
    expect(expected).toBeGreaterThan(0);
    const telephone = async (cost: number) =>
      answer(db, "spoken", await given(db, "second", { channel: "telephone", spoken: whole(cost) }), at(9));
    expect(await telephone(expected - 1)).toMatchObject({ is: "additional cost differs" });
    expect(await telephone(more.sheet.totals.total)).toMatchObject({ is: "additional cost differs" });
    expect(await telephone(expected)).toMatchObject({ is: "recorded" });
    expect(agreedTo(await answersOf(db, TAPE_ECHO))).toMatchObject({ estimateId: "second", revision: 2 });
    expect(record.revision).toBe(1);
  });

  it("at the counter is either spoken, with its particulars, or in writing, and by e-mail in writing", async () => {
    const { say } = await opened();
    for (const channel of ["in person", "e-mail"] as const)
      for (const writing of [undefined, "", "  "])
        expect(await say({ channel, writing }), channel).toMatchObject({ is: "writing missing" });
    expect(await say({ channel: "in person", spoken: { date: "2026-11-25" } })).toMatchObject({ is: "spoken item missing" });
    expect(await say({ channel: "in person", writing: "the signed paper" })).toMatchObject({ is: "recorded" });
  });
});

describe("corrections", () => {
  it("are new records that name the old; the last one stands, and each can be corrected once", async () => {
    const { db, record, say } = await opened();
    const first = recordOf(await say({}, "first"));
    const correct = (corrects: string, changed: Partial<Given>, id: string) =>
      say(
        { channel: "in person", writing: "note", recordedBy: "Wilhelmina", corrects, reason: "misheard", ...changed },
        id,
        at(4),
      );
    expect(await say({ answer: "declined" })).toMatchObject({ is: "answered already", current: first });
    expect(await correct("nothing", { answer: "declined" }, "x")).toMatchObject({ is: "nothing to correct", current: first });
    const second = recordOf(await correct("first", { answer: "declined" }, "second"));
    expect(second).toMatchObject({ corrects: "first", reason: "misheard" });
    expect(await correct("first", {}, "x")).toMatchObject({ is: "nothing to correct", current: second });
    const third = recordOf(await correct("second", {}, "third"));
    const all = await answersOf(db, TAPE_ECHO);
    expect(all).toHaveLength(3);
    expect(all).toContainEqual(first);
    expect(standingAnswer(all, record.id)).toEqual(third);
    expect((await eventsOf(db, TAPE_ECHO)).slice(-3).map(({ is }) => is)).toEqual([
      "answered",
      "answer corrected",
      "answer corrected",
    ]);
  });

  it("of an agreement given in time have its day, and need no word kept past the offer's end", async () => {
    const { db, record, say } = await opened();
    const paper = { channel: "in person", writing: "the signed paper", recordedBy: "Wilhelmina", reason: "misspelt" } as const;
    recordOf(await say(paper, "first"));
    const late = "2027-06-01T09:00:00.000Z";
    const option = record.sheet!.options[0]!.id;
    expect(await say({ ...paper, corrects: "first", chosen: [option] }, "x", late)).toMatchObject({ is: "offer ended" });
    recordOf(await say({ ...paper, corrects: "first", by: "Ottilie Vantongern" }, "second", late));
    recordOf(await say({ ...paper, corrects: "second", afterEnd: true }, "third", late));
    for (const { is, content } of (await eventsOf(db, TAPE_ECHO)).slice(-2))
      expect([is, content]).toEqual(["answer corrected", expect.not.objectContaining({ afterOfferEnded: expect.anything() })]);
    recordOf(await say({ ...paper, corrects: "third", answer: "declined" }, "no", late));
    expect(await say({ ...paper, corrects: "no" }, "x", late)).toMatchObject({ is: "offer ended" });
  });

  it("of a superseded revision may take an agreement back and not make one", async () => {
    const { db, record, say } = await opened();
    recordOf(await say({}, "first"));
    await dearer(db);
    const correct = async (said: "agreed" | "declined", corrects: string, id: string) => {
      const words = { answer: said, corrects, channel: "in person", writing: "note", reason: "misheard" } as const;
      return answer(db, id, await given(db, record.id, words), at(9));
    };
    expect(await correct("declined", "first", "second")).toMatchObject({ is: "recorded" });
    expect(agreedTo(await answersOf(db, TAPE_ECHO))).toBeUndefined();
    expect(await correct("agreed", "second", "third")).toMatchObject({ is: "revision superseded" });
  });
});

describe("what stands agreed", () => {
  it("is an earlier revision while a later one is declined, and the wording is told so", async () => {
    const { db, record, say } = await opened();
    recordOf(await say({}, "first"));
    await dearer(db);
    const declined = recordOf(await answer(db, "no", await given(db, "second", { answer: "declined" }), at(9)));
    expect(declined.wording).toContain("revision 1");
    expect(agreedTo(await answersOf(db, TAPE_ECHO))).toMatchObject({ estimateId: record.id });
  });
});
