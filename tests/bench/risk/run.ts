/** `npm run risk`: thirty shapes of jobs against a million drawn of each, with possible work each by itself (before) and sharing what it opens. `-- 200000 tree`: so many draws of the shapes so named. */
import { DEAREST, dearest, LONGEST, ofSize } from "./dearest.js";
import { measure, POINTS } from "./measure.js";
import { SHAPES } from "./shapes.js";
import { shown } from "./shown.js";
import { trueJobs } from "./trueJobs.js";

const [draws = "1000000", named = ""] = process.argv.slice(2);
if (draws === "dearest") {
  let most = DEAREST;
  dearest(Number(named || 200), 1, (size, ms) => {
    most = size;
    console.log(`${ms.toFixed(0).padStart(7)} ms`, JSON.stringify(size));
  });
  const sizes = { "the dearest": most, "as long as it may be": LONGEST };
  for (const [name, size] of Object.entries(sizes))
    for (const { what, first, later, grown, bytes } of await shown(ofSize(size)))
      console.log(
        `${first.toFixed(0).padStart(7)} ms, then ${later.toFixed(0)} ms, ${grown.toFixed(0)} MB more resident: ${what} of ${name}, ${Math.round(bytes / 1000)} kB`,
      );
  process.exit();
}
const cell = (percent: number, gap: boolean) => `${percent.toFixed(2)}${gap ? " g" : ""}`.padStart(9);
const head = POINTS.map((p) => `P${100 * p}`.padStart(9)).join("");
console.log(
  `${"percent off".padEnd(44)}${"".padEnd(7)}${head}${"loss, pts".padStart(11)}${"price".padStart(10)}${"ms".padStart(6)}   g: in a gap`,
);
let worst = 0;
for (const [name, input] of Object.entries(SHAPES)) {
  if (!name.includes(named)) continue;
  const { totals: before } = trueJobs(input, Number(draws), 20_261_128);
  const shared = { ...input, rateBook: { ...input.rateBook, risk: "shared" as const } };
  const { totals } = trueJobs(shared, Number(draws), 20_261_128);
  for (const [when, given, jobs] of [
    ["before", input, before.sort()],
    ["now", shared, totals.sort()],
  ] as const) {
    const { off, loss, price, ms } = measure(given, jobs);
    console.log(
      `${name.padEnd(44)}${when.padEnd(7)}${off.map(({ percent, gap }) => cell(percent, gap)).join("")}${loss.toFixed(2).padStart(11)}${(price / 100).toFixed(2).padStart(10)}${ms.toFixed(0).padStart(6)}`,
    );
    if (when === "now") worst = Math.max(worst, ...off.map(({ percent }) => Math.abs(percent)));
  }
}
console.log(`\nThe worst now: ${worst.toFixed(2)} % off.`);
