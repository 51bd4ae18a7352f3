/** `npm run mutate`: how many small changes of the engine and of the acts no test notices. `--share 0.05 --seed 1` draws one in twenty, `--only src/estimating/money --share 1` tries all of a folder. */
import { spawn } from "node:child_process";
import { appendFileSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { KNOWN, names, type Placed, placedIn } from "./known.js";
import { reported } from "./report.js";
import { type Told, trialsOf } from "./trial.js";
import { refusedByTypes } from "./types.js";

export interface Plan {
  readonly root: string;
  /** By file: number of each mutant tried, and which of the file's it is. */
  readonly chosen: Readonly<Record<string, (readonly [number, number])[]>>;
  readonly tests: readonly string[];
  readonly without: readonly string[];
  /** By test; absent while it is still to be seen what each test reaches. */
  readonly trials?: Readonly<Record<string, readonly number[]>>;
}
/** The tests of each room, nearest first. */
const ROOMS: Readonly<Record<string, readonly string[]>> = {
  "src/estimating": ["tests/estimating", "tests/cases.test.ts", "tests/fixtures"],
  "src/acts": ["tests/acts", "tests/records", "tests/stories", "tests/http", "tests/fixtures"],
};
/** The same estimates over and over, at random: they would be most of the time, and kill what others kill. */
const WITHOUT = [
  "tests/estimating/independent/**",
  "tests/estimating/risk/simulation.test.ts",
  "tests/estimating/closeout/simulatedShop.test.ts",
  "tests/**/*.paper.test.ts",
];

const { values } = parseArgs({
  options: {
    only: { type: "string", default: "src" },
    share: { type: "string", default: "0.05" },
    seed: { type: "string", default: "1" },
    tests: { type: "string", multiple: true },
    "mutant-ms": { type: "string", default: "3000" },
    told: { type: "string", default: ".built/mutation" },
  },
});
const say = (text: string) => process.stdout.write(`${text}\n`);

const root = process.cwd();
mkdirSync(values.told, { recursive: true });
const faults: string[] = [];
for (const [room, tests] of Object.entries(ROOMS)) {
  const files = readdirSync(room, { recursive: true, encoding: "utf8" })
    .map((name) => `${room}/${name}`)
    .filter((name) => /\.tsx?$/.test(name))
    .sort();
  const all = files.filter((name) => name.startsWith(values.only)).flatMap(placedIn);
  if (all.length === 0) continue;
  const step = 1 / Number(values.share);
  // By the golden section, so that no two seeds draw alike.
  const first = ((Number(values.seed) * 0.618034) % 1) * step;
  const drawn: [number, Placed][] = [];
  for (let at = first; at < all.length; at += step) drawn.push([drawn.length + 1, all[Math.floor(at)]!]);
  const told = join(values.told, `${room.replaceAll("/", "-")}.told`);
  // Files without a mutant too: for what they keep, and their loops.
  const chosen: Plan["chosen"] = Object.fromEntries(files.map((file) => [file, []]));
  for (const [number, { file, nth }] of drawn) chosen[file]!.push([number, nth]);
  const plan: Plan = { root, chosen, tests: globs(values.tests ?? tests), without: WITHOUT };
  writeFileSync(`${told}.plan`, JSON.stringify(plan));
  writeFileSync(told, "");
  say(`${room}: ${drawn.length} of ${all.length} mutants in ${files.length} files`);
  if (!(await gone(told))) faults.push(`${room}: its tests fail as the source stands, so what they notice says nothing`);
  const reached = heardOf(told).filter((each) => "reached" in each);
  const trials = trialsOf(reached, { test: 10_000, mutant: Number(values["mutant-ms"]) });
  writeFileSync(`${told}.plan`, JSON.stringify({ ...plan, trials } satisfies Plan));
  await gone(told);
  const heard = heardOf(told);
  for (const line of await reported(new Map(drawn), heard, KNOWN, refusedByTypes)) say(line);
  for (const one of KNOWN.filter(({ file }) => all.some((mutant) => mutant.file === file)))
    if (!all.some((mutant) => names(one, mutant))) faults.push(`known.ts: nothing in ${one.file} is '${one.was}' in '${one.is}'`);
}
for (const fault of faults) say(fault);
process.exit(faults.length > 0 ? 1 : 0);

function globs(of: readonly string[]): string[] {
  return of.map((name) => (name.endsWith(".ts") ? name : `${name}/**/*.test.{ts,tsx}`));
}

/** Until all is told: a process that dies, or says nothing for a minute and a half, is another's to go on, without the mutant it died of. */
async function gone(told: string): Promise<boolean> {
  for (;;) {
    const env = {
      ...process.env,
      ...{ MUTATION_PLAN: `${told}.plan`, MUTATION_TOLD: told },
    };
    const child = spawn("npx", ["--no-install", "vitest", "run", "--config", "tests/mutation/vitest.config.ts"], {
      ...{ env, detached: true, stdio: ["ignore", "pipe", "inherit"] },
    });
    let out = "";
    child.stdout!.on("data", (data) => {
      out = (out + data).slice(-4000);
    });
    const stop = () => {
      process.kill(-child.pid!, "SIGKILL");
      process.exit(1);
    };
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, stop);
    const watch = setInterval(() => {
      if (hung(told)) process.kill(-child.pid!, "SIGKILL");
    }, 5000);
    const code = await new Promise((done) => child.on("close", done));
    clearInterval(watch);
    for (const signal of ["SIGINT", "SIGTERM"] as const) process.off(signal, stop);
    const last = heardOf(told).at(-1);
    if (!last || !("trying" in last)) {
      if (code !== 0) say(out);
      return code === 0;
    }
    appendFileSync(told, `${JSON.stringify({ id: last.trying, came: "endless", by: "the process died" })}\n`);
  }
}

function heardOf(told: string): Told[] {
  const lines = readFileSync(told, "utf8").split("\n").filter(Boolean);
  return lines.map((line) => JSON.parse(line) as Told);
}

function hung(told: string): boolean {
  if (Date.now() - statSync(told).mtimeMs < 90_000) return false;
  const last = heardOf(told).at(-1);
  return last !== undefined && "trying" in last;
}
