import { readFileSync } from "node:fs";
import { relative } from "node:path";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import { mutantsOf, switched } from "./mutants.js";
import type { Plan } from "./run.js";

const { root, chosen, tests, without } = JSON.parse(readFileSync(process.env.MUTATION_PLAN!, "utf8")) as Plan;

/** The source with its mutants in it, before anything else reads it. */
const withMutants = {
  name: "mutants",
  enforce: "pre" as const,
  transform(text: string, id: string) {
    const ids = chosen[relative(root, id)];
    if (!ids) return undefined;
    const { mutants, loops } = mutantsOf(text, id);
    const code = switched(text, new Map(ids.map(([number, nth]) => [number, mutants[nth]!])), loops);
    return { code, map: null };
  },
};

/** The nearest tests first: what they kill costs the farther ones nothing. */
class NearestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const near = ({ moduleId }: TestSpecification) => {
      const at = tests.findIndex((glob) => relative(root, moduleId).startsWith(glob.split("*")[0]!));
      return `${String(at).padStart(3, "0")}${moduleId}`;
    };
    return [...files].sort((a, b) => (near(a) < near(b) ? -1 : 1));
  }
}

export default defineConfig({
  root,
  oxc: { jsx: { runtime: "automatic", importSource: "hono/jsx" } },
  plugins: [withMutants],
  test: {
    runner: "./tests/mutation/runner.ts",
    setupFiles: ["tests/setup/seed.ts", "tests/mutation/short.ts"],
    include: [...tests],
    exclude: [...without],
    sequence: { sequencer: NearestFirst },
    isolate: false,
    fileParallelism: false,
    maxWorkers: 1,
    testTimeout: 3_600_000,
    hookTimeout: 120_000,
    dangerouslyIgnoreUnhandledErrors: true,
    silent: true,
    reporters: [["default", { summary: false }]],
  },
});
