/** Nothing of the right shape makes the engine throw, and nothing wrong passes as a figure that is none. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/estimating/check/check.js";
import { tokensOf } from "../../../src/estimating/check/spot.js";
import { estimate } from "../../../src/estimating/estimate.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { problemText } from "../../../src/wording/problem.js";
import { runs } from "../../setup/runs.js";
import { AMPLIFIER, ECHO, ORGAN } from "../agreement/demo.js";
import { anyInput } from "../cast/anyInput.js";

const oddNumber = fc.constantFrom(
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  -1,
  -0,
  0.1,
  1e-9,
  1e300,
  Number.MAX_SAFE_INTEGER,
  10_000,
  100_000,
  1_000_000_000_000,
);
const oddText = fc.constantFrom(
  "",
  "__proto__",
  "constructor",
  "toString",
  "a0",
  "item-0",
  "capacitor",
  "\u0000",
  "🎹",
  "x".repeat(5000),
);

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** Where something can be changed for the worse: a number, a text that is not one of a closed set, a list. */
function places(value: Json, path: string[] = []): string[][] {
  const here =
    typeof value === "number" ||
    (typeof value === "string" && ![path.at(-1), path.at(-2)].some((key) => CLOSED.has(key ?? ""))) ||
    Array.isArray(value);
  const inner =
    typeof value === "object" && value !== null
      ? Object.entries(value).flatMap(([key, each]) => places(each, [...path, key]))
      : [];
  return here && path.length > 0 ? [path, ...inner] : inner;
}

const CLOSED = new Set([
  "is",
  "by",
  "sort",
  "size",
  "mounting",
  "state",
  "scarcity",
  "packs",
  "level",
  "mode",
  "family",
  "basis",
  "schema",
  "dielectric",
  "scarcityByType",
]);

function put(input: Json, path: readonly string[], text: string, number: number, list: (value: Json[]) => Json[]): Json {
  const copy = structuredClone(input);
  let holder = copy as { [key: string]: Json };
  for (const key of path.slice(0, -1)) holder = holder[key] as { [key: string]: Json };
  const key = path.at(-1)!;
  const before = holder[key]!;
  holder[key] = typeof before === "number" ? number : typeof before === "string" ? text : list(before as Json[]);
  return copy;
}

const spoilt = fc
  .tuple(
    anyInput,
    fc.array(
      fc.record({
        at: fc.nat(),
        text: oddText,
        number: oddNumber,
        list: fc.constantFrom<(value: Json[]) => Json[]>(
          () => [],
          (value) => [...value, ...value],
          (value) => value.slice(1),
        ),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  )
  .map(([input, changes]) =>
    changes.reduce<Json>(
      (value, { at, text, number, list }) => {
        const all = places(value);
        return all.length === 0 ? value : put(value, all[at % all.length]!, text, number, list);
      },
      input as unknown as Json,
    ),
  )
  .map((value) => value as unknown as EstimateInput);

function numbersOf(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersOf) : [];
}

describe("an input with something wrong in it", () => {
  it("never makes the engine throw: it comes back with names, or with finite figures", () => {
    let refused = 0;
    fc.assert(
      fc.property(spoilt, (input) => {
        const outcome = estimate(input);
        if (!outcome.ok) refused += 1;
        const sheet = outcome.ok ? outcome.sheet : outcome.partial;
        if (sheet) {
          expect(numbersOf(sheet).every(Number.isFinite)).toBe(true);
          expect([sheet.totals.total, ...sheet.lines.map(({ amount }) => amount)].every(Number.isSafeInteger)).toBe(true);
        }
        if (!outcome.ok) expect(outcome.problems.length).toBeGreaterThan(0);
      }),
      runs(500),
    );
    expect(refused).toBeGreaterThan(runs(170).numRuns);
  });

  it("is pointed at: each pointer leads to something in the input, or to a key that is missing in it", () => {
    fc.assert(
      fc.property(spoilt, (input) => {
        const outcome = estimate(input);
        if (outcome.ok) return;
        for (const { pointer } of outcome.problems) {
          const tokens = tokensOf(pointer);
          let value: unknown = input;
          for (const token of tokens.slice(0, -1)) value = (value as Record<string, unknown>)[token];
          if (tokens.length > 0) expect(value, pointer).toBeTypeOf("object");
        }
      }),
      runs(200),
    );
  });

  it("may use such a name for what it has itself: a part type, an operation, an assembly, a kind, a group", () => {
    for (const id of ["__proto__", "constructor", "toString"]) {
      const renamed = (ids: readonly string[]) =>
        fc.assert(
          fc.property(anyInput, (input) => {
            const text = ids.reduce(
              (json, from) => json.replaceAll(JSON.stringify(from), JSON.stringify(id)),
              JSON.stringify(input),
            );
            const [before, after] = [estimate(input), estimate(JSON.parse(text) as EstimateInput)];
            if (!before.ok || !after.ok) throw new Error(JSON.stringify([before, after]));
            expect(after.sheet.totals.due).toBe(before.sheet.totals.due);
          }),
          runs(6),
        );
      for (const ids of [["capacitor"], ["clean"], ["a0"], ["usual"], ["both"], ["b"], ["bench"], ["worn"]]) renamed(ids);
    }
  });

  it("is refused by its name when an id is one that every object has", () => {
    for (const id of ["__proto__", "constructor", "toString"]) {
      fc.assert(
        fc.property(anyInput, (input) => {
          const outcome = estimate({ ...input, unit: { ...input.unit, grade: id } });
          expect(outcome.ok ? [] : outcome.problems.map(({ name }) => name)).toContain("grade unknown");
        }),
        runs(5),
      );
    }
  });
});

/** Each figure of the demo estimates (invented), once for all entries of a list. */
function figuresOf(input: object): { readonly path: string; readonly put: (value: number) => () => void }[] {
  const found = new Map<string, { readonly path: string; readonly put: (value: number) => () => void }>();
  const walk = (at: Record<string, unknown>, path: string) => {
    for (const [key, value] of Object.entries(at)) {
      const here = `${path}/${key}`;
      const put = (other: number) => {
        at[key] = other;
        return () => {
          at[key] = value;
        };
      };
      if (typeof value === "number") found.set(here.replace(/\/\d+/g, "/n"), { path: here, put });
      else if (value && typeof value === "object") walk(value as Record<string, unknown>, here);
    }
  };
  walk(input as Record<string, unknown>, "");
  return [...found.values()];
}

it("a figure below nothing is named at that very figure, and what it is of", () => {
  let refused = 0;
  for (const demo of [ORGAN, AMPLIFIER, ECHO]) {
    const input = structuredClone(demo);
    for (const { path, put } of figuresOf(input)) {
      const back = put(-0.5);
      const problems = check(input);
      back();
      refused += problems.length > 0 ? 1 : 0;
      for (const problem of problems) {
        expect(problem.pointer).toBe(problem.name === "mark-up bands out of order" ? "/rateBook/parts/markUp" : path);
        expect(problemText(problem)).toMatch(/^\p{Lu}/u);
      }
    }
  }
  expect(refused).toBeGreaterThan(300);
});
