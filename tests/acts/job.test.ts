/** A job of the demo shop (invented), lived in: two revisions, answers, a correction, work within and beyond what was agreed, closed. */
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { jobAsItStands } from "../../src/acts/job.js";
import { agreedLimit } from "../../src/estimating/agreement/limit.js";
import * as engine from "../../src/estimating/estimate.js";
import { agreedFile } from "../http/support/agreedShop.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { at, draftOf, given, issued, livedIn, recordOf, TAPE_ECHO } from "../records/support/livedIn.js";
import { answerOf, withdraw } from "./support/bench.js";
import { hostedShop } from "./support/roundTrips.js";

describe("the job as it stands", () => {
  it("is read whole in one round trip", async () => {
    const { db, costOf } = await hostedShop((await agreedFile()).path);
    const { cost, answer } = await costOf(() => jobAsItStands(db, TAPE_ECHO));
    expect(cost).toEqual({ trips: 1, pricings: 0 });
    expect(answer?.agreed()?.agreement.answer).toBe("agreed");
  });

  it("is nothing where there is no such job", async () => {
    const { db } = await shop();
    expect(await jobAsItStands(db, "nowhere")).toBeUndefined();
  });

  it("holds each record of the job, as they were written, and says what stands of them", async () => {
    const { db } = await shop();
    await livedIn(db);
    const job = (await jobAsItStands(db, TAPE_ECHO))!;
    expect(job.revisions.map(({ revision }) => revision)).toEqual([1, 2]);
    expect(job.draft).toBeUndefined();
    expect(job.current?.id).toBe("draft-2");
    expect(job.answers.map(({ id }) => id)).toEqual(["answer-1", "answer-2", "answer-3"]);
    expect(job.answerTo("draft-2")?.id).toBe("answer-3");
    expect(job.agreed()?.agreement.id).toBe("answer-3");
    expect(job.agreed(2)?.agreement.id).toBe("answer-1");
    expect(job.questions).toMatchObject([{ id: "question-1", replies: [{ id: "reply-1" }] }]);
    expect(job.links.map(({ withdrawal }) => withdrawal?.id)).toEqual([undefined, undefined, "withdrawal-1"]);
    expect(JSON.stringify(job.links)).not.toMatch(/secretHash|codeHash/);
    expect(job.entries.map(({ id }) => id)).toEqual(["log-1", "log-2"]);
    expect(job.everyEntry.map(({ withdrawal }) => withdrawal?.id)).toEqual([undefined, "taken-back-1", undefined]);
    expect(job.log().time.map(({ override }) => override?.by)).toEqual([undefined, "Wilhelmina Stråhle"]);
    expect(job.done).toEqual({ w01: 1 });
    expect(job.readings.map(({ id }) => id)).toEqual(["reading-1"]);
    expect(job.photos).toEqual([]);
    expect(job.movements.map(({ why }) => why)).toEqual(["used on job", "put back"]);
    expect(job).toMatchObject({ closedOn: "2026-11-25", changedAfterClosing: false, job: { number: "J-2026-0002" } });
    expect(job.closeOut).not.toHaveProperty("pdf");
    const made = { id: "later", job: TAPE_ECHO, when: at(20) };
    answerOf(await withdraw(db, made, "log-1", { by: "W", reason: "wrong unit" }));
    expect((await jobAsItStands(db, TAPE_ECHO))!.changedAfterClosing).toBe(true);
  });

  it("holds work to the sheet as it was issued, and prices anew only what proved necessary: what the owner left out was priced with the answer", async () => {
    const { db } = await shop();
    const { record } = await issued(db, (await draftOf(db, TAPE_ECHO)).id);
    const options = record.sheet!.options.flatMap(({ id, chosen }) => (chosen ? [id] : []));
    recordOf(await answer(db, "whole", await given(db, record.id, { chosen: options }), at(2)));
    const priced = vi.spyOn(engine, "estimate");
    onTestFinished(() => priced.mockRestore());
    const whole = (await jobAsItStands(db, TAPE_ECHO))!;
    const limit = whole.limit();
    expect(whole.agreed()?.sheet).toBe(whole.latest?.sheet);
    expect(whole.unagreed()).toEqual([]);
    expect(priced).not.toHaveBeenCalled();
    expect(limit).toEqual(agreedLimit(whole.agreed()!.input));

    priced.mockClear();
    expect(whole.limit({ item: "w17" })).toBe(whole.limit({ item: "w17" }));
    expect(priced).toHaveBeenCalledTimes(1);
    expect(whole.limit({ item: "w17" })).toEqual(agreedLimit(whole.agreed()!.input, ["w17"]));

    const less = {
      chosen: [],
      corrects: "whole",
      reason: "no options after all",
      channel: "in person",
      writing: "a note",
    } as const;
    recordOf(await answer(db, "less", await given(db, record.id, less), at(3)));
    const left = (await jobAsItStands(db, TAPE_ECHO))!;
    priced.mockClear();
    expect(left.unagreed().map(({ why }) => why)).toContain("option not chosen");
    expect([left.agreed()?.sheet.totals, left.spent(), left.limit()].every(Boolean)).toBe(true);
    // The answer priced its set, and that is kept.
    expect(priced).not.toHaveBeenCalled();
  });
});
