/** What is on no list, through a job's life on the demo shop's tape echo (invented): found, priced, issued, agreed to, logged, closed. */
import { describe, expect, it } from "vitest";
import { addExtraFault } from "../../src/acts/extraFault.js";
import { readForm, typedFrom } from "../../src/acts/readForm.js";
import type { WorkItem } from "../../src/estimating/input.js";
import type { Database } from "../../src/records/database.js";
import { verifyShop } from "../../src/tools/verify/verifyShop.js";
import { workTitle } from "../../src/wording/line.js";
import { shop } from "../http/support/shop.js";
import { agreedJob, closing, logged } from "../records/support/closed.js";
import { at, draftOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, close, log, not, stands } from "./support/bench.js";
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

  it("is refused at the field that is wrong", async () => {
    const { db } = await shop();
    const wrong = async (fields: Record<string, string>, pointer: string, name: string) =>
      expect(await typed(db, { reason: "odd", ...fields })).toMatchObject(not("input refused", { errors: [{ pointer, name }] }));
    await wrong({ own: "Listen to it" }, "/minutes", "time or price missing");
    await wrong({ own: "Listen to it", work: "Clean a board", minutes: "5" }, "/work", "work said twice");
    await wrong({ ownPart: "Voice chip", part: "IC, 16 pins" }, "/partCost", "own part without cost");
    await wrong({ ownPart: "Voice chip", partCost: "95" }, "/part", "own part without time");
    await wrong({ part: "Jack", partCost: "4" }, "/partReason", "price without reason");
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
