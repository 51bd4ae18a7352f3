/** The workbook in LibreOffice Calc: opened, worked out and printed by a new process, and by one that already runs. Wall and processor time. */
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Taken } from "../perCall.js";

interface Resident {
  /** Every formula worked out. */
  readonly calculated: Taken;
  /** The same, and printed: the workbook stays open. */
  readonly again: Taken;
  /** Opened, worked out, printed and closed. */
  readonly anew: Taken;
  /** Name and amount, as the workbook came to them. */
  readonly totals: readonly (readonly [string, string])[];
}

export interface Office {
  readonly fresh: Taken;
  /** Absent: why not. */
  readonly resident: Resident | string;
}

const ROUNDS = { fresh: 3, resident: 20 };
const RESIDENT = fileURLToPath(new URL("resident.py", import.meta.url));
/** Debian's, for which its bridge to the office is. */
const PYTHON = "/usr/bin/python3";

/** undefined: there is no LibreOffice here. */
export async function inOffice(workbook: string, figures: readonly string[]): Promise<Office | undefined> {
  if (spawnSync("sh", ["-c", "command -v soffice"]).status !== 0) return undefined;
  const folder = mkdtempSync(join(tmpdir(), "ohmwright-office-"));
  try {
    const file = join(folder, "estimate.fods");
    writeFileSync(file, workbook);
    const fresh = freshly(folder, file);
    const bridge = spawnSync(PYTHON, ["-c", "import uno"]).status === 0;
    const resident = bridge ? await residing(folder, file, figures) : "python3-uno is not on this machine";
    return { fresh, resident };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const profileOf = (folder: string) => `-env:UserInstallation=${pathToFileURL(join(folder, "profile")).href}`;

/** The first start makes the profile, and is not counted. */
function freshly(folder: string, file: string): Taken {
  const once = (): Taken => {
    const command = 'soffice "$@" >/dev/null 2>&1; times';
    const began = performance.now();
    const said = execFileSync("sh", [
      ...["-c", command, "sh", profileOf(folder), "--headless"],
      ...["--convert-to", "pdf:calc_pdf_Export", "--outdir", folder, file],
    ]);
    return { wall: performance.now() - began, cpu: childrenOf(said.toString()) };
  };
  once();
  const all = Array.from({ length: ROUNDS.fresh }, once);
  return { wall: Math.min(...all.map(({ wall }) => wall)), cpu: Math.min(...all.map(({ cpu }) => cpu)) };
}

/** POSIX `times`: user and system time of the shell, then of its children, as '0m1.23s'. */
function childrenOf(times: string): number {
  const [user, system] = times.trim().split("\n")[1]!.split(" ");
  const ms = (text: string) => {
    const [, minutes, seconds] = /^(\d+)m([\d.]+)s$/.exec(text)!;
    return 60_000 * Number(minutes) + 1000 * Number(seconds);
  };
  return ms(user!) + ms(system!);
}

async function residing(folder: string, file: string, figures: readonly string[]): Promise<Resident> {
  const pipe = `ohmwright-${process.pid}`;
  const office = spawn("soffice", [profileOf(folder), "--headless", "--norestore", `--accept=pipe,name=${pipe};urp;`], {
    detached: true,
    stdio: "ignore",
  });
  const left = new Promise((done) => office.once("exit", done));
  try {
    const asked = [pipe, String(office.pid), file, join(folder, "resident.pdf"), String(ROUNDS.resident), figures.join(",")];
    return JSON.parse(execFileSync(PYTHON, [RESIDENT, ...asked]).toString()) as Resident;
  } finally {
    if (office.exitCode === null) process.kill(-office.pid!);
    await left;
  }
}
