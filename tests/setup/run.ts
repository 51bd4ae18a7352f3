/** `npm test`: everything, the same here and in CI. Ends with a line 'N passed, N failed'. */
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { ensureTools } from "./tools.js";

type Step = () => Promise<void>;
const check =
  (name: string, ...command: readonly string[]): Step =>
  () =>
    runCheck(name, command);
const tests =
  (project: string): Step =>
  () =>
    runProject(project);

/** The engine by each other Node that `.ci/run` names, by the folder of its program. */
const otherNodes = (process.env.OTHER_NODES ?? "")
  .split(delimiter)
  .filter(Boolean)
  .map(
    (bin): Step =>
      () =>
        runProject("node", { bin, only: "tests/estimating" }),
  );

/** One stage after the other; lanes of a stage side by side, so that no core waits: a browser mostly does. */
const STAGES: readonly (readonly (readonly Step[])[])[] = [
  [[check("build", "tsx", "src/tools/build.ts")]],
  [
    [tests("node")],
    [
      check("format and lint", "biome", "check", "."),
      check("types", "tsc", "--noEmit"),
      check("bundle size", "tsx", "src/tools/size.ts"),
    ],
  ],
  [[tests("browser")], [tests("workerd"), tests("paper"), ...otherNodes]],
];

ensureTools();
const reports = mkdtempSync(join(tmpdir(), "ohmwright-tests-"));
let passed = 0;
let failed = 0;

const run = (command: readonly string[], bin?: string): Promise<boolean> =>
  new Promise((done) => {
    // The whole comparison with decimal.js ran on this Node already; another one takes a fifth of it.
    const other = { INDEPENDENT: "2000", ...process.env, PATH: `${bin}${delimiter}${process.env.PATH}` };
    const env = bin ? other : process.env;
    spawn("npx", ["--no-install", ...command], { stdio: "inherit", env }).on("close", (code) => done(code === 0));
  });

for (const stage of STAGES)
  await Promise.all(
    stage.map(async (lane) => {
      for (const step of lane) await step();
    }),
  );
rmSync(reports, { recursive: true, force: true });
console.log(`\n${passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);

async function runCheck(name: string, command: readonly string[]): Promise<void> {
  console.log(`\n== ${name}`);
  if (await run(command)) passed += 1;
  else failed += 1;
}

async function runProject(project: string, { bin, only }: { bin?: string; only?: string } = {}): Promise<void> {
  const by = bin ? `, Node ${execFileSync(join(bin, "node"), ["--version"], { encoding: "utf8" }).trim()}` : "";
  console.log(`\n== tests: ${project}${by}`);
  const report = join(reports, `${project}${by}.json`);
  const ok = await run(
    [
      ...["vitest", "run", "--project", project, ...(only ? [only] : [])],
      ...["--reporter=default", "--reporter=json", `--outputFile.json=${report}`],
    ],
    bin,
  );
  const counts = readCounts(report);
  passed += counts.passed;
  failed += counts.failed;
  if ((!ok && counts.failed === 0) || counts.passed + counts.failed === 0) failed += 1;
}

function readCounts(file: string): { passed: number; failed: number } {
  try {
    const report = JSON.parse(readFileSync(file, "utf8")) as { numPassedTests: number; numFailedTests: number };
    return { passed: report.numPassedTests, failed: report.numFailedTests };
  } catch {
    return { passed: 0, failed: 0 };
  }
}
