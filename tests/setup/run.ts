/** `npm test`: everything, the same here and in CI. Ends with a line 'N passed, N failed'. */
import { execFileSync, spawn } from "node:child_process";
import { readFileSync, rmSync, statfsSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join, relative } from "node:path";
import { folderOfRun, removeLeftovers } from "./leftovers.js";
import { ensureTools } from "./tools.js";

/** Where a write waits for no disk. A container may have too little of it. */
const MEMORY = "/dev/shm";
const roomInMemory = (): boolean => {
  try {
    const { bavail, bsize } = statfsSync(MEMORY);
    return bavail * bsize > 4e9;
  } catch {
    return false;
  }
};

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

/** Begun at once, and waited for by what needs a browser or PDF tools: on a fresh machine a minute and a half. */
const tools = ensureTools();

/** One stage after the other; lanes of a stage side by side, so that no core waits for a browser; a third would only have pages waited for longer, which costs a browser processor time too. */
const STAGES: readonly (readonly (readonly Step[])[])[] = [
  [[check("build", "tsx", "src/tools/build.ts")]],
  [
    [() => tools, tests("browser")],
    [
      check("format and lint", "biome", "check", "."),
      check("types", "tsc", "--noEmit"),
      check("bundle size", "tsx", "src/tools/size.ts"),
      // One at a time, so early, while the browser has the other core.
      tests("workerd"),
      ...[() => tools, tests("paper"), tests("node"), ...otherNodes],
    ],
  ],
];

const room = roomInMemory() ? MEMORY : tmpdir();
removeLeftovers(room);
const reports = folderOfRun(room);
// The tests' own files too.
const here: NodeJS.ProcessEnv = { ...process.env, TMPDIR: reports };
let passed = 0;
/** By name: of a long run often only the end is kept. */
const failed: string[] = [];

const run = (command: readonly string[], bin?: string): Promise<boolean> =>
  new Promise((done) => {
    // All random cases are drawn on this Node; what another one reckons otherwise shows in a fifth of them.
    const other = { PROPERTY_TIMES: "0.2", ...here, OTHER_NODE: bin, PATH: `${bin}${delimiter}${here.PATH}` };
    spawn("npx", ["--no-install", ...command], { stdio: "inherit", env: bin ? other : here }).on("close", (code) =>
      done(code === 0),
    );
  });

for (const stage of STAGES)
  await Promise.all(
    stage.map(async (lane) => {
      for (const step of lane) await step();
    }),
  );
rmSync(reports, { recursive: true, force: true, maxRetries: 5 });
for (const name of failed) console.log(`\nFAILED ${name}`);
console.log(`\n${passed} passed, ${failed.length} failed`);
process.exit(failed.length === 0 ? 0 : 1);

async function runCheck(name: string, command: readonly string[]): Promise<void> {
  console.log(`\n== ${name}`);
  if (await run(command)) passed += 1;
  else failed.push(name);
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
  const read = readReport(report);
  passed += read.passed;
  failed.push(...read.failed.map((name) => `${project}${by}: ${name}`));
  if ((!ok && read.failed.length === 0) || read.passed + read.failed.length === 0) failed.push(`${project}${by}`);
}

interface Report {
  readonly numPassedTests: number;
  readonly testResults: readonly {
    readonly name: string;
    readonly assertionResults: readonly { readonly fullName: string; readonly status: string }[];
  }[];
}

function readReport(file: string): { readonly passed: number; readonly failed: readonly string[] } {
  try {
    const { numPassedTests, testResults } = JSON.parse(readFileSync(file, "utf8")) as Report;
    const names = testResults.flatMap(({ name, assertionResults }) =>
      assertionResults.flatMap(({ fullName, status }) =>
        status === "failed" ? [`${relative(process.cwd(), name)} > ${fullName}`] : [],
      ),
    );
    return { passed: numPassedTests, failed: names };
  } catch {
    return { passed: 0, failed: [] };
  }
}
