/** `npm run torture`: kills, failing statements, a failing disk, torn files, races, changed bytes and a large shop's backup, each part a table. Long; the suite has a short version of all but the last, and holds what keeps the last small. `--only races` runs one part, `life 10000 1` that many seeded lives from a seed on. */
import { parseArgs } from "node:util";
import { connectFile } from "../../src/records/connectFile.js";
import { livedInFile } from "../records/support/livedInShop.js";
import { backedUp } from "./backups.js";
import { byteByByte, unseenIn } from "./bytes.js";
import { failedCallByCall } from "./disk.js";
import { FAILURES, noDisk } from "./failing.js";
import { failedFirstStarts } from "./firstStart.js";
import { hosted } from "./hosted.js";
import { HOUSES } from "./houses.js";
import { counting, killed } from "./kills.js";
import { livesTold } from "./life/run.js";
import { mishapped } from "./mishaps.js";
import { RACES, raced } from "./races.js";
import { bundle, npmStart } from "./server.js";
import { failedOneByOne } from "./statements.js";
import { tornFile, tornLog } from "./torn.js";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    kills: { type: "string", default: "350" },
    jobs: { type: "string", default: "5000" },
    lanes: { type: "string", default: "2" },
    clients: { type: "string", default: "50" },
    step: { type: "string", default: "1" },
    only: { type: "string" },
    "npm-start": { type: "boolean" },
  },
});
const say = (text: string) => process.stdout.write(`${text}\n`);
const seconds = (from: number): number => Math.round((performance.now() - from) / 100) / 10;

const tallied = (tally: Readonly<Record<string, number>>): string =>
  Object.entries(tally)
    .map(([what, times]) => `${times} ${what}`)
    .join(", ");

const PARTS: Readonly<Record<string, () => Promise<readonly string[]>>> = {
  kills: async () => {
    const [kills, lanes] = [Number(values.kills), Number(values.lanes)];
    const counted = counting();
    const from = performance.now();
    const share = (lane: number): number => Math.floor((kills + lane) / lanes);
    const program = values["npm-start"] ? npmStart : await bundle();
    await Promise.all(
      Array.from({ length: lanes }, (_, lane) => killed({ name: `lane ${lane} `, kills: share(lane), program }, counted)),
    );
    say(`${counted.kills} kills in ${seconds(from)} s, ${lanes} at a time`);
    for (const [sort, times] of Object.entries(counted.done)) say(`${sort.padEnd(16)} ${times} acknowledged, all there once`);
    say(
      `${counted.cut} were cut off before they were answered and sent again under their key; ${counted.hadBeenDone} of them had been done`,
    );
    return counted.faults;
  },
  statements: async () => {
    const { statements, faults } = await failedOneByOne("every");
    for (const [act, times] of Object.entries(statements))
      say(`${act.padEnd(16)} each of its ${times} statements failed once, nothing half made`);
    return faults;
  },
  races: async () => {
    const found: string[] = [];
    for (const [over, open] of Object.entries(HOUSES)) {
      say(`${values.clients} at once, over ${over}: seconds, done, refused and why`);
      for (const name of Object.keys(RACES)) {
        const house = await open();
        const { faults, took, done, heard } = await raced(name, house, Number(values.clients)).finally(house.gone);
        const others = Object.entries(heard).map(([why, times]) => `${times} ${why}`);
        say([name.padEnd(40), (took / 1000).toFixed(1).padStart(6), String(done).padStart(4), others.join(", ")].join("  "));
        found.push(...faults.map((fault) => `over ${over}, ${fault}`));
      }
    }
    return found;
  },
  bytes: async () => {
    const { path } = await livedInFile();
    const { db, close } = await connectFile(`file:${path}`);
    const flips = await byteByByte(db).finally(close);
    for (const table of new Set(flips.map((each) => each.table))) {
      const own = flips.filter((each) => each.table === table);
      const near = ["field", "row", "somewhere", "unseen", "no row"].map((how) => own.filter((each) => each.near === how));
      const unseen = near[3]!.map(({ column }) => column).join(" ");
      say([table.padEnd(22), ...near.map((of) => String(of.length).padStart(3)), unseen].join("  "));
    }
    say("columns of each table that verify names by field, by row or paper, otherwise, not at all, and that no row fills");
    return unseenIn(flips);
  },
  backups: async () =>
    backedUp(Number(values.jobs), await bundle(), ({ what, seconds: took, before, peak, said }) => {
      const had = before ? ` (${before.toFixed(0)} before)` : "";
      say(
        [what.padEnd(17), `${took.toFixed(0)} s`.padStart(6), `${peak.toFixed(0)} MB${had}`, said.split("\n").at(-1)].join("  "),
      );
    }),
  life: async () => {
    const { faults } = await livesTold(Number(seeds), Number(first), say);
    return faults.map(({ seed, act, what }) => `seed ${seed}, act ${act}: ${what}`);
  },
  hosted: async () => {
    const { taken, faults } = await hosted();
    say("over libSQL by HTTP with 20 ms on each call: round trips, milliseconds");
    for (const { what, trips, milliseconds } of taken)
      say(`${what.padEnd(44)}  ${String(trips).padStart(3)}  ${milliseconds.toFixed(0).padStart(5)}`);
    return faults;
  },
  disk: async () => {
    const without = noDisk();
    if (without) return [without];
    const step = Number(values.step);
    say("calls of each act that failed in turn, how, and what whoever asked heard");
    const { faults } = await failedCallByCall({
      ...{ ways: FAILURES, program: await bundle(), step, stepOfKills: 4 * step },
      tell: (act, how, { calls, heard, faults: found }) => {
        say(`${act.padEnd(18)}  ${how.padEnd(20)}  ${String(calls).padStart(4)}  ${tallied(heard)}`);
        for (const fault of found) say(`  ${fault}`);
      },
    });
    // Some 850 calls, each of them a start.
    const starts = await failedFirstStarts(FAILURES, 97 * step);
    for (const [how, came] of Object.entries(starts.told))
      say(`${"first start".padEnd(18)}  ${how.padEnd(20)}  ${tallied(came)}`);
    return [...faults, ...starts.faults];
  },
  torn: async () => {
    const all = [await tornLog({ step: Number(values.step) }), await tornFile()];
    for (const { told } of all) for (const [what, came] of Object.entries(told)) say(`${what.padEnd(44)}  ${tallied(came)}`);
    return all.flatMap(({ faults }) => faults);
  },
  wire: async () => {
    const { heard, faults } = await mishapped();
    say("what happened to each request of an act to its hosted database, and how often what was heard");
    for (const [mishap, tally] of Object.entries(heard)) say(`${mishap.padEnd(40)}  ${tallied(tally)}`);
    return faults;
  },
};

// Lives are asked for by name: an hour of them is another matter.
const [named, seeds = "10000", first = "1"] = positionals;
const only = (named ?? values.only)?.split(",") ?? Object.keys(PARTS).filter((name) => name !== "life");
for (const name of only) if (!PARTS[name]) throw new Error(`There is no part '${name}' among ${Object.keys(PARTS).join(", ")}.`);
const faults: string[] = [];
for (const name of only) {
  // What the app says of each of its faults: they are wanted there.
  const said = console.error;
  if (name !== "kills") console.error = () => undefined;
  faults.push(...(await PARTS[name]!()));
  console.error = said;
}
for (const fault of faults) say(`FAULT ${fault}`);
process.exit(faults.length > 0 ? 1 : 0);
