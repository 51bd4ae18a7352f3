/** `npm run torture -- --kills 350`: hundreds of kills, and the failure of every statement of a story. Long; the suite has a short version of both. */
import { parseArgs } from "node:util";
import { counting, killed } from "./kills.js";
import { bundle, npmStart } from "./server.js";
import { failedOneByOne } from "./statements.js";

const { values } = parseArgs({
  options: {
    kills: { type: "string", default: "350" },
    lanes: { type: "string", default: "2" },
    "npm-start": { type: "boolean" },
  },
});
const [kills, lanes] = [Number(values.kills), Number(values.lanes)];
const counted = counting();
const from = performance.now();
const share = (lane: number): number => Math.floor((kills + lane) / lanes);
const program = values["npm-start"] ? npmStart : await bundle();
await Promise.all(
  Array.from({ length: lanes }, (_, lane) => killed({ name: `lane ${lane} `, kills: share(lane), program }, counted)),
);

const say = (text: string) => process.stdout.write(`${text}\n`);
say(`${counted.kills} kills in ${Math.round((performance.now() - from) / 1000)} s, ${lanes} at a time`);
for (const [sort, times] of Object.entries(counted.done)) say(`${sort.padEnd(16)} ${times} acknowledged, all there once`);
say(
  `${counted.cut} were cut off before they were answered and sent again under their key; ${counted.hadBeenDone} of them had been done`,
);
// What the app says of each of its faults: they are wanted here.
console.error = () => undefined;
const story = await failedOneByOne("every");
for (const [act, times] of Object.entries(story.statements))
  say(`${act.padEnd(16)} each of its ${times} statements failed once, nothing half made`);
const faults = [...counted.faults, ...story.faults];
for (const fault of faults) say(`FAULT ${fault}`);
process.exit(faults.length > 0 ? 1 : 0);
