/** `npm run fuzz -- --requests 100000 --seed 1`: a table of routes, and what was found. */
import { parseArgs } from "node:util";
import { counting } from "./fuzz.js";
import { fuzzed } from "./fuzzShops.js";

const SLOWEST = 1000;
const { values } = parseArgs({
  options: { requests: { type: "string", default: "100000" }, seed: { type: "string", default: "1" } },
});
const began = performance.now();
const found = await fuzzed(Number(values.requests), Number(values.seed), counting(SLOWEST));
for (const [route, { times, refused, worst }] of [...found.routes].sort(([a], [b]) => (a < b ? -1 : 1)))
  console.log(
    `${route.padEnd(70)} ${String(times).padStart(6)} ${String(refused).padStart(6)} refused ${worst.toFixed(0).padStart(5)} ms`,
  );
console.log(`${found.requests} requests in ${Math.round((performance.now() - began) / 1000)} s, seed ${values.seed}`);
for (const fault of [...new Set(found.faults)].slice(0, 100)) console.log(`FAULT ${fault}`);
process.exit(found.faults.length > 0 ? 1 : 0);
