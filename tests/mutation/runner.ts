/** Runs vitest's tests to see what they reach, then with the mutants planned for each; told line by line in a file, from which a later process goes on. */
import { appendFileSync, readFileSync } from "node:fs";
import { relative } from "node:path";
import { TestRunner } from "vitest";
import type { Plan } from "./run.js";
import { Switch, seen, type Told, tryAll } from "./trial.js";

const { MUTATION_TOLD: path = "", MUTATION_PLAN: plan = "" } = process.env;
const tell = (told: Told) => appendFileSync(path, `${JSON.stringify(told)}\n`);

/** Of the process: this file is read anew for each file of tests, the sources are not. */
const kept = globalThis as { $trial?: Switch; $sofar?: ReturnType<typeof soFar> };
kept.$trial ??= new Switch();
kept.$sofar ??= soFar();
const on = kept.$trial;
const { trials, settled, done } = kept.$sofar;

function soFar() {
  const { trials } = JSON.parse(readFileSync(plan, "utf8")) as Plan;
  const [settled, done] = [new Set<number>(), new Set<string>()];
  for (const line of readFileSync(path, "utf8").split("\n").filter(Boolean)) {
    const told = JSON.parse(line) as Told;
    if ("done" in told) done.add(told.done);
    if ("came" in told && told.came !== "survived") settled.add(told.id);
  }
  return { trials, settled, done };
}

/** With what it asked to have done at its end, which vitest keeps to itself. */
type Test = Parameters<TestRunner["onAfterTryTask"]>[0] & { onFinished?: ((context: object) => unknown)[] };

export default class Trials extends TestRunner {
  async runTask(test: Test): Promise<void> {
    const names: string[] = [];
    for (let at: Test["suite"] | Test = test; at; at = at.suite) names.unshift(at.name);
    // Its place too, since a table of cases may give several one name.
    const place = test.id.slice(test.id.indexOf("_") + 1);
    const name = `${relative(process.cwd(), test.file.filepath)} > ${names.join(" > ")} (${place})`;
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
    if (!trials) tell(await seen(name, run, on));
    else {
      const open = trials[name]?.filter((id) => !settled.has(id)) ?? [];
      const told = (each: Told) => {
        if ("came" in each && each.came !== "survived") settled.add(each.id);
        tell(each);
      };
      if (open.length > 0 && !done.has(name)) await tryAll(name, run, on, open, told);
    }
    on.set(0);
  }
}
