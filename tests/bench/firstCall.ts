/** What a work takes at its first call, compiled only as far as starting does it: each time in a fresh thread of Node, or a fresh workerd. */
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { Miniflare } from "miniflare";
import { bundleOf } from "./bundle.js";

export type Side = "run" | "floor";
const ROUNDS = 9;
const EMPTY = 8;

/** Least of a few fresh starts, in ms; what a request without work takes is taken off in workerd. */
export async function firstCalls(
  name: string,
  side: Side,
  entry: "worker" | "unrehearsed",
): Promise<{ readonly node: number; readonly workerd: number }> {
  const script = await bundleOf(`tests/bench/${entry}.ts`);
  const query = (times: number) => `http://bench/?${new URLSearchParams({ work: name, side, times: String(times) })}`;
  const [inNode, inWorkerd]: [number[], number[]] = [[], []];
  for (let round = 0; round < ROUNDS; round += 1) {
    inNode.push(await inThread(script, query(1)));
    inWorkerd.push(await inFreshWorkerd(script, query));
  }
  return { node: Math.min(...inNode), workerd: Math.min(...inWorkerd) };
}

async function inThread(script: string, url: string): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), "ohmwright-bench-"));
  const run = `
    import { parentPort } from "node:worker_threads";
    import works from "./works.mjs";
    const empty = ${JSON.stringify(url)}.replace("times=1", "times=0");
    for (let left = ${EMPTY}; left > 0; left -= 1) await works.fetch(new Request(empty));
    const began = performance.now();
    await works.fetch(new Request(${JSON.stringify(url)}));
    parentPort.postMessage(performance.now() - began);`;
  await writeFile(join(folder, "works.mjs"), script);
  await writeFile(join(folder, "run.mjs"), run);
  const worker = new Worker(join(folder, "run.mjs"));
  const ms = await new Promise<number>((done, fail) => worker.once("message", done).once("error", fail));
  await worker.terminate();
  await rm(folder, { recursive: true });
  return ms;
}

async function inFreshWorkerd(script: string, query: (times: number) => string): Promise<number> {
  const worker = new Miniflare({ modules: true, script, compatibilityDate: "2026-04-26" });
  const ask = async (times: number) => {
    const began = performance.now();
    await (await worker.dispatchFetch(query(times))).text();
    return performance.now() - began;
  };
  const empty: number[] = [];
  for (let left = EMPTY; left > 0; left -= 1) empty.push(await ask(0));
  const ms = (await ask(1)) - Math.min(...empty);
  await worker.dispose();
  return ms;
}
