/** Runs vitest's tests through `tryAll`; told line by line in a file, from which a later process goes on. */
import { appendFileSync, readFileSync } from "node:fs";
import { relative } from "node:path";
import { TestRunner } from "vitest";
import { Switch, type Told, tryAll } from "./trial.js";

const { MUTATION_TOLD: path = "", MUTATION_TEST_MS, MUTATION_MUTANT_MS } = process.env;
const bounds = { test: Number(MUTATION_TEST_MS), mutant: Number(MUTATION_MUTANT_MS) };
const tell = (told: Told) => appendFileSync(path, `${JSON.stringify(told)}\n`);

/** Of the process: this file is read anew for each file of tests, the sources are not. */
const kept = globalThis as { $trial?: Switch; $sofar?: ReturnType<typeof soFar> };
kept.$trial ??= new Switch();
kept.$sofar ??= soFar();
const on = kept.$trial;
const { settled, spent, done } = kept.$sofar;

function soFar() {
  const [settled, spent, done] = [new Set<number>(), new Map<number, number>(), new Set<string>()];
  for (const line of readFileSync(path, "utf8").split("\n").filter(Boolean)) {
    const told = JSON.parse(line) as Told;
    if ("done" in told && told.as !== "slow") done.add(told.done);
    else if ("came" in told && told.came !== "survived") settled.add(told.id);
    else if ("came" in told) spent.set(told.id, (spent.get(told.id) ?? 0) + told.took);
  }
  return { settled, spent, done };
}

/** With what it asked to have done at its end, which vitest keeps to itself. */
type Test = Parameters<TestRunner["onAfterTryTask"]>[0] & { onFinished?: ((context: object) => unknown)[] };

export default class Trials extends TestRunner {
  async runTask(test: Test): Promise<void> {
    const names: string[] = [];
    for (let at: Test["suite"] | Test = test; at; at = at.suite) names.unshift(at.name);
    const name = `${relative(process.cwd(), test.file.filepath)} > ${names.join(" > ")}`;
    if (on.reached.size > 0) tell({ loaded: [...on.reached] });
    const run = async () => {
      try {
        await TestRunner.getTestFn(test)();
      } finally {
        // What a test cleans up at its end, it does at the end of each run.
        const ends = test.onFinished ?? [];
        test.onFinished = [];
        for (const end of ends.reverse()) await end(test.context);
      }
    };
    if (done.has(name)) await run();
    else await tryAll(name, run, { on, settled, spent }, bounds, tell);
    on.set(0);
  }
}
