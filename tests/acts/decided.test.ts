/** What acts decide by rules that no page shows at once. The demo shop (invented). */
import { sql } from "drizzle-orm";
import { describe, expect, it } from "vitest";
import { asIssued } from "../../src/acts/answered.js";
import { bringIn } from "../../src/acts/bringIn.js";
import { closeOutMismatch } from "../../src/acts/checked/closeOutMismatch.js";
import { copiesOtherwise } from "../../src/acts/checked/rowCopies.js";
import { verifyJob } from "../../src/acts/checked/verifyJob.js";
import { choosePapers } from "../../src/acts/choosePapers.js";
import { compared } from "../../src/acts/compared.js";
import { mapSaid, recordsNamed } from "../../src/acts/draft.js";
import { movedTo } from "../../src/acts/effect.js";
import { baseOf } from "../../src/acts/extraFault.js";
import { mergePartKind } from "../../src/acts/mergePartKind.js";
import { paperworkOf, withPaperwork } from "../../src/acts/paperwork.js";
import { owedDeclined } from "../../src/acts/reckoning.js";
import { recordAnswer } from "../../src/acts/recordAnswer.js";
import { saveDraft } from "../../src/acts/saveDraft.js";
import { asItStands, goOnWithout } from "../../src/acts/setUp.js";
import { signIn } from "../../src/acts/signIn.js";
import { testGoods } from "../../src/acts/testGoods.js";
import { dropped, triggersOf } from "../../src/records/backup/guards.js";
import { contentHash } from "../../src/records/contentHash.js";
import { issues } from "../../src/records/issues.js";
import { modelsTable } from "../../src/records/models.js";
import { ownerLinks } from "../../src/records/ownerLinks.js";
import { owners } from "../../src/records/owners.js";
import { signInEventsTable } from "../../src/records/signInEvents.js";
import { eventsOf } from "../../src/records/trail.js";
import { person } from "../http/support/people.js";
import { BARE_JOB, shop } from "../http/support/shop.js";
import { answer, asks, replies } from "../records/support/answer.js";
import { agreedJob, closed, closing, HAND } from "../records/support/closed.js";
import { draftAdded, issue, outgoing } from "../records/support/drafts.js";
import { at, draftOf, given, issued, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, close, log, stands, start } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const OTHER = "01a1e3d5-c4c0-7eb7-a9af-1608384dbd2c";
const NONE = { chosen: [], struck: [] };

describe("a job", () => {
  it("is compared by the revisions that are named, prices a set once, and knows none that is not its own", async () => {
    const { db } = await shop();
    const job = await stands(db, TAPE_ECHO);
    const { id } = job.draft!;
    expect(compared(job, { from: 1 })).toMatchObject({ from: { revision: 1 }, to: { revision: 1 } });
    expect(compared(job)).not.toHaveProperty("from");
    expect(job.priced(id, NONE)).toBe(job.priced(id, { ...NONE }));
    expect(() => job.priced("nowhere", NONE)).toThrow("Estimate nowhere, which was answered, is gone.");
    expect(asIssued(job, "nowhere")).toEqual(NONE);
    const shown = { ...job.draft!, input: { ...job.draft!.input, paperwork: { paper: job.settings.paper } } };
    expect(baseOf(job, shown, new Date(at(0)))).toMatchObject({ paperwork: { paper: job.settings.paper }, asOf: "2026-11-25" });
    expect(await verifyJob(db, TAPE_ECHO, [])).toMatchObject({ erased: false, revisions: 1 });
  });

  it("keeps a draft without paperwork as it is, where nothing of it is said", async () => {
    const { db } = await shop();
    const job = await stands(db, TAPE_ECHO);
    const { paperwork: _, ...input } = job.draft!.input;
    const kept = async (changes: object) =>
      (await withPaperwork(deskAt(db, at(1)), job, { ...job.draft!, input }, changes)).record;
    expect((await kept({ photos: undefined })).input).not.toHaveProperty("paperwork");
    expect((await kept({ paper: "Letter" })).input.paperwork).toEqual({ paper: "Letter" });
    const names = (said: object) =>
      paperworkOf({ ...job, settings: { ...job.settings, names: { en: said } } as never }, job.draft!, new Date(at(1)));
    expect(names({ "Play head, half track": "Head" })).toMatchObject({ names: { "Play head, half track": "Head" } });
    expect(names({ "On no paper of it": "Nothing" })).not.toHaveProperty("names");
  });

  it("declined is owed for, and one that is not comes to nothing", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    expect(owedDeclined(await stands(db, TAPE_ECHO))).toBeUndefined();
    recordOf(await answer(db, "no", await given(db, record.id, { answer: "declined" }), at(2)));
    expect(owedDeclined(await stands(db, TAPE_ECHO))).toBeGreaterThanOrEqual(0);
  });
});

describe("a draft", () => {
  it("goes with its unit and its job to the owner who is said", async () => {
    const { db } = await shop();
    const { id, version, jobId, rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
    const before = await stands(db, TAPE_ECHO);
    const other = (await owners.list(db, { limit: 10 })).rows.find((each) => each.id !== before.owner.id)!;
    const said = { jobId, rateBookId, rateBookVersion, input, owner: { id: other.id }, unfinished: true } as never;
    expect(await done(saveDraft, deskAt(db, at(1)), said, { id, seen: [version] })).toMatchObject({ ok: true });
    const job = await stands(db, TAPE_ECHO);
    expect([job.owner.id, job.unit.ownerId, job.job.ownerId]).toEqual([other.id, other.id, other.id]);
    // Said again, it is nothing that others would have to look at.
    expect(await done(saveDraft, deskAt(db, at(2)), said, { id, seen: [job.draft!.version] })).toMatchObject({ ok: true });
    const again = await stands(db, TAPE_ECHO);
    expect([again.unit.version, again.job.version]).toEqual([job.unit.version, job.job.version]);
  });

  it("is told of by its job's trail, and tells the unit what was not known of it", async () => {
    const { db } = await shop();
    const { rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
    await db.run(sql`UPDATE units SET serial = NULL`);
    expect(await draftAdded(db, "begun", { jobId: BARE_JOB, rateBookId, rateBookVersion, input }, at(1))).toMatchObject({
      is: "done",
    });
    expect((await stands(db, BARE_JOB)).unit.serial).toBe(input.unit.serial);
    expect((await eventsOf(db, BARE_JOB)).at(-1)).toMatchObject({
      is: "draft begun",
      content: { estimate: "begun", revision: 1 },
    });
  });

  it("starts from the model that is named by its id, and knows the one that is called as the unit is", async () => {
    const { db } = await shop();
    const { rateBookId, rateBookVersion, input } = await draftOf(db, TAPE_ECHO);
    const [one, two] = await db.select().from(modelsTable).limit(2);
    const unit = { ...input.unit, maker: two!.maker.toUpperCase(), model: two!.model };
    const found = await recordsNamed(db, { rateBookId, rateBookVersion, input: { ...input, unit }, modelId: one!.id } as never);
    expect([found.started?.id, found.called?.id]).toEqual([one!.id, two!.id]);
  });

  it("leaves a model that is kept as it stands, and shows one that is kept otherwise by someone else", () => {
    const [map, hazards] = [{ assemblies: [] }, ["lead solder"]];
    const of = (kept: object) =>
      mapSaid(
        deskAt({} as never, at(1)),
        { input: { unit: { maker: "Threnwick", model: "Cadence 3" } }, map: { map, ...kept } } as never,
        { called: { id: "m", version: 2, map, hazards } } as never,
      );
    expect(of({})).toEqual({ id: "m" });
    expect(of({ hazards })).toEqual({ id: "m" });
    expect(of({ hazards: ["solvent vapour"] })).toMatchObject({ id: "m", clashes: [{ pointer: "/map" }] });
  });

  it("is not written anew by papers that say nothing new of it", async () => {
    const { db } = await shop();
    const before = await draftOf(db, TAPE_ECHO);
    expect(await done(choosePapers, deskAt(db, at(1)), {}, { job: TAPE_ECHO })).toMatchObject({ ok: true });
    expect((await draftOf(db, TAPE_ECHO)).version).toBe(before.version);
  });

  it("is moved to another version of its own rate book alone, and only while it is a draft", async () => {
    const { db } = await shop();
    const draft = await draftOf(db, TAPE_ECHO);
    const { rateBook } = (await stands(db, TAPE_ECHO)).inputOf(draft);
    const moved = (book: object, id = draft.id) => movedTo(db, { ...rateBook, ...book }, [id], at(1), new Date(at(1)));
    const refused = { refused: { errors: [{ pointer: "/drafts", name: "record unknown" }] } };
    expect(await moved({})).toMatchObject({ writes: [expect.anything()] });
    expect(await moved({ id: "another" })).toMatchObject(refused);
    expect(await moved({}, "nowhere")).toMatchObject(refused);
    expect(await moved({ inForceFrom: "2026-11-26" })).toMatchObject({ refused: { errors: [{ name: "starts too early" }] } });
    const { record } = await issued(db, draft.id);
    expect(await moved({})).toMatchObject(refused);
    expect(await issue(db, draft.id, 1, outgoing(), at(2))).toMatchObject({
      is: "estimate issued",
      headers: { etag: `"${record.version}"` },
      detail: expect.stringContaining("Revision 1 is issued already"),
    });
  });
});

it("a reply stands on the trail of its job", async () => {
  const { db } = await shop();
  const { secret } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
  const link = (await ownerLinks.find(db, secret.fragment.split(".")[0]!))!;
  await asks(db, "question", link, "How long will it take?", at(2));
  await replies(db, "reply", "question", { by: HAND, text: "About three weeks." }, at(3));
  expect((await eventsOf(db, TAPE_ECHO)).at(-1)).toMatchObject({
    is: "question answered",
    content: { by: HAND, record: { in: "question_replies", id: "reply" } },
  });
});

describe("an answer that the shop records", () => {
  it("was spoken where it was told by telephone, or in person without a writing", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const told = { answer: "agreed", by: "Ottilie Vantongeren", recordedBy: HAND, spoken: { date: "2026-11-25", time: "09:02" } };
    const recorded = async (more: object, when: number) => {
      const outcome = await done(recordAnswer, deskAt(db, at(when)), { ...told, ...more } as never, { estimate: record.id });
      return answerOf(outcome);
    };
    const writing = { channel: "in person", writing: "the estimate, signed at the counter" };
    const first = await recorded(writing, 2);
    expect(first).not.toHaveProperty("spoken");
    const mail = { channel: "e-mail", writing: "e-mail of 25 November, 10:12", corrects: first.id, reason: "it came by e-mail" };
    const second = await recorded(mail, 3);
    expect(second).not.toHaveProperty("spoken");
    const third = await recorded(
      { channel: "telephone", amount: first.amount, corrects: second.id, reason: "it was told by telephone" },
      4,
    );
    expect(third.spoken).toEqual({ ...told.spoken, authoriser: told.by, receiver: HAND });
  });
});

describe("the bench", () => {
  it("refuses an entry at the field that names what the job does not have, in whichever way it was named", async () => {
    const { db } = await shop();
    await agreedJob(db);
    const wrong = async (entry: object) => {
      const outcome = await log(db, { job: TAPE_ECHO, when: at(3) }, entry);
      return outcome.ok ? [] : outcome.refusal.errors!.map(({ pointer }) => pointer);
    };
    const paid = { item: "w01", partCount: 1, paidPrice: 100 };
    expect(await wrong({ item: "nowhere", minutes: 5 })).toEqual(["/item"]);
    expect(await wrong({ assembly: "nowhere", minutes: 5 })).toEqual(["/assembly"]);
    expect(await wrong({ offer: "nowhere", minutes: 5 })).toEqual(["/offer"]);
    expect(await wrong({ item: "w01", minutes: 5, labourClass: "nobody" })).toEqual(["/labourClass"]);
    expect(await wrong({ item: "w01", startedAt: at(2), endedAt: at(1) })).toEqual(["/endedAt"]);
    expect(await wrong({ ...paid, partKind: "nowhere" })).toEqual(["/partKind"]);
    expect(await wrong({ ...paid, partType: "nowhere" })).toEqual(["/partType"]);
    const why = { partSource: "Quillmere", partReason: "the last ones" };
    expect(await wrong({ ...paid, ...why, partType: "film", paidPer: -1 })).toEqual(["/paidPer"]);
  });

  it("has one timer of a person, whichever job it runs on", async () => {
    const { db } = await shop();
    await agreedJob(db);
    await agreedJob(db, OTHER);
    const item = async (job: string) => (await stands(db, job)).agreed()!.input.items[0]!.id;
    const begun = async (job: string, person: string, when: number) =>
      start(db, { job, when: at(when) }, { item: await item(job), person } as never);
    expect(await begun(TAPE_ECHO, "Ines", 3)).toMatchObject({ ok: true });
    expect(await begun(OTHER, "Ines", 4)).toMatchObject({ refusal: { errors: [{ name: "two timers", pointer: "/startedAt" }] } });
    expect(await begun(OTHER, "Wilhelmina", 4)).toMatchObject({ ok: true });
  });
});

describe("a close-out", () => {
  it("counts what was done in whole pieces, none below 0 and none beyond what was agreed", async () => {
    const { db } = await shop();
    await agreedJob(db);
    const { id, count } = (await stands(db, TAPE_ECHO)).agreed()!.input.items.find(({ count }) => count > 0)!;
    const made = { job: TAPE_ECHO, when: at(600) };
    for (const done of [-1, 0.5, count + 1])
      expect(await close(db, made, closing({ done: { [id]: done } }))).toMatchObject({
        refusal: {
          errors: [{ pointer: `/done/${id}`, detail: `Count done: give a whole number from 0 to ${count}, as agreed.` }],
        },
      });
    const [full, less] = (await stands(db, TAPE_ECHO)).agreed()!.input.items.filter((item) => item.count > 1);
    const counts = { [full!.id]: full!.count, [less!.id]: less!.count - 1 };
    expect(await close(db, made, closing({ done: counts }))).toMatchObject({ ok: true });
    expect((await stands(db, TAPE_ECHO)).closeOut!.basis.done).toEqual({ [less!.id]: less!.count - 1 });
  });

  it("is told all that is wrong with it at once", async () => {
    const { db } = await shop();
    await agreedJob(db);
    const { items } = (await stands(db, TAPE_ECHO)).agreed()!.input;
    const wrong = {
      ...{ closedOn: "2026-01-01", oldParts: { is: "kept" }, untouched: { each: { nowhere: "done" } }, by: undefined },
      payments: [{ for: "deposit", amount: 0, on: "2026-11-26" }],
      done: { [items[0]!.id]: -1 },
    };
    const outcome = await close(db, { job: TAPE_ECHO, when: at(600) }, closing(wrong as never));
    expect(outcome).toMatchObject({ ok: false, refusal: { is: "input refused" } });
    const { errors = [] } = (outcome as Extract<typeof outcome, { ok: false }>).refusal;
    expect(errors.map(({ pointer }) => pointer)).toEqual([
      ...["/by", "/closedOn", "/payments/0/amount", "/oldParts/why", "/untouched/each/nowhere", "/untouched/all"],
      `/done/${items[0]!.id}`,
    ]);
  });

  it("is held to its hash, to its PDF, and to what the log comes to now", async () => {
    const { db } = await shop();
    const record = await closed(db);
    const mine = await issues.ofJob(db, TAPE_ECHO);
    const wrong = async (changed: object) =>
      (await closeOutMismatch(db, { ...record, ...changed }, [record], mine, undefined)) as { what?: string } | undefined;
    expect(await wrong({})).toBeUndefined();
    expect(await wrong({ contentHash: "0" })).toMatchObject({ what: "content hash" });
    expect(await wrong({ pdfHash: "0" })).toMatchObject({ what: "pdf" });
    const payments = record.result.account.payments.map((each) => ({ ...each, on: "2026-11-27" }));
    const result = { ...record.result, account: { ...record.result.account, payments } };
    expect(await wrong({ result, contentHash: await contentHash({ basis: record.basis, result }) })).toMatchObject({
      what: "figures",
    });
    expect(await copiesOtherwise(db, {})).toEqual([]);
    // What the risk foresaw may be reckoned a little closer by a later version.
    const foreseen = async (times: number) => {
      await db.run(sql`UPDATE outcomes SET p50 = cast(p50 * ${times} AS integer)`);
      return wrong({});
    };
    expect(await foreseen(1.01)).toBeUndefined();
    expect(await foreseen(1.05)).toMatchObject({ what: "outcome" });
  });

  it("holds the chain to the head on its paper, and so does an issue, whatever the rows say", async () => {
    const { db } = await shop();
    await closed(db);
    const { number } = (await eventsOf(db, TAPE_ECHO)).at(-1)!;
    for (const table of ["close_outs", "issues"]) {
      for (const each of await triggersOf(db)) if (each.table === table) await dropped(db, each);
      await db.run(sql`UPDATE ${sql.identifier(table)} SET head_number = ${number}, head_hash = ${table}`);
      expect(await verifyJob(db, TAPE_ECHO, [])).toMatchObject({
        mismatch: { is: "chain", fault: { is: "head", number, hash: table } },
      });
    }
  });
});

it("copies of rows are looked at among those that are asked for, and without asking all of them, even of a table that is no more", async () => {
  const { db } = await shop();
  await db.run(sql`INSERT INTO row_copies (of, id, body) VALUES ('gone_table', 'x', '{}')`);
  expect(await copiesOtherwise(db, { owners: [] })).toEqual([]);
  expect(await copiesOtherwise(db)).toEqual([{ is: "copy without row", in: "gone_table", id: "x" }]);
});

it("goods are tested by at least one piece", async () => {
  const { db } = await shop();
  const goods = {
    receivedOn: "2026-11-25",
    kind: "el-1000u-50",
    source: "Pindrake Components",
    state: "new",
    currency: "GBP",
  } as const;
  const { id } = answerOf(await done(bringIn, deskAt(db, at(1)), { ...goods, pieces: 10, paid: 905, by: HAND }, {}));
  expect(await done(testGoods, deskAt(db, at(2)), { good: 0, bad: 0, by: HAND }, { goods: id })).toMatchObject({
    refusal: { errors: [{ pointer: "/good", name: "key missing", detail: "Good: give how many were good, or how many bad." }] },
  });
});

it("parts of a type that the rate book has no more are told apart by the type's id", async () => {
  const { db } = await shop();
  await db.run(sql`UPDATE part_kinds SET type = 'retired-type' WHERE id = 'el-10u-50'`);
  const outcome = await done(mergePartKind, deskAt(db, at(1)), { into: "el-10u-50", by: HAND }, { id: "el-4u7-63" });
  expect(outcome).toMatchObject({
    refusal: {
      errors: expect.arrayContaining([
        expect.objectContaining({ name: "part types differ", detail: expect.stringContaining("has the type retired-type and") }),
      ]),
    },
  });
});

it("a sign-in that was refused stands with the account that was tried", async () => {
  const opened = await shop();
  const id = await person(opened, "Tamsin", "manager");
  const nobody = async () => undefined;
  const entrance = { caller: "c", cost: { n: 16, r: 1, p: 1 }, created: nobody, proven: nobody, spent: nobody } as never;
  const tried = (name: string) =>
    done(signIn, deskAt(opened.db, at(1)), { name, passphrase: "kettle thimble orchard" } as never, entrance);
  const why = "This name and this passphrase do not belong together.";
  expect(await tried("Tamsin")).toMatchObject({ answer: { is: "refused", at: "passphrase", why } });
  expect(await tried("Nobody")).toMatchObject({ answer: { is: "refused", at: "passphrase" } });
  const kept = await opened.db.select().from(signInEventsTable);
  expect(kept.filter(({ what }) => what === "refused").map(({ staffId }) => staffId)).toEqual([id, null]);
});

it("the shop's rates are read back as they were said, with a tax and without", async () => {
  const { db } = await shop();
  const bench = {
    shopName: "Quellmarsh Repairs",
    currency: "GBP",
    timeZone: "Europe/London",
    locale: "en-GB",
    paper: "A4",
    hourlyRate: 6000,
  };
  const said = (rates: object) => done(goOnWithout, deskAt(db, at(1)), { ...bench, ...rates } as never, {});
  const taxed = { tax: "included", taxName: "VAT", taxPercent: 17.5, diagnosisFee: 4500, feeCredited: true };
  expect(await said(taxed)).toMatchObject({ ok: true });
  expect(await asItStands({ db })).toMatchObject({ ...bench, ...taxed });
  expect(await said({ tax: "none" })).toMatchObject({ ok: true });
  expect(await asItStands({ db })).toMatchObject({ ...bench, tax: "none" });
  expect(await asItStands({ db })).not.toHaveProperty("taxName");
  const faults = async (rates: object) => {
    const outcome = await said(rates);
    return outcome.ok ? [] : outcome.refusal.errors!.map(({ pointer }) => pointer);
  };
  expect(await faults({ tax: "added" })).toEqual(["/taxName", "/taxPercent"]);
  expect(await faults({ tax: "none", taxName: "VAT" })).toEqual(["/tax"]);
  expect(await faults({ tax: "none", taxPercent: 20 })).toEqual(["/tax"]);
});
