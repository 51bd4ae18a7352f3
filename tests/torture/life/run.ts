/** `npm run torture -- life 10000 1`: so many seeded lives from a seed on, in two processes; a table of acts, and each seed that found something. */
import { spawn } from "node:child_process";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import type { Told } from "./lane.js";
import { counting, type Lived } from "./life.js";

const LANES = 2;

export async function livesTold(seeds: number, from: number, say: (line: string) => void): Promise<Lived> {
  const all = counting();
  const began = performance.now();
  const lanes = Array.from({ length: Math.min(LANES, seeds) }, (_, lane) => {
    const share = Math.ceil((seeds - lane) / LANES);
    const words = [fileURLToPath(new URL("lane.ts", import.meta.url)), from + lane, share, LANES].map(String);
    const child = spawn(process.execPath, [...process.execArgv, ...words], { stdio: ["ignore", "pipe", "inherit"] });
    createInterface({ input: child.stdout }).on("line", (line) => {
      const before = all.seeds;
      const told = JSON.parse(line) as Told;
      add(all, told);
      for (const { seed, act, what } of told.faults) say(`  seed ${seed}, act ${act}: ${what}`);
      const took = ((performance.now() - began) / 1000).toFixed(0);
      if (Math.floor(before / 100) < Math.floor(all.seeds / 100))
        say(`${all.seeds} seeds, ${all.acts} acts, ${took} s, ${all.faults.length} faults`);
    });
    return new Promise<void>((resolve, reject) => {
      child.on("close", (code) => (code === 0 ? resolve() : reject(new Error(`A lane ended with ${code}.`))));
    });
  });
  await Promise.all(lanes);
  const seconds = (performance.now() - began) / 1000;
  for (const [name, { done, refused }] of [...all.each].sort(([a], [b]) => (a < b ? -1 : 1)))
    say(`${name.padEnd(22)} ${String(done).padStart(7)} done ${String(refused).padStart(7)} refused`);
  for (const [how, times] of all.sendings) say(`sent ${how.padEnd(17)} ${String(times).padStart(7)}`);
  const { records, pages, papers } = all.checks;
  say(`read after them: ${records} jobs whole, ${pages} pages, ${papers} papers`);
  say(
    `${all.seeds} seeds from ${from}, ${all.acts} acts in ${seconds.toFixed(0)} s: ${((1000 * seconds) / all.seeds).toFixed(0)} ms a seed`,
  );
  return all;
}

function add(all: Lived, { seeds, acts, cpu, each, sendings, checks, faults }: Told): void {
  all.seeds += seeds;
  all.acts += acts;
  all.cpu += cpu;
  for (const [name, { done, refused }] of each) {
    const sum = all.each.get(name) ?? { done: 0, refused: 0 };
    all.each.set(name, { done: sum.done + done, refused: sum.refused + refused });
  }
  for (const [how, times] of sendings) all.sendings.set(how, (all.sendings.get(how) ?? 0) + times);
  for (const key of ["papers", "pages", "records"] as const) all.checks[key] += checks[key];
  all.faults.push(...faults);
}
