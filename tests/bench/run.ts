/**
 * `npm run bench`: least times of one run, as ratios to floors of the same run. Absolute figures drift between machines; ratios are what
 * to compare. `-- works`, `-- http`, `-- edge`, `-- papers`, `-- office` and `-- growth` are parts of it.
 */
import { Miniflare } from "miniflare";
import { accuracyAgainst } from "./accuracy.js";
import { bundleOf } from "./bundle.js";
import { firstCalls } from "./firstCall.js";
import { growth, LINES } from "./growth.js";
import { besideRaw } from "./http/besideRaw.js";
import { everyRoute } from "./http/inWorkerd.js";
import { besideOffice } from "./office/besideOffice.js";
import { besidePeers } from "./peers/besidePeers.js";
import { DRAWS, RISK_OF_100, type Work, works } from "./works.js";

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

/** Per call: enough calls for 40 ms, nine such lots, the quickest: what else the machine does can only add. A lot's fixed cost is taken off by an empty lot. */
async function perCall(timer: Timer, work: Work, side: "run" | "floor"): Promise<number> {
  let times = 1;
  while ((await timer(work, side, times)) < 40) times *= 2;
  const [lots, empty]: [number[], number[]] = [[], []];
  for (let lot = 0; lot < 9; lot += 1) {
    empty.push(await timer(work, side, 0));
    lots.push(await timer(work, side, times));
  }
  return (Math.min(...lots) - Math.min(...empty)) / times;
}

async function inWorkerd(): Promise<{ timer: Timer; stop: () => Promise<void> }> {
  const script = await bundleOf("tests/bench/worker.ts");
  const worker = new Miniflare({ modules: true, script, compatibilityDate: "2026-04-26" });
  const timer: Timer = async (work, side, times) => {
    const query = new URLSearchParams({ work: work.name, side, times: String(times) });
    const began = performance.now();
    const answer = await worker.dispatchFetch(`http://bench/?${query}`);
    if ((await answer.text()) !== "done") throw new Error(`workerd could not run ${work.name}`);
    return performance.now() - began;
  };
  return { timer, stop: () => worker.dispose() };
}

const PARTS = {
  works: printWorks,
  http: printHttp,
  edge: printEdge,
  papers: printPapers,
  office: printOffice,
  growth: printGrowth,
};
const asked = process.argv[2];
if (asked !== undefined && !Object.hasOwn(PARTS, asked))
  throw new Error(`'${asked}' is none of ${Object.keys(PARTS).join(", ")}.`);
for (const [name, print] of Object.entries(PARTS)) if (asked === undefined || asked === name) await print();

async function printHttp(): Promise<void> {
  console.log(
    "\nBy HTTP, beside raw node:http that sends as many bytes (requests a second; processor time of the server, ms each)",
  );
  const cells = (name: string, ...rest: readonly string[]) => name.padEnd(30) + rest.map((cell) => cell.padStart(10)).join("");
  console.log(cells("what", "bytes", "a second", "ms", "raw", "raw ms", "1/raw", "ms/raw"));
  for (const { name, bytes, shop, raw } of await besideRaw(200)) {
    const ratios = [(raw.rate / shop.rate).toPrecision(3), (shop.cpu / raw.cpu).toPrecision(3)];
    console.log(
      cells(name, String(bytes), shop.rate.toFixed(0), shop.cpu.toFixed(2), raw.rate.toFixed(0), raw.cpu.toFixed(3), ...ratios),
    );
  }
}

async function printEdge(): Promise<void> {
  console.log("\nThe Worker as it is sent, in workerd: processor time in ms, of 10 that a request may take");
  const cells = (name: string, ...rest: readonly string[]) => name.padEnd(44) + rest.map((cell) => cell.padStart(10)).join("");
  console.log(cells("what", "first", "p50", "p99"));
  const { start, rows, none } = await everyRoute(200, ({ name, first, p50, p99 }) =>
    console.log(cells(name, ...[first, p50, p99].map((ms) => ms.toFixed(2)))),
  );
  const dear = (of: "first" | "p50" | "p99") => rows.filter((row) => row[of] > 10).length;
  console.log(`Of ${rows.length} more than 10 ms: first ${dear("first")}, p50 ${dear("p50")}, p99 ${dear("p99")}.`);
  console.log(`Nothing to show at ${none.join(", ")}.`);
  console.log(`Starting takes ${start.toFixed(0)} ms beyond an empty Worker's start.`);
}

async function printPapers(): Promise<void> {
  console.log("\nThe paper of 60 works beside other libraries that only draw its lines (processor time, ms; ratios to ours)");
  const cells = (...all: readonly string[]) => all.map((cell, at) => (at < 2 ? cell.padEnd(8) : cell.padStart(11))).join("");
  console.log(cells("maker", "font", "bytes", "warm", "ratio", "load", "first", "ratio"));
  const rows = await besidePeers();
  const [ours] = rows as [(typeof rows)[number]];
  for (const { maker, font, bytes, warm, first } of rows) {
    const ratios = [warm / ours.warm, (first.load + first.draw) / (ours.first.load + ours.first.draw)].map((of) => of.toFixed(1));
    const [load, draw] = [first.load.toFixed(0), first.draw.toFixed(0)];
    console.log(cells(maker, font, String(bytes), warm.toFixed(2), ratios[0]!, load, draw, ratios[1]!));
  }
}

async function printOffice(): Promise<void> {
  console.log("\nPrice, risk and paper of 60 works beside the same workbook in LibreOffice Calc (ms; ratios to all of ours)");
  const beside = await besideOffice();
  if (typeof beside === "string") return console.log(`  left out: ${beside}`);
  const cells = (...all: readonly string[]) => all.map((cell, at) => (at < 1 ? cell.padEnd(44) : cell.padStart(9))).join("");
  console.log(cells("what", "wall", "ratio", "cpu", "ratio"));
  const { all } = beside.ours;
  for (const [name, { wall, cpu }] of [...Object.entries(beside.ours), ...Object.entries(beside.office)])
    console.log(cells(name, wall.toFixed(1), (wall / all.wall).toFixed(1), cpu.toFixed(1), (cpu / all.cpu).toFixed(1)));
  console.log(`  ${beside.said}`);
}

async function printGrowth(): Promise<void> {
  console.log("\nAn estimate as it grows (processor time, ms; the last column is 10 where the time grows with the lines)");
  const cells = (...all: readonly string[]) => all.map((cell, at) => (at < 1 ? cell.padEnd(16) : cell.padStart(11))).join("");
  console.log(cells("lines", ...LINES.map(String), `${LINES.at(-1)} : ${LINES.at(-2)}`));
  for (const { name, cpu } of await growth())
    console.log(cells(name, ...cpu.map((ms) => ms.toPrecision(3)), (cpu.at(-1)! / cpu.at(-2)!).toFixed(1)));
}

async function printWorks(): Promise<void> {
  const list = await works();
  const workerd = await inWorkerd();
  const rows: Row[] = [];
  for (const [where, timer] of [["node", inNode] as const, ["workerd", workerd.timer] as const]) {
    for (const work of list)
      rows.push({ where, work, ms: await perCall(timer, work, "run"), floorMs: await perCall(timer, work, "floor") });
  }
  await workerd.stop();

  const line = (cells: readonly string[]) =>
    cells.map((cell, index) => (index < 2 ? cell.padEnd(22) : cell.padStart(14))).join("");
  console.log(line(["where", "work", "ms a call", "us an item", "floor ms", "times floor"]), "  floor");
  for (const { where, work, ms, floorMs } of rows) {
    const cells = [
      where,
      work.name,
      ms.toFixed(3),
      ((ms * 1000) / work.items).toFixed(2),
      floorMs.toFixed(3),
      (ms / floorMs).toPrecision(3),
    ];
    console.log(line(cells), ` ${work.floorName}`);
  }

  const first = await firstCalls(RISK_OF_100, "run", "worker");
  const counted = await firstCalls(RISK_OF_100, "floor", "worker");
  const unrehearsed = await firstCalls(RISK_OF_100, "run", "unrehearsed");
  console.log(`\n${RISK_OF_100}: its risk costs beyond the price as counted, in ms`);
  for (const where of ["node", "workerd"] as const) {
    const { ms, floorMs } = rows.find((row) => row.where === where && row.work.name === RISK_OF_100)!;
    console.log(
      `  ${where}: ${(ms - floorMs).toFixed(2)} warm; first call ${first[where].toFixed(1)}, as counted ${counted[where].toFixed(1)}; without a rehearsal ${unrehearsed[where].toFixed(1)}`,
    );
  }

  console.log(`\nOff at P80 from a million simulated jobs, in percent: the distribution, and ${DRAWS} simulated jobs`);
  for (const { shape, distribution, simulation } of accuracyAgainst(DRAWS))
    console.log(`  ${shape}: ${distribution.toFixed(3)} and ${simulation.toFixed(3)}`);
}
