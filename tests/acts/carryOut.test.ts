import { expect, it } from "vitest";
import { logWork } from "../../src/acts/logWork.js";
import { agreedShop } from "../http/support/agreedShop.js";
import { at, TAPE_ECHO } from "../records/support/livedIn.js";
import { deskAt, done } from "./support/desk.js";

function counting() {
  let times = 0;
  const counted: typeof logWork = {
    ...logWork,
    decide: (...asked) => {
      times += 1;
      return logWork.decide(...asked);
    },
  };
  return { counted, decided: () => times };
}

// One after another after the first time: else 20 + 19 + 18 ... times.
it("twenty that meet on one job are each decided about twice, and all stand", async () => {
  const { db } = await agreedShop();
  const { counted, decided } = counting();
  const value = { person: "Ines", workedOn: "2026-11-25", minutes: 0.001 };
  const answers = await Promise.all(
    Array.from({ length: 20 }, (_, n) => done(counted, deskAt(db, at(3), `entry-${n}`), value, { job: TAPE_ECHO })),
  );
  expect(answers.filter(({ ok }) => ok)).toHaveLength(20);
  expect(decided()).toBeLessThan(45);
});

// Fifty seconds of a hundred tries, once: a page hung for them, and then failed.
it("what the database refuses otherwise than for a key that was taken is given up after a few tries", async () => {
  const { db } = await agreedShop();
  await db.run("CREATE TRIGGER planted BEFORE INSERT ON work_log BEGIN SELECT RAISE(ABORT, 'planted'); END");
  const { counted, decided } = counting();
  const value = { person: "Ines", workedOn: "2026-11-25", minutes: 0.001 };
  await expect(done(counted, deskAt(db, at(3), "entry"), value, { job: TAPE_ECHO })).rejects.toThrow();
  expect(decided()).toBeLessThanOrEqual(12);
});
