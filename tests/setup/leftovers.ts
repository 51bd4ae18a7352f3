/** Folders of a run bear the id of its process: what a killed run left behind is taken away by the next. */
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";

const NAME = "ohmwright-tests-";

export const folderOfRun = (within: string): string => mkdtempSync(join(within, `${NAME}${process.pid}-`));

export function removeLeftovers(within: string): void {
  for (const name of readdirSync(within)) {
    const [, run] = new RegExp(`^${NAME}(\\d+)-`).exec(name) ?? [];
    if (run === undefined || isAlive(Number(run))) continue;
    try {
      rmSync(join(within, name), { recursive: true, force: true });
    } catch {
      // Somebody else's.
    }
  }
}

function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (fault) {
    return (fault as NodeJS.ErrnoException).code !== "ESRCH";
  }
}
