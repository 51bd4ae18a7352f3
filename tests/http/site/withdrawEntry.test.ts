/** A wrong entry put right on its page, without script. */
import { describe, expect, it } from "vitest";
import { closeOuts } from "../../../src/records/closeOuts.js";
import { stockOf } from "../../../src/records/stock.js";
import { entriesOf, everyEntryOf } from "../../../src/records/workLog.js";
import { answerOf, close, log as logged } from "../../acts/support/bench.js";
import { closing, worked } from "../../records/support/closed.js";
import { at, TAPE_ECHO } from "../../records/support/livedIn.js";
import { agreedByTime, agreedShop } from "../support/agreedShop.js";
import { visitor, words } from "../support/noScript.js";

const job = `/jobs/${TAPE_ECHO}`;
const why = { by: "Tamsin", reason: "200 typed for 20" };

async function bench(having = agreedShop) {
  const opened = await having();
  const { db } = opened;
  const desk = visitor(opened);
  const log = async (id: string, entry: Parameters<typeof logged>[2], override?: typeof why) =>
    answerOf(await logged(db, { id, job: TAPE_ECHO, when: at(3) }, entry, override));
  const asked = (id: string) => desk.get(`${job}/work-log/${id}/withdrawal`);
  return { db, desk, log, asked };
}

describe("a wrong entry", () => {
  it("is withdrawn only after a name and a reason, and stands struck through", async () => {
    const { db, desk, log, asked } = await bench();
    await log("wrong", { item: "w02", minutes: 200 });
    expect((await desk.get(`${job}/bench`)).html).toContain(`href="${job}/work-log/wrong/withdrawal"`);
    expect((await desk.get(`${job}/work-log`)).html).toContain(`href="${job}/work-log/wrong/withdrawal"`);
    const unsaid = await desk.press(await asked("wrong"), "Withdraw it", { by: "" });
    expect(unsaid.status).toBe(422);
    for (const field of ["by", "reason"]) expect(unsaid.html).toContain(`<a href="#${field}">`);
    expect(await entriesOf(db, TAPE_ECHO)).toHaveLength(1);
    const done = await desk.press(unsaid, "Withdraw it", why);
    expect(done.html).toMatch(/<s>3\sh\s20\smin<\/s>/);
    expect(words(done.html)).toMatch(/Withdrawn: Tamsin, .*: 200 typed for 20/);
    expect(done.html).not.toContain("work-log/wrong/withdrawal");
    expect(await entriesOf(db, TAPE_ECHO)).toEqual([]);
    expect(words((await desk.get(`${job}/trail`)).html)).toContain("An entry of the work log was withdrawn by Tamsin.");
    expect(words((await desk.get(`${job}/bench`)).html)).not.toContain("Logged last");
    expect([(await asked("wrong")).status, (await asked("nothing")).status]).toEqual([409, 404]);
  });

  it("is corrected by the form filled with it, which withdraws it when it is sent, and not before: work, time, part, and what the note says", async () => {
    const { db, desk, log, asked } = await bench(agreedByTime);
    const part = {
      partKind: "drive-belt",
      partCount: 2,
      paidPrice: 250,
      partState: "used" as const,
      partReason: "the last one",
      insteadOf: true as const,
    };
    await log("wrong", { item: "w02", minutes: 20.5, note: "stiff", ...part, beyond: true });
    const form = await desk.press(await asked("wrong"), "Withdraw it and enter it again", why);
    expect(words(form.html)).toContain("Correct it below");
    expect((await entriesOf(db, TAPE_ECHO)).map(({ id }) => id)).toEqual(["wrong"]);
    expect((await desk.press(form, "Log it", { minutes: "", partCount: "none" })).status).toBe(422);
    expect((await entriesOf(db, TAPE_ECHO)).map(({ id }) => id)).toEqual(["wrong"]);
    const done = await desk.press(form, "Log it", { minutes: "2.5", partCount: "1" });
    expect(words(done.html)).toContain("Logged.");
    expect(await entriesOf(db, TAPE_ECHO)).toMatchObject([
      { item: "w02", minutes: 2.5, note: "stiff", person: "Ines", workedOn: "2026-11-25", ...part, partCount: 1 },
    ]);
    await log("opening", { assembly: "case", startedAt: "2026-11-25T08:00:00Z", endedAt: "2026-11-25T08:20:00Z" });
    const again = await desk.press(await asked("opening"), "Withdraw it and enter it again", why);
    await desk.press(again, "Log it", {});
    expect((await entriesOf(db, TAPE_ECHO)).at(-1)).toMatchObject({ assembly: "case", minutes: 20 });
    // The new entry meets the same checks.
    const third = await desk.press(
      await asked((await entriesOf(db, TAPE_ECHO)).at(-1)!.id),
      "Withdraw it and enter it again",
      why,
    );
    expect((await desk.press(third, "Log it", { minutes: "6,000" })).status).toBe(409);
    const none = await desk.press(third, "Log it", { minutes: "" });
    expect(none.html).toContain('<a href="#minutes">');
  });

  it("of a part that no revision names takes that very part from the shelf again", async () => {
    const { db, desk, log, asked } = await bench();
    await db.run(
      `INSERT INTO part_kinds (id, version, created_at, updated_at, type, name, stock) VALUES ('odd-belt', 1, 'x', 'x', 'belt', 'Odd belt (short)', 5)`,
    );
    await log("wrong", { item: "w02", partKind: "odd-belt", partCount: 3, beyond: true, note: "from the drawer" }, why);
    const form = await desk.press(await asked("wrong"), "Withdraw it and enter it again", why);
    expect((await stockOf(db, ["odd-belt"])).get("odd-belt")).toBe(2);
    const refused = await desk.press(form, "Log it", { partCount: "1" });
    expect(refused.status).toBe(409);
    await desk.press(refused, "Log it by override", { "override.by": why.by, "override.reason": why.reason });
    expect((await stockOf(db, ["odd-belt"])).get("odd-belt")).toBe(4);
    expect((await entriesOf(db, TAPE_ECHO))[0]).toMatchObject({ partCount: 1, note: "Odd belt (short): from the drawer" });
  });

  it("on a closed job marks the job until its close-out is corrected", async () => {
    const { db, desk, log, asked } = await bench();
    await log("wrong", { item: "w01", minutes: 60 });
    await worked(db, TAPE_ECHO);
    answerOf(await close(db, { job: TAPE_ECHO, when: at(600) }, closing()));
    const CHANGED = "The log changed after closing: correct the close-out.";
    expect(words((await desk.get(job)).html)).not.toContain(CHANGED);
    const form = await desk.press(await asked("wrong"), "Withdraw it and enter it again", why);
    const refused = await desk.press(form, "Log it", { minutes: "6" });
    expect(refused.status).toBe(409);
    expect(words(refused.html)).toContain("Job closed");
    await desk.press(refused, "Log it by override", { "override.by": "Tamsin", "override.reason": "200 typed for 20" });
    expect(await everyEntryOf(db, TAPE_ECHO)).toContainEqual(
      expect.objectContaining({ minutes: 6, overrideId: expect.any(String) }),
    );
    for (const page of ["", "/close-out", "/work-log"]) expect(words((await desk.get(job + page)).html), page).toContain(CHANGED);
    const before = (await closeOuts.standing(db, TAPE_ECHO))!;
    const fixed = await desk.press(await desk.get(`${job}/close-out?correct`), "Correct the close-out", {
      reason: "the log was wrong",
    });
    expect(fixed.status, words(fixed.html)).toBe(200);
    const after = (await closeOuts.standing(db, TAPE_ECHO))!;
    const minutes = (record: typeof after) => record.result.closeOut!.attended.actual;
    expect(minutes(before) - minutes(after)).toBe(54);
    for (const page of ["", "/close-out", "/work-log"])
      expect(words((await desk.get(job + page)).html), page).not.toContain(CHANGED);
  });

  it("withdrawn and not entered anew marks a closed job by itself, on every page of it", async () => {
    const { db, desk, log, asked } = await bench();
    await log("wrong", { item: "w01", minutes: 60 });
    await worked(db, TAPE_ECHO);
    answerOf(await close(db, { job: TAPE_ECHO, when: at(600) }, closing()));
    const pages = ["", "/close-out", "/work-log"].map((page) => job + page);
    const CHANGED = "The log changed after closing: correct the close-out.";
    for (const page of pages) expect(words((await desk.get(page)).html), page).not.toContain(CHANGED);
    const done = await desk.press(await asked("wrong"), "Withdraw it", why);
    expect(done.status, words(done.html)).toBe(200);
    for (const page of pages) expect(words((await desk.get(page)).html), page).toContain(CHANGED);
    const correct = await desk.get(`${job}/close-out?correct`);
    await desk.press(correct, "Correct the close-out", { reason: "an hour was of another job" });
    for (const page of pages) expect(words((await desk.get(page)).html), page).not.toContain(CHANGED);
  });
});
