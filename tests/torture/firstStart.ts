/** The first start on a disk that fails: it leaves with one sentence and no part of a shop, or serves a whole one; the next start serves. */
import { mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { check } from "../../src/tools/verify/check.js";
import { diskOf, type Failure } from "./failing.js";
import { npmStart, type Program, served } from "./server.js";

const empty: Program = (folder) => [...npmStart(folder), "--empty"];

/** A stack, a name of the inside. */
export const unplain = (said: string): boolean => /^\s+at |node_modules|SQLITE_|LibsqlError|DrizzleQueryError/m.test(said);

/** `step`: each of so many calls. */
export async function failedFirstStarts(ways: readonly Failure[], step: number) {
  const told: Record<string, Record<string, number>> = {};
  const faults: string[] = [];
  for (const how of ways)
    for (let nth = 1, last = false; !last; nth += step) {
      const folder = await mkdtemp(join(tmpdir(), "ohmwright-first-"));
      const disk = diskOf(folder);
      disk.fail(how, nth);
      const wrong = (what: string) => faults.push(`first start, call ${nth} ${how}: ${what}`);
      const start = async (env = {}) => {
        try {
          const server = await served(folder, empty, env);
          await server.kill();
          return { is: "serves", said: server.said() };
        } catch (error) {
          return { is: "leaves", said: (error as Error).message.replace("The server left: ", "").trim() };
        }
      };
      try {
        const first = await start(disk.env);
        last = disk.came().made < nth;
        const tally = told[how] ?? {};
        if (!last) told[how] = { ...tally, [first.is]: (tally[first.is] ?? 0) + 1 };
        const killed = how.startsWith("killed");
        if (unplain(first.said)) wrong(`says ${first.said.slice(0, 300)}`);
        if (first.is === "leaves" && !killed && first.said.split("\n").length !== 1) wrong(`not one sentence: ${first.said}`);
        const left = await readdir(folder);
        if (first.is === "leaves" && !killed && left.some((name) => name.startsWith(".filling")))
          wrong(`leaves ${left.join(", ")}`);
        const next = await start();
        if (next.is !== "serves") wrong(`the next start leaves: ${next.said.slice(0, 300)}`);
        const verified = await check(["--data", folder], {});
        if (verified.code !== 0) wrong(`verify: ${verified.said}`);
      } finally {
        disk.close();
        await rm(folder, { recursive: true, force: true });
      }
    }
  return { told, faults };
}
