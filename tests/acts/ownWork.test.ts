/** What is on no list, through a job's life on the demo shop's tape echo (invented): found, priced, issued, agreed to, logged, closed. */
import { describe, expect, it } from "vitest";
import { changeRateBook } from "../../src/acts/changeRateBook.js";
import { closeOutMismatch } from "../../src/acts/checked/closeOutMismatch.js";
import { addExtraFault } from "../../src/acts/extraFault.js";
import { jobAsItStands } from "../../src/acts/job.js";
import { jobPickList, shopOrderList } from "../../src/acts/partsToGet.js";
import { readForm, typedFrom } from "../../src/acts/readForm.js";
import { jobDone, reckon } from "../../src/acts/reckoning.js";
import { benchBlocks } from "../../src/documents/benchSheetPdf.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { orderListCsv } from "../../src/documents/orderListCsv.js";
import { quotationXml } from "../../src/documents/quotationXml.js";
import { standardId } from "../../src/estimating/closeout/learning/standard.js";
import { estimate } from "../../src/estimating/estimate.js";
import type { WorkItem } from "../../src/estimating/input.js";
import type { CloseOutResult } from "../../src/records/closeOuts.js";
import { contentHash } from "../../src/records/contentHash.js";
import type { Database } from "../../src/records/database.js";
import { issues } from "../../src/records/issues.js";
import { observations } from "../../src/records/observations.js";
import { outcomesOf } from "../../src/records/outcomes.js";
import { partKindsTable } from "../../src/records/partKinds.js";
import { rateBooks } from "../../src/records/rateBooks.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { workTitle } from "../../src/wording/line.js";
import { textsOf } from "../documents/support/texts.js";
import { visitor, words } from "../http/support/noScript.js";
import { shop } from "../http/support/shop.js";
import { agreedJob, closing, logged, worked } from "../records/support/closed.js";
import { draftSaved } from "../records/support/drafts.js";
import { at, draftOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, close, log, not, stands, withdraw } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

const TONGUE = { locale: "en-GB", currency: "GBP" };

async function typed(db: Database, fields: Record<string, string>) {
  const read = readForm(addExtraFault.fields, typedFrom(new URLSearchParams(fields)), TONGUE);
  if (!read.ok) throw new Error(JSON.stringify([...read.errors]));
  return done(addExtraFault, deskAt(db, at(1)), read.value, { job: TAPE_ECHO });
}
const added = async (db: Database, fields: Record<string, string>): Promise<WorkItem> => {
  answerOf(await typed(db, fields));
  return (await draftOf(db, TAPE_ECHO)).input.items.at(-1)!;
};

describe("what is on no list", () => {
  it("is typed as an extra fault: own words with minutes or a price, an own part, and another price for a known one", async () => {
    const { db } = await shop();
    expect(await added(db, { reason: "weak", own: "Test the memory battery under load", minutes: "5" })).toMatchObject({
      own: { name: "Test the memory battery under load", minutes: { low: 5, likely: 5, high: 5 } },
    });
    expect(await added(db, { reason: "hum", own: "Rebuild the supply", price: "80" })).toMatchObject({
      own: { name: "Rebuild the supply", price: 8000 },
    });
    const before = (await draftOf(db, TAPE_ECHO)).sheet!.totals.linesNet;
    const chip = await added(db, {
      reason: "dead",
      ownPart: "Voice chip",
      part: "IC, 16 pins",
      partCost: "95",
      partSource: "By post",
    });
    expect(chip).toMatchObject({ operation: "replace", part: { own: { name: "Voice chip", cost: 9500, source: "By post" } } });
    // At least its cost: a chip at 95 is no longer priced as a usual part.
    expect((await draftOf(db, TAPE_ECHO)).sheet!.totals.linesNet - before).toBeGreaterThan(9500);
    expect(await added(db, { reason: "burnt", part: "Jack", partCost: "4", partReason: "only one left" })).toMatchObject({
      partPrice: { cost: 400, reason: "only one left" },
    });
    expect(await added(db, { reason: "blown", ownPart: "Lamp", minutes: "6", partBrought: "on" })).toMatchObject({
      part: { own: { name: "Lamp", broughtByOwner: true } },
    });
  });

  it("says its dangers, and their cautions follow", async () => {
    const { db } = await shop();
    const said = { reason: "leaks", own: "Neutralise the battery leak", minutes: "5", hazards: "leaking cells" };
    expect((await added(db, said)).own).toMatchObject({ hazards: ["leaking cells"] });
    const { hazards } = (await draftOf(db, TAPE_ECHO)).sheet!;
    expect(hazards.find(({ hazard }) => hazard === "leaking cells")?.from).toContain(said.own);
  });

  it("is refused at the field that is wrong", async () => {
    const { db } = await shop();
    const wrong = async (fields: Record<string, string>, pointer: string, name: string) =>
      expect(await typed(db, { reason: "odd", ...fields })).toMatchObject(not("input refused", { errors: [{ pointer, name }] }));
    await wrong({ own: "Listen to it" }, "/minutes", "time or price missing");
    await wrong({ own: "Listen to it", work: "Clean a board", minutes: "5" }, "/work", "work said twice");
    await wrong({ work: "Clean a board", hazards: "mercury" }, "/hazards", "own work missing");
    await wrong({ ownPart: "Voice chip", part: "IC, 16 pins" }, "/partCost", "own part without cost");
    await wrong({ ownPart: "Voice chip", partCost: "95" }, "/part", "own part without time");
    await wrong({ part: "Jack", partCost: "4" }, "/partReason", "price without reason");
  });

  it("says of its part the state, the pack, the fewest packs and the share expected good", async () => {
    const { db } = await shop();
    const of = { partState: "used", partPack: "2", partMinimum: "3", partGood: "12.34" };
    const chip = await added(db, { reason: "dead", ownPart: "Voice chip", part: "IC, 16 pins", partCost: "95", ...of });
    expect(chip.part).toEqual({
      own: expect.objectContaining({ cost: 9500, state: "used", packSize: 2, minimumPacks: 3, shareGood: 0.1234 }),
    });
  });

  it("stands by its name and source on quotation, bench sheet, pick list and order list; what the owner brings is never ordered", async () => {
    const { db } = await shop();
    await added(db, { reason: "weak", own: "Test the memory battery under load", minutes: "5" });
    const from = { partCost: "95", partSource: "Wrendale Surplus", partDays: "9" };
    await added(db, { reason: "dead", ownPart: "Voice chip", part: "IC, 16 pins", ...from });
    const lamp = await added(db, { reason: "blown", ownPart: "Lamp of the owner", minutes: "6", partBrought: "on" });
    await agreedJob(db);
    const { input, sheet } = (await stands(db, TAPE_ECHO)).agreed()!;
    const quoted = quotationXml(sheet, input);
    const bench = textsOf(benchBlocks(subjectOf(sheet, input))).join("\n");
    for (const words of ["Test the memory battery under load", "Voice chip", "Lamp of the owner"]) {
      expect(quoted).toContain(words);
      expect(bench).toContain(words);
    }
    const { list } = (await jobPickList(db, (await jobAsItStands(db, TAPE_ECHO))!))!;
    const picked = list.parts.map(({ part, from, toGet }) => [part.name, from.map(({ source }) => source), toGet]);
    expect(picked).toContainEqual(["Voice chip", ["Wrendale Surplus"], 1]);
    expect(picked.map(([name]) => name)).not.toContain("Lamp of the owner");
    expect(lamp).toMatchObject({ part: { own: { broughtByOwner: true } } });
    const orders = (await shopOrderList(db, "2026-11-25")).list;
    const csv = orderListCsv(orders, new Map());
    expect(orders.uncovered).toContainEqual(
      expect.objectContaining({
        ...{ part: expect.objectContaining({ name: "Voice chip" }), pieces: 1, why: "own words" },
        own: { source: "Wrendale Surplus", cost: 9500, currency: "GBP" },
      }),
    );
    expect(csv).toMatch(/Wrendale Surplus,Voice chip,.*,95\.00,/);
    expect(csv).not.toContain("Lamp of the owner");
  });

  it("is agreed to, logged and closed like any work; a fixed price is billed as such, whatever it took", async () => {
    const { db } = await shop();
    const flat = await added(db, { reason: "hum", own: "Rebuild the supply", price: "80" });
    const timed = await added(db, { reason: "weak", own: "Test the memory battery under load", minutes: "5" });
    const chip = await added(db, { reason: "dead", ownPart: "Voice chip", part: "IC, 16 pins", partCost: "95" });
    await agreedJob(db);
    const { input, sheet } = (await stands(db, TAPE_ECHO)).agreed()!;
    expect(workTitle(input.items.find(({ id }) => id === flat.id)!, input)).toBe("Rebuild the supply");
    expect(workTitle(input.items.find(({ id }) => id === chip.id)!, input)).toMatch(/Voice chip$/);
    expect((await stands(db, TAPE_ECHO)).unagreed()).not.toContainEqual(
      expect.objectContaining({ id: expect.stringMatching(/^extra/) }),
    );
    answerOf(await log(db, { job: TAPE_ECHO, when: at(3) }, { item: timed.id, minutes: 9 }));
    const part = { item: chip.id, partKind: `own:${chip.id}`, partCount: 1, paidPrice: 9500, paidPer: 1 };
    answerOf(await log(db, { job: TAPE_ECHO, when: at(4) }, part));
    await logged(db, TAPE_ECHO, [{ item: flat.id, minutes: 1 }], at(5));
    const { result } = answerOf(
      await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, closing({ basis: "time and parts" })),
    );
    const { lines } = result.account;
    expect(lines.find(({ id }) => id === `labour:${flat.id}`)?.amount).toBe(8000);
    expect(lines.find(({ id }) => id === `labour:${timed.id}`)?.minutes).toBe(9);
    expect(lines.find(({ id }) => id === `part:own:${chip.id}`)?.amount).toBe(
      sheet.lines.find(({ id }) => id === `part:own:${chip.id}`)?.amount,
    );
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });
});

describe("a known part at a price of its own", () => {
  const JACK = { reason: "burnt", part: "Jack", partCost: "95.50", partReason: "wound to order", partSource: "Wrendale Surplus" };
  const BY_TIME = { is: "time and parts with ceiling", confidencePercent: 95 } as const;

  async function agreedTo() {
    const opened = await shop();
    const { db } = opened;
    const own = (await added(db, JACK)).id;
    const usual = (await added(db, { reason: "worn", part: "Jack" })).id;
    const draft = await draftOf(db, TAPE_ECHO);
    const input = { ...draft.input, policy: { ...draft.input.policy, pricing: BY_TIME } };
    expect((await draftSaved(db, draft.id, draft.version, { ...draft, input }, at(1))).is).toBe("done");
    await agreedJob(db);
    const { sheet } = (await stands(db, TAPE_ECHO)).agreed()!;
    const priceOf = (item: string) =>
      sheet.lines.find(({ sort, from }) => sort === "part" && from.some((by) => by.is === "item" && by.id === item))!.amount;
    return { opened, db, own, usual, priceOf };
  }
  const used = (db: Database, entry: object) => log(db, { job: TAPE_ECHO, when: at(3) }, entry);

  it("is logged at it and from where it is bought, unless told otherwise, at every door", async () => {
    const { opened, db, own, usual } = await agreedTo();
    const told = { paidPrice: 9550, paidPer: 1, partSource: "Wrendale Surplus", partState: "new" };
    const desk = visitor(opened);
    const bench = await desk.get(`/jobs/${TAPE_ECHO}/bench`);
    const number = (await stands(db, TAPE_ECHO))
      .input()!
      .items.filter(({ part, certainty }) => part && certainty.is !== "optional");
    await desk.press(bench, new RegExp(`^Use\\s+number ${number.findIndex(({ id }) => id === own) + 1}, Jack,`));
    expect((await stands(db, TAPE_ECHO)).entries.at(-1)).toMatchObject({ item: own, ...told });
    expect(answerOf(await used(db, { item: own, partType: "jack", beyond: true }))).toMatchObject(told);
    expect(answerOf(await used(db, { item: usual, partType: "jack", beyond: true })).paidPrice).toBeLessThan(1000);
    const cheaper = { item: own, partType: "jack", paidPrice: 8000, beyond: true };
    expect(await used(db, cheaper)).toMatchObject(not("input refused", { errors: [{ pointer: "/partReason" }] }));
    const why = { partReason: "had one left", partSource: "drawer" };
    expect(answerOf(await used(db, { ...cheaper, ...why }))).toMatchObject({ paidPrice: 8000, partSource: "drawer" });
    // Another part in its place is known by its own price.
    const other = { item: own, partType: "potentiometer", insteadOf: true, beyond: true } as const;
    expect(answerOf(await used(db, other))).not.toHaveProperty("partSource");
  });

  it("is billed as agreed where its pieces were used as planned, whatever the lines beside it cost", async () => {
    const { db, own, usual, priceOf } = await agreedTo();
    await logged(db, TAPE_ECHO, [
      { item: own, minutes: 5 },
      { item: usual, minutes: 5 },
    ]);
    const said = closing({ basis: "time and parts", unlogged: "as planned", untouched: { all: "not done" } });
    const { result } = answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, said));
    const billed = result.account.lines
      .filter(({ sort, part }) => sort === "part" && part?.type === "jack")
      .map(({ amount }) => amount);
    expect(billed.toSorted((a, b) => a - b)).toEqual([priceOf(usual), priceOf(own)]);
    const record = (await stands(db, TAPE_ECHO)).closeOut!;
    expect((await verifyShop(db)).mismatch).toBeUndefined();
    // What is on record without that stays as it was.
    const { linePrices: _, ...basis } = record.basis;
    const before = reckon(jobDone(await stands(db, TAPE_ECHO), basis), basis);
    if (!before.ok) throw new Error("It has problems.");
    expect(before.result.account.totals.total).not.toBe(result.account.totals.total);
  });

  it("is got from where it is bought, says the bench sheet", async () => {
    const { db } = await agreedTo();
    const { input, sheet } = (await stands(db, TAPE_ECHO)).agreed()!;
    const rows = benchBlocks(subjectOf(sheet, input))
      .flatMap((block) => (block.is === "table" ? block.rows : []))
      .map(({ cells }) => cells.map(({ text }) => text));
    expect(
      rows
        .filter(([name]) => name === "Jack")
        .map(([, , , from]) => from)
        .toSorted(),
    ).toEqual(["Wrendale Surplus", "to be found"]);
  });
});

it("a fixed price that was done and not timed is compared at its price, and its page says so; what is on record without that stays", async () => {
  const opened = await shop();
  const { db } = opened;
  const flat = await added(db, { reason: "hum", own: "Rebuild the supply", price: "80" });
  await agreedJob(db);
  await worked(db, TAPE_ECHO, 1.2);
  // The stand-in log timed it, as it timed all else.
  for (const { id } of (await stands(db, TAPE_ECHO)).entries.filter(({ item }) => item === flat.id))
    answerOf(await withdraw(db, { job: TAPE_ECHO, when: at(590) }, id, { by: "Wilhelmina Stråhle", reason: "not timed" }));
  const costs = { otherwise: 2800 };
  const said = closing({ untouched: { all: "done, not timed" }, costs });
  const form = words((await visitor(opened).get(`/jobs/${TAPE_ECHO}/close-out`)).html).replaceAll(/\s+/g, " ");
  expect(form).toContain("Rebuild the supply 1 none");
  answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, said));
  const record = (await stands(db, TAPE_ECHO)).closeOut!;
  const rowOf = ({ closeOut }: CloseOutResult) => closeOut!.rows.find(({ id }) => id === `labour:${flat.id}`);
  expect(rowOf(record.result)).toMatchObject({ quoted: 8000, allowed: 8000, actual: 8000, untimed: "done" });
  expect((await outcomesOf(db, TAPE_ECHO))[0]!.actual).toBe(record.result.closeOut!.total.actual);
  const { html } = await visitor(opened).get(`/jobs/${TAPE_ECHO}/close-out`);
  expect(words(html)).toContain("Work that nobody timed stands at what was allowed.");
  expect((await verifyShop(db)).mismatch).toBeUndefined();
  const { margin, planned } = record.result;
  for (const of of [margin, planned]) expect([of!.untimed, of!.perHour]).toEqual([true, undefined]);
  expect(words(html).replaceAll(/\s+/g, " ")).toContain(
    "For each hour at the bench not known not known What an hour earned is not known where work is billed whose time is not, as at a fixed price.",
  );

  const { atPrice: _, hoursKnown: __, ...basis } = record.basis;
  const before = reckon(jobDone(await stands(db, TAPE_ECHO), basis), basis);
  if (!before.ok) throw new Error("It has problems.");
  expect(rowOf(before.result)).toMatchObject({ allowed: 8000, actual: 0 });
  expect(before.result.account).toEqual(record.result.account);
  expect(before.result.margin).toMatchObject({ margin: margin!.margin, perHour: expect.any(Number) });
  const older = { ...record, basis, result: before.result, contentHash: await contentHash({ basis, result: before.result }) };
  const all = [older, { ...record, id: "later", corrects: "closed" }];
  expect(await closeOutMismatch(db, older, all, await issues.ofJob(db, TAPE_ECHO), undefined)).toBeUndefined();
});

describe("what is on no list, at the bench", () => {
  const WHY = { by: "Wilhelmina Stråhle", reason: "it would not have held" };
  const BATTERY = { own: "Test the memory battery under load", ownHazards: ["leaking cells" as const], minutes: 12 };

  async function bench() {
    const { db } = await shop();
    await agreedJob(db);
    const logging = (entry: Parameters<typeof log>[2], override?: typeof WHY) =>
      log(db, { job: TAPE_ECHO, when: at(3) }, entry, override);
    const taker = (await stands(db, TAPE_ECHO))
      .agreed()!
      .input.items.find(({ part, count, certainty }) => part && "kind" in part && count > 2 && certainty.is === "planned")!;
    return { db, logging, taker };
  }
  const closedOn = async (db: Database, terms: Parameters<typeof closing>[0] = {}) =>
    answerOf(await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, closing(terms))).result;

  it("is work that nobody agreed to: refused, let through by name and reason, flagged, and told at the close without a charge", async () => {
    const { db, logging } = await bench();
    expect(await logging(BATTERY)).toMatchObject(not("work unagreed", { overridable: true }));
    const first = answerOf(await logging(BATTERY, WHY));
    const { own } = (await stands(db, TAPE_ECHO)).log();
    expect(own).toMatchObject([{ own: { name: BATTERY.own, hazards: ["leaking cells"] } }]);
    const [{ id }] = own as [WorkItem];
    expect((await stands(db, TAPE_ECHO)).unagreed()).toContainEqual({ id, why: "not in what was agreed" });
    // By its own id it is the same work, said in its words.
    expect(answerOf(await logging({ item: id, minutes: 3 }, WHY))).toMatchObject({ own: BATTERY.own, minutes: 3 });
    const before = answerOf(await close(db, { id: "early", job: TAPE_ECHO, when: at(500) }, closing({}))).result;
    expect(before.account.notCharged).toBeGreaterThan(0);
    expect(before.closeOut!.rows.filter(({ item }) => item === id)).toMatchObject([
      { category: "not agreed", is: { line: { operation: { name: BATTERY.own } } }, minutes: { actual: 15 } },
    ]);
    expect((await verifyShop(db)).mismatch).toBeUndefined();
    expect(first.overrideId).toBeDefined();
  });

  it("is a part in own words with its cost, in place of the agreed one or by an override, and the account says both", async () => {
    const { db, logging, taker } = await bench();
    const part = { item: taker.id, ownPart: "Can from the drawer", paidPrice: 150, partState: "new old stock" as const };
    const { paidPrice: _, ...unpriced } = part;
    expect(await logging(unpriced)).toMatchObject(
      not("input refused", { errors: [{ pointer: "/paidPrice", name: "own part without cost" }] }),
    );
    expect(await logging(part)).toMatchObject(not("part unagreed", { overridable: true }));
    answerOf(await logging({ ...part, partCount: 2, insteadOf: true }));
    const { account } = await closedOn(db);
    const told = account.fitted!.filter(({ insteadOf }) => insteadOf);
    expect(told).toMatchObject([{ part: { name: part.ownPart }, state: "new old stock", count: 2 }]);
    const agreed = told[0]!.insteadOf!.name;
    const planned = (await stands(db, TAPE_ECHO))
      .agreed()!
      .input.items.filter(({ part: own }) => own && "kind" in own && own.kind === told[0]!.insteadOf!.kind);
    const pieces = account.fitted!.filter(({ part: { name }, insteadOf }) => name === agreed || insteadOf?.name === agreed);
    expect(pieces.reduce((sum, { count }) => sum + count, 0)).toBe(planned.reduce((sum, { count }) => sum + count, 0));
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("is another price for a known part, with its reason", async () => {
    const { logging, taker } = await bench();
    const part = { item: taker.id, partKind: (taker.part as { kind: string }).kind, paidPrice: 777 };
    expect(await logging(part)).toMatchObject(
      not("input refused", { errors: [{ pointer: "/partReason", name: "price without reason" }] }),
    );
    const kept = answerOf(await logging({ ...part, partReason: "only one left", partSource: "Wrendale Surplus" }));
    expect(kept).toMatchObject({ paidPrice: 777, partReason: "only one left", partSource: "Wrendale Surplus" });
  });

  it("lets another part of the catalogue stand in for the agreed one, by its name, and takes it from the shelf as itself", async () => {
    const { db, logging, taker } = await bench();
    const other = (await stands(db, TAPE_ECHO))
      .agreed()!
      .input.kinds!.find(({ id }) => id !== (taker.part as { kind: string }).kind)!;
    await db.insert(partKindsTable).values({ ...KIND, type: other.type });
    const kept = answerOf(await logging({ item: taker.id, partKind: KIND.id, insteadOf: true }));
    expect(kept).toMatchObject({ ownPart: KIND.name, insteadOf: true });
    expect((await stands(db, TAPE_ECHO)).movements.map(({ kind }) => kind)).toEqual([KIND.id]);
  });

  it("asks before more pieces are used than the work needs", async () => {
    const { logging, taker } = await bench();
    const part = { item: taker.id, partKind: (taker.part as { kind: string }).kind };
    answerOf(await logging({ ...part, partCount: taker.count }));
    expect(await logging(part)).toMatchObject(
      not("input refused", { errors: [{ pointer: "/partCount", name: "more than needed" }] }),
    );
    expect(answerOf(await logging({ ...part, beyond: true }))).not.toHaveProperty("beyond");
  });

  it("stays known when the entry that said it first is withdrawn", async () => {
    const { db, logging } = await bench();
    const first = answerOf(await logging(BATTERY, WHY));
    const [{ id }] = (await stands(db, TAPE_ECHO)).log().own as [WorkItem];
    answerOf(await logging({ item: id, minutes: 3 }, WHY));
    answerOf(await withdraw(db, { job: TAPE_ECHO, when: at(4) }, first.id, { by: "Ines", reason: "twice" }));
    expect((await stands(db, TAPE_ECHO)).log().own).toMatchObject([{ id }]);
    expect((await closedOn(db)).account.notCharged).toBeGreaterThan(0);
  });
});

const KIND = {
  ...{ id: "odd-can", name: "Odd can", version: 1, createdAt: at(0), updatedAt: at(0) },
};

describe("a service", () => {
  const LEAD = { id: "mains-lead", name: "Mains lead, fitted", price: 2450 };

  /** Two services in the book the tape echo's draft is priced by from then on. */
  async function sold() {
    const { db } = await shop();
    const { id } = await draftOf(db, TAPE_ECHO);
    const services = [
      { ...LEAD, work: [{ operation: "replace", part: { type: "electrolytic" }, count: 2 }] },
      { id: "listen", name: "Listening test", price: 1000, work: [{ own: { name: "Listen", minutes: FIVE }, count: 1 }] },
    ].map((each) => ({ ...each, source: { basis: "demo" as const } }));
    const value = { inForceFrom: "2026-11-25", carryOut: true, drafts: [id], services };
    answerOf(await done(changeRateBook, deskAt(db, at(0)), value, { id: "bench-book", seen: "any" }));
    return db;
  }
  const bookOf = async (db: Database) => (await rateBooks.find(db, "bench-book"))!.book;
  const FIVE = { low: 5, likely: 5, high: 5 };

  it("is estimated, issued, agreed to, its work logged, billed at its price, and learned from", async () => {
    const db = await sold();
    const line = await added(db, { reason: "frayed", work: LEAD.name });
    expect(line).toMatchObject({ service: LEAD.id });
    await agreedJob(db);
    const { sheet } = (await stands(db, TAPE_ECHO)).agreed()!;
    expect(sheet.lines.find(({ id }) => id === `labour:${line.id}`)?.amount).toBe(LEAD.price);
    const [behind] = sheet.behind!;
    expect(behind).toMatchObject({ id: `labour:${line.id}/1`, amount: 0 });
    answerOf(await log(db, { job: TAPE_ECHO, when: at(3) }, { item: `${line.id}/1`, minutes: 21 }));
    const part = {
      item: `${line.id}/1`,
      partType: "electrolytic",
      partCount: 2,
      paidPrice: 30,
      paidPer: 1,
      partReason: "a better one",
    };
    answerOf(await log(db, { job: TAPE_ECHO, when: at(4) }, part));
    const { result } = answerOf(
      await close(db, { id: "closed", job: TAPE_ECHO, when: at(600) }, closing({ basis: "time and parts" })),
    );
    expect(result.account.lines.find(({ id }) => id === `labour:${line.id}`)?.amount).toBe(LEAD.price);
    const seen = (await observations(db, await bookOf(db))).filter(({ line: of }) => of === `labour:${line.id}/1`);
    expect(seen.map(({ minutes }) => minutes)).toEqual([21]);
    expect(seen[0]!.rests.map(({ standard }) => standardId(standard))).toContain("operation:replace");
    expect((await verifyShop(db)).mismatch).toBeUndefined();
  });

  it("shares the way to an assembly with another on it", async () => {
    const db = await sold();
    const { input } = await draftOf(db, TAPE_ECHO);
    const rateBook = await bookOf(db);
    const assembly = input.map!.assemblies[0]!.id;
    const of = (...services: string[]) => {
      const items = services.map(
        (service): WorkItem => ({ id: service, assembly, service, count: 1, certainty: { is: "planned" } }),
      );
      const outcome = estimate({ ...input, rateBook, items });
      if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));
      return outcome.sheet.lines.filter(({ sort }) => sort === "access").map(({ id, amount }) => [id, amount]);
    };
    expect(of(LEAD.id)).not.toEqual([]);
    expect(of(LEAD.id, "listen")).toEqual(of(LEAD.id));
  });
});
