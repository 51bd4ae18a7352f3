/** Worked cases: what is given is laid over fixtures/cases/base.json, and only what is expected is looked at. Money in minor units. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { estimate } from "../src/estimating/estimate.js";
import type { EstimateInput, ThreePoint } from "../src/estimating/input.js";
import type { Sheet } from "../src/estimating/sheet.js";

interface WorkedCase {
  readonly name: string;
  readonly date: string;
  readonly source: string;
  readonly working: readonly string[];
  readonly given: Readonly<Record<string, unknown>>;
  readonly expected: Expected;
}

interface Expected {
  /** Every line there is, by id. */
  readonly lines: Readonly<Record<string, number>>;
  /** Every allowance and charge there is, by id. */
  readonly adjustments?: Readonly<Record<string, number>>;
  readonly tax: number;
  readonly total: number;
  readonly due?: number;
  readonly removal?: readonly string[];
  readonly accessMinutes?: ThreePoint;
  readonly options?: readonly number[];
  readonly ceiling?: number;
  readonly ifDeclined?: number;
}

const LOOK: { readonly [K in keyof Required<Expected>]: (sheet: Sheet) => unknown } = {
  lines: ({ lines }) => Object.fromEntries(lines.map(({ id, amount }) => [id, amount])),
  adjustments: ({ adjustments }) => Object.fromEntries(adjustments.map(({ id, amount }) => [id, amount])),
  tax: ({ totals }) => totals.tax,
  total: ({ totals }) => totals.total,
  due: ({ totals }) => totals.due,
  removal: ({ access }) => access.removal.map(({ id }) => id),
  accessMinutes: ({ access }) => access.minutes,
  options: ({ options }) => options.map(({ price }) => price),
  ceiling: ({ ceiling }) => ceiling.amount,
  ifDeclined: ({ ifDeclined }) => ifDeclined.amount,
};

const FOLDER = new URL("../fixtures/cases/", import.meta.url);
const read = <T>(file: string): T => JSON.parse(readFileSync(new URL(file, FOLDER), "utf8")) as T;
const base = read<EstimateInput>("base.json");
const cases = readdirSync(FOLDER)
  .filter((file) => file !== "base.json")
  .map((file) => read<WorkedCase>(file));

/** Objects are laid over objects key by key; anything else takes the place of what was there. */
function over(below: unknown, above: unknown): unknown {
  const plain = (value: unknown): value is Record<string, unknown> =>
    typeof value === "object" && value !== null && !Array.isArray(value);
  if (!plain(below) || !plain(above)) return above;
  return { ...below, ...Object.fromEntries(Object.entries(above).map(([key, value]) => [key, over(below[key], value)])) };
}

it("finds the worked cases", () => expect(cases.length).toBeGreaterThanOrEqual(12));

describe.each(cases)("$name", ({ given, expected, source, working, date }) => {
  const outcome = estimate(over(base, given) as EstimateInput);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.problems));

  it.each(Object.keys(expected) as (keyof Expected)[])("%s", (key) => expect(LOOK[key](outcome.sheet)).toEqual(expected[key]));

  it("has no other allowance or charge", () => expect(LOOK.adjustments(outcome.sheet)).toEqual(expected.adjustments ?? {}));

  it("says its date, its source and its working", () => {
    expect(date).toMatch(/^\d{4}-\d\d-\d\d$/);
    expect(source.length).toBeGreaterThan(10);
    expect(working.length).toBeGreaterThanOrEqual(3);
  });
});
