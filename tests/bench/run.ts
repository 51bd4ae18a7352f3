/** `npm run bench`: medians of one run, as ratios to floors of the same run. Absolute figures drift between machines; ratios are what to compare. */
import { build } from "esbuild";
import { Miniflare } from "miniflare";
import { type Work, works } from "./works.js";

interface Row {
  readonly where: string;
  readonly work: Work;
  readonly ms: number;
  readonly floorMs: number;
}
type Timer = (work: Work, side: "run" | "floor", times: number) => Promise<number>;

const inNode: Timer = async (work, side, times) => {
  const began = performance.now();
  for (let left = times; left > 0; left -= 1) await work[side]();
  return performance.now() - began;
};

/** Per call: enough calls for 80 ms, five such lots, the median; a lot's fixed cost is taken off by an empty lot. */
async function perCall(timer: Timer, work: Work, side: "run" | "floor"): Promise<number> {
  let times = 1;
  while ((await timer(work, side, times)) < 80) times *= 2;
  const lots: number[] = [];
  for (let lot = 0; lot < 5; lot += 1) {
    const empty = await timer(work, side, 0);
    lots.push(((await timer(work, side, times)) - empty) / times);
  }
  return lots.sort((a, b) => a - b)[2]!;
}

async function inWorkerd(): Promise<{ timer: Timer; stop: () => Promise<void> }> {
  const bundle = await build({
    entryPoints: ["tests/bench/worker.ts"],
    bundle: true,
    write: false,
    format: "esm",
    platform: "browser",
    conditions: ["workerd", "worker", "browser"],
  });
  const worker = new Miniflare({ modules: true, script: bundle.outputFiles[0]!.text, compatibilityDate: "2026-04-26" });
  const timer: Timer = async (work, side, times) => {
    const query = new URLSearchParams({ work: work.name, side, times: String(times) });
    const began = performance.now();
    const answer = await worker.dispatchFetch(`http://bench/?${query}`);
    if ((await answer.text()) !== "done") throw new Error(`workerd could not run ${work.name}`);
    return performance.now() - began;
  };
  return { timer, stop: () => worker.dispose() };
}

const list = await works();
const workerd = await inWorkerd();
const rows: Row[] = [];
for (const [where, timer] of [["node", inNode] as const, ["workerd", workerd.timer] as const]) {
  for (const work of list)
    rows.push({ where, work, ms: await perCall(timer, work, "run"), floorMs: await perCall(timer, work, "floor") });
}
await workerd.stop();

const line = (cells: readonly string[]) => cells.map((cell, index) => (index < 2 ? cell.padEnd(22) : cell.padStart(14))).join("");
console.log(line(["where", "work", "ms a call", "us an item", "floor ms", "times floor"]), "  floor");
for (const { where, work, ms, floorMs } of rows) {
  const cells = [
    where,
    work.name,
    ms.toFixed(3),
    ((ms * 1000) / work.items).toFixed(2),
    floorMs.toFixed(3),
    (ms / floorMs).toFixed(2),
  ];
  console.log(line(cells), ` ${work.floorName}`);
}
