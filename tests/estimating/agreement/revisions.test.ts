/**
 * Worked revisions: `before` is laid over fixtures/cases/base.json; `after` over that, or `extra` is found with `open` standing open.
 * Money in minor units.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { difference } from "../../../src/estimating/agreement/difference.js";
import { type ExtraCost, extraFault } from "../../../src/estimating/agreement/extraFault.js";
import type { EstimateInput, WorkItem } from "../../../src/estimating/input.js";
import { applied } from "./applied.js";
import { changeList, sheetOf } from "./demo.js";

interface Revision {
  readonly name: string;
  readonly date: string;
  readonly source: string;
  readonly working: readonly string[];
  readonly before: object;
  readonly after?: object;
  readonly open?: readonly string[];
  readonly extra?: readonly WorkItem[];
  readonly expected: {
    readonly totals: readonly [before: number, after: number];
    readonly causes: Readonly<Record<string, number>>;
    readonly marks: Readonly<Record<string, string>>;
    readonly amounts: Readonly<Record<string, number>>;
    readonly now?: ExtraCost;
    readonly later?: ExtraCost;
  };
}

const FIXTURES = new URL("../../../fixtures/", import.meta.url);
const read = <T>(file: string): T => JSON.parse(readFileSync(new URL(file, FIXTURES), "utf8")) as T;
const base = read<EstimateInput>("cases/base.json");
const cases = readdirSync(new URL("revisions/", FIXTURES)).map((file) => read<Revision>(`revisions/${file}`));

/** Objects are laid over objects key by key; anything else takes the place of what was there. */
function over(below: unknown, above: unknown): unknown {
  const plain = (value: unknown): value is Record<string, unknown> =>
    typeof value === "object" && value !== null && !Array.isArray(value);
  if (!plain(below) || !plain(above)) return above;
  return { ...below, ...Object.fromEntries(Object.entries(above).map(([key, value]) => [key, over(below[key], value)])) };
}

it("finds the worked revisions", () => expect(cases.length).toBeGreaterThanOrEqual(3));

describe.each(cases)("$name", ({ before, after, extra, open, expected, working, source, date }) => {
  const earlier = over(base, before) as EstimateInput;
  const found = extra ? extraFault(earlier, { items: extra }, open) : undefined;
  if (found && !found.ok) throw new Error(JSON.stringify(found.problems));
  const later = found?.revised ?? (over(earlier, after) as EstimateInput);
  const list = changeList(earlier, later)!;

  it("has the totals worked out", () => {
    expect([sheetOf(earlier).totals.total, sheetOf(later).totals.total]).toEqual(expected.totals);
  });

  it("has the money by cause worked out", () => {
    expect(Object.fromEntries(list.causes.map(({ cause, amount }) => [cause, amount]))).toEqual(expected.causes);
  });

  it("marks the rows that changed, each with its money", () => {
    expect(Object.fromEntries(list.rows.map(({ id, mark }) => [id, mark]))).toEqual(expected.marks);
    expect(Object.fromEntries(list.rows.map(({ id, amount }) => [id, amount]))).toEqual(expected.amounts);
  });

  it("costs now and later what was worked out", () => {
    expect(found && { now: found.now, later: found.later }).toEqual(expected.now && { now: expected.now, later: expected.later });
  });

  it("is the earlier revision with the difference applied", () => {
    expect(applied(earlier, difference(earlier, later))).toEqual(later);
  });

  it("says its date, its source and its working", () => {
    expect(date).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(source.length).toBeGreaterThan(10);
    expect(working.length).toBeGreaterThanOrEqual(3);
  });
});
