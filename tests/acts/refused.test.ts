/** What whoever is refused reads. The demo shop (invented). */
import { expect, it } from "vitest";
import { beginUnpaid } from "../../src/acts/beginUnpaid.js";
import { showPhotos } from "../../src/acts/photos.js";
import { shop } from "../http/support/shop.js";
import { answer } from "../records/support/answer.js";
import { agreedJob, closed, HAND } from "../records/support/closed.js";
import { at, draftOf, given, issued, TAPE_ECHO } from "../records/support/livedIn.js";
import { stands } from "./support/bench.js";
import { deskAt, done } from "./support/desk.js";

it("an answer cannot be corrected once the account is final, and says since when it is", async () => {
  const { db } = await shop();
  await closed(db);
  const job = await stands(db, TAPE_ECHO);
  const changed = { corrects: job.agreed()!.agreement.id, reason: "misread", answer: "declined" } as const;
  const refused = await answer(db, "later", await given(db, job.current!.id, changed), at(9999));
  expect(refused).toMatchObject({
    is: "job closed",
    detail: expect.stringMatching(/^The job was closed on .* 2026, and its account is final\.$/),
  });
});

it("work is let begin before a deposit only where one is awaited, and once", async () => {
  const { db } = await shop();
  const begin = (reason: string) => done(beginUnpaid, deskAt(db, at(4)), { by: HAND, reason }, { job: TAPE_ECHO });
  const detail = "No deposit is awaited on this job.";
  expect(await begin("an old friend")).toMatchObject({ ok: false, refusal: { is: "nothing awaited", detail } });
  await agreedJob(db);
  expect(await begin("an old friend")).toMatchObject({ ok: true, answer: { reason: "an old friend" } });
  const before = `${HAND} let it begin already: an old friend`;
  expect(await begin("so they say")).toMatchObject({ ok: false, refusal: { is: "nothing awaited", detail: before } });
});

it("photos are not ticked on a draft that was issued meanwhile", async () => {
  const { db } = await shop();
  await issued(db, (await draftOf(db, TAPE_ECHO)).id);
  const on = { job: TAPE_ECHO, unfit: async () => [] };
  expect(await done(showPhotos, deskAt(db, at(4)), { onPaper: [] }, on)).toMatchObject({
    ok: false,
    refusal: {
      is: "estimate issued",
      detail: "There is no open draft any more, so nothing was kept. Begin the next revision first.",
    },
  });
});
