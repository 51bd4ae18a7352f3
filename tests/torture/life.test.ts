/** The short version of `npm run torture -- life`: some lives, those that once found something, and controls that must be found out. */
import { readdir, readFile } from "node:fs/promises";
import { expect, it } from "vitest";
import type { JobAsItStands } from "../../src/acts/job.js";
import { counting, lived, type Planted } from "./life/life.js";

const LIVES = { from: 1, seeds: 4 };

it("shops that live on by seeds keep what they were told, charge what they promised, and print what is on record", async () => {
  const into = counting();
  for (let seed = LIVES.from; seed < LIVES.from + LIVES.seeds; seed += 1) await lived(seed, into);
  expect(into.faults).toEqual([]);
  expect(into.acts).toBeGreaterThan(80);
  expect(into.each.get("issued")?.done).toBeGreaterThan(2);
  expect([...into.each.values()].some(({ refused }) => refused > 0)).toBe(true);
});

it("lives that once found something find it no more", async () => {
  const into = counting();
  const names = await readdir("fixtures/life");
  for (const name of names) {
    const { seed } = JSON.parse(await readFile(`fixtures/life/${name}`, "utf8")) as { seed: number };
    await lived(seed, into);
  }
  expect(into.faults).toEqual([]);
  expect(into.seeds).toBeGreaterThan(0);
});

/** As if it stood so on record. */
const standing = (changed: (job: JobAsItStands) => Partial<JobAsItStands>): Planted => ({
  job: (job) => ({ ...job, ...changed(job) }),
});

const CONTROLS: Readonly<Record<string, readonly [Planted, RegExp]>> = {
  "words kept that differ by a letter from those shown": [
    standing(({ answers }) => ({ answers: answers.map((each) => ({ ...each, wording: `${each.wording.slice(0, -1)}!` })) })),
    /^answers: on record|^words shown/,
  ],
  "a payment that is not on record": [
    standing(({ payments }) => ({ payments: payments.slice(1) })),
    /^payments: on record|was paid/,
  ],
  "an account of a cent more": [
    standing(({ closeOut }) => {
      if (!closeOut) return {};
      const { account } = closeOut.result;
      const totals = { ...account.totals, total: account.totals.total + 1 };
      return { closeOut: { ...closeOut, result: { ...closeOut.result, account: { ...account, totals } } } };
    }),
    /total sums to|less .* is said to be/,
  ],
  "an entry of the work log that is there twice": [
    standing(({ everyEntry }) => ({ everyEntry: [...everyEntry, ...everyEntry] })),
    /^work log: on record/,
  ],
  "a sheet of an issued revision that changed": [
    standing(({ revision }) => ({
      revision: (id) => {
        const found = revision(id);
        return found?.sheet && { ...found, sheet: { ...found.sheet, lines: found.sheet.lines.slice(1) } };
      },
    })),
    /^issued revisions: on record/,
  ],
  "a shop that forgets what it was sent before": [
    {
      request: ({ headers, ...init }) => {
        const { "idempotency-key": _, ...rest } = headers as Record<string, string>;
        return { ...init, headers: rest };
      },
    },
    /not the first answer|done twice/,
  ],
  "a page with other figures": [
    { page: (path, text) => (path.startsWith("/jobs") ? text.replaceAll(/\d/g, "1") : text) },
    /does not say/,
  ],
};

it.each(Object.entries(CONTROLS))("would find out %s", async (_, [planted, says]) => {
  const into = counting();
  for (let seed = 1; seed < 60 && !into.faults.some(({ what }) => says.test(what)); seed += 1) {
    into.faults.length = 0;
    await lived(seed, into, 25, planted);
  }
  expect(into.faults.map(({ what }) => what).join("\n")).toMatch(new RegExp(says.source, "m"));
});
