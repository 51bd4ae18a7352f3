/** `npm run fuzz -- --requests 100000 --seed 1 --parsers 10000`: what readers and routes are asked, a table of routes, and what was found. */
import { parseArgs } from "node:util";
import { counting } from "./fuzz.js";
import { fuzzed } from "./fuzzShops.js";
import { parsed } from "./parsers.js";

const SLOWEST = 1000;
const { values } = parseArgs({
  options: {
    requests: { type: "string", default: "100000" },
    seed: { type: "string", default: "1" },
    parsers: { type: "string", default: "10000" },
  },
});
const { read, faults } = await parsed(Number(values.parsers), Number(values.seed));
console.log(`${read} values read, seed ${values.seed}`);
for (const fault of faults) console.log(`FAULT ${fault}`);
const began = performance.now();
const into = counting(SLOWEST);
const told = new Set<string>();
const tell = () => {
  const fresh = [...new Set(into.faults)].filter((fault) => !told.has(fault)).slice(0, 100);
  for (const fault of fresh) console.log(`FAULT ${fault}`);
  for (const fault of fresh) told.add(fault);
};
const telling = setInterval(() => {
  console.log(`${into.requests} requests so far, ${into.faults.length} faults`);
  tell();
}, 30_000);
const found = await fuzzed(Number(values.requests), Number(values.seed), into);
clearInterval(telling);
for (const [route, { times, refused, worst }] of [...found.routes].sort(([a], [b]) => (a < b ? -1 : 1)))
  console.log(
    `${route.padEnd(70)} ${String(times).padStart(6)} ${String(refused).padStart(6)} refused ${worst.toFixed(0).padStart(5)} ms`,
  );
console.log(`${found.requests} requests in ${Math.round((performance.now() - began) / 1000)} s, seed ${values.seed}`);
tell();
process.exit(found.faults.length + faults.length > 0 ? 1 : 0);
