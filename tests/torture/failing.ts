/** A disk that fails when it is told to: failing.c, compiled, and what a server is started with so that its files stand on it. */
import { spawnSync } from "node:child_process";
import { closeSync, mkdtempSync, openSync, readSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

/** In the order of failing.c. */
const HOW = [
  "nothing",
  "fails once",
  "fails from then on",
  "full",
  "cut short",
  "read-only",
  "killed after",
  "killed halfway",
] as const;
export type Failure = Exclude<(typeof HOW)[number], "nothing">;
export const FAILURES = HOW.filter((how) => how !== "nothing");

export interface Disk {
  /** What the server is started with. */
  readonly env: Readonly<Record<string, string>>;
  /** From now on: the n-th call from here fails so. */
  readonly fail: (how: Failure, nth: number) => void;
  /** How many calls there were since, and how many of them failed. */
  readonly came: () => Came;
  /** None fails any more. */
  readonly mend: () => void;
  readonly close: () => void;
}

export interface Came {
  readonly made: number;
  readonly failed: number;
}

/** Why there is no such disk here; undefined where there is. */
export function noDisk(): string | undefined {
  if (process.platform !== "linux") return `Files are made to fail by LD_PRELOAD, which ${process.platform} does not have.`;
  return spawnSync("gcc", ["--version"]).status === 0
    ? undefined
    : "Files are made to fail by a few lines of C, and there is no gcc.";
}

let compiled: { readonly folder: string; readonly made: string; disks: number } | undefined;

function shim() {
  if (compiled) return compiled;
  const folder = mkdtempSync(join(tmpdir(), "ohmwright-failing-"));
  process.once("exit", () => rmSync(folder, { recursive: true, force: true }));
  const made = join(folder, "failing.so");
  const gcc = spawnSync("gcc", ["-Wall", "-Werror", "-shared", "-fPIC", "-O1", "-o", made, "tests/torture/failing.c", "-ldl"]);
  if (gcc.status !== 0) throw new Error(noDisk() ?? `gcc does not take failing.c: ${gcc.stderr}`);
  compiled = { folder, made, disks: 0 };
  return compiled;
}

const INTEGERS = 4;

/** Of one server, and of the files under `folder`. */
export function diskOf(folder: string): Disk {
  const lib = shim();
  lib.disks += 1;
  const at = join(lib.folder, `wanted-${lib.disks}`);
  const file = openSync(at, "w+");
  const set = (...values: readonly number[]) => void writeSync(file, Int32Array.from(values), 0, undefined, 0);
  set(0, 0, 0, 0);
  return {
    env: { LD_PRELOAD: lib.made, FAILING_CONTROL: at, FAILING_FOLDER: `${resolve(folder)}/`, UV_USE_IO_URING: "0" },
    fail: (how, nth) => set(nth, HOW.indexOf(how), 0, 0),
    came: () => {
      const now = new Int32Array(INTEGERS);
      readSync(file, now, 0, now.byteLength, 0);
      return { made: now[2]!, failed: now[3]! };
    },
    mend: () => set(0, 0, 0, 0),
    close: () => {
      closeSync(file);
      rmSync(at);
    },
  };
}
