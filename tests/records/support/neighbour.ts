/** Another process with the same file open, as a backup tool or a database browser is. */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { onTestFinished } from "vitest";

export interface Neighbour {
  /** Runs one statement there; throws what it is refused with. */
  readonly run: (sql: string) => Promise<readonly Record<string, unknown>[]>;
  readonly count: (table: string) => Promise<unknown>;
}

export async function neighbour(path: string): Promise<Neighbour> {
  const program = spawn(process.execPath, ["--import", "tsx", "tests/records/support/neighbourProcess.ts", path], {
    stdio: ["pipe", "pipe", "inherit"],
  });
  onTestFinished(async () => {
    program.stdin.end();
    if (program.exitCode === null) await once(program, "exit");
  });
  const lines = createInterface({ input: program.stdout })[Symbol.asyncIterator]();
  const run: Neighbour["run"] = async (sql) => {
    program.stdin.write(`${sql}\n`);
    const said = JSON.parse((await lines.next()).value) as { rows: Record<string, unknown>[] } | { refused: string };
    if ("refused" in said) throw new Error(said.refused);
    return said.rows;
  };
  return { run, count: async (table) => (await run(`SELECT count(*) AS n FROM ${table}`))[0]!.n };
}
