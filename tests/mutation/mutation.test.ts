/** The short version of `npm run mutate`, with the control: a mutant that a test notices, and lives once the test is emptied. */
import { describe, expect, it } from "vitest";
import { KNOWN, type Known, names, type Placed, placedIn } from "./known.js";
import { type Mutant, mutantsOf, switched } from "./mutants.js";
import { reported } from "./report.js";
import { Switch, seen, type Told, trialsOf, tryAll } from "./trial.js";

const SOURCE = `
/** Invented. */
const fee = (minutes, free) => {
  let billed = 0;
  for (let at = 0; at < minutes; at += 15) {
    billed += at >= (free?.minutes ?? 0) ? 1 : 0;
  }
  return billed;
};`;
type Fee = (minutes: number, free?: { minutes: number }) => number;

const changes = (text: string): string[] => mutantsOf(text, "some.ts").mutants.map(({ was, becomes }) => `${was} -> ${becomes}`);

/** What comes of each mutant under one test. */
async function came(test: (fee: Fee) => unknown): Promise<Map<string, string>> {
  const { mutants, loops } = mutantsOf(SOURCE, "fee.ts");
  const numbered = new Map(mutants.map((mutant, nth) => [nth + 1, mutant] as const));
  const on = new Switch();
  const fee = new Function("globalThis", `${switched(SOURCE, numbered, loops)}; return fee;`)({ $trial: on }) as Fee;
  const told: Told[] = [];
  const run = async () => void (await test(fee));
  const { reached } = await seen("a test", run, on);
  await tryAll("a test", run, on, reached, (each) => told.push(each));
  const said = ({ was, becomes }: Mutant) => `${was} -> ${becomes}`;
  return new Map(told.flatMap((each) => ("came" in each ? [[said(numbered.get(each.id)!), each.came]] : [])));
}

describe("a mutant", () => {
  it("is killed by a test that looks, and lives when the test is emptied", async () => {
    const looked = await came((fee) => {
      expect([fee(0), fee(15), fee(30), fee(31)]).toEqual([0, 1, 2, 3]);
      expect(fee(60, { minutes: 30 })).toBe(2);
    });
    expect(looked.get("at < minutes -> at <= minutes")).toBe("killed");
    expect(looked.get("at >= (free?.minutes ?? 0) -> at > (free?.minutes ?? 0)")).toBe("killed");
    expect(looked.get("free?.minutes -> free.minutes")).toBe("killed");
    const emptied = await came((fee) => void fee(60, { minutes: 30 }));
    expect(emptied.get("at < minutes -> at <= minutes")).toBe("survived");
    expect(emptied.size).toBe(looked.size);
  });

  it("that never ends is ended", async () => {
    expect((await came((fee) => expect(fee(15)).toBe(1))).get("at += 15 -> at -= 15")).toBe("endless");
  });

  it("is told nothing about by a test that fails the second time, or after it", async () => {
    let times = 0;
    const once = () => {
      times += 1;
      if (times > 2) throw new Error("was here before");
    };
    expect(await came((fee) => [fee(15), once()])).toEqual(new Map());
    let spoilt = false;
    const after = (fee: Fee) => {
      if (fee(15) !== 1) spoilt = true;
      if (spoilt) throw new Error("spoilt");
    };
    expect(await came(after)).toEqual(new Map());
  });

  it("is tried first by tests that reach little else, and not for long", () => {
    const [broad, near, slow] = [
      { test: "broad", took: 30, reached: [1, 2, 3] },
      { test: "near", took: 20, reached: [1] },
      { test: "slow", took: 90, reached: [3] },
    ];
    expect(trialsOf([broad, near, slow], { test: 50, mutant: 20 })).toEqual({ near: [1], broad: [2, 3] });
  });

  it("that lives is in the report, unless it is explained or does not build, and one no test reaches counts like it", async () => {
    const placed = (id: number): [number, Placed] => {
      const mutant = mutantsOf("a < b", "a.ts").mutants[id]!;
      return [id, { ...mutant, file: "src/estimating/money/a.ts", nth: id, line: 1, is: "a < b" }];
    };
    const drawn = new Map([0, 1, 2, 3].map(placed));
    const told: Told[] = [0, 1, 2].map((id) => ({ id, came: id === 0 ? "killed" : "survived", by: "a test" }));
    const none = async () => new Set<number>();
    const whole = (await reported(drawn, told, [], none)).join("\n");
    expect(whole).toContain("25.0 % (4.6 to 69.9)");
    expect(whole).toMatch(/survived: src\/estimating\/money\/a\.ts:1 {2}a < b {2}-> {2}a >= b/);
    expect(whole).toMatch(/not reached: .* false/);
    const known: Known = { file: "src/estimating/money/a.ts", is: "a < b", was: "a < b", becomes: "a >= b", why: "invented" };
    const less = (await reported(drawn, told, [known], async () => new Set([2]))).join("\n");
    expect(less).toContain("50.0 %");
    expect(less).not.toMatch(/survived: /);
  });
});

it("each mutant that is explained is one there still is", () => {
  for (const one of KNOWN)
    expect(
      placedIn(one.file).filter((mutant) => names(one, mutant)),
      one.is,
    ).not.toEqual([]);
});

describe("mutants", () => {
  it("are made of conditions, sums, texts, lists, blocks and calls", () => {
    expect(changes("if (a && !b) { c += 1 }")).toEqual([
      "a && !b -> true",
      "a && !b -> false",
      "a && !b -> (a) || (!b)",
      "!b -> b",
      "{ c += 1 } -> {}",
      "c += 1 -> c -= 1",
    ]);
    expect(changes('f([1].filter(g), { k: "x" }, (n) => n * -2)')).toEqual([
      "[1].filter(g) -> [1]",
      "[1] -> []",
      '{ k: "x" } -> {}',
      '"x" -> ""',
      "n * -2 -> undefined",
      "n * -2 -> n / -2",
      "-2 -> 2",
    ]);
  });

  it("leave types, names and what is imported alone", () => {
    expect(changes('import a from "a"; type B = "b" | { readonly c: "d" }; const e = a as B satisfies "f";')).toEqual([]);
    expect(changes('export type { A } from "a"; interface B { c: "d"; } enum E { F = "g" }')).toEqual([]);
  });

  it("of a link stand for the whole chain, so that what is not there stays not there", () => {
    const [mutant] = mutantsOf("a?.b.slice(1).c", "a.ts").mutants;
    expect(mutant).toMatchObject({ was: "a?.b.slice(1)", whole: { becomes: "a?.b.c" } });
  });
});
