/** Mutants that no test notices and the compiler does: tried in a copy of the source, one of each file at a time. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Placed } from "./known.js";

export async function refusedByTypes(those: ReadonlyMap<number, Placed>): Promise<Set<number>> {
  const rooms = [...new Set([...those.values()].map(({ file }) => file.split("/").slice(0, 2).join("/")))];
  const refused = new Set<number>();
  if (those.size === 0) return refused;
  const copy = mkdtempSync(join(tmpdir(), "ohmwright-mutants-"));
  cpSync("src", join(copy, "src"), { recursive: true });
  symlinkSync(resolve("node_modules"), join(copy, "node_modules"));
  const { compilerOptions } = JSON.parse(readFileSync("tsconfig.json", "utf8")) as { compilerOptions: object };
  // A name no longer used is no reason: the change it comes of would be refused whatever it does.
  const options = { ...compilerOptions, noUnusedLocals: false, noUnusedParameters: false, incremental: true };
  writeFileSync(join(copy, "tsconfig.json"), JSON.stringify({ compilerOptions: options, include: rooms }));

  const waiting = new Map<string, [number, Placed][]>();
  for (const [id, mutant] of those) waiting.set(mutant.file, [...(waiting.get(mutant.file) ?? []), [id, mutant]]);
  while (waiting.size > 0) {
    for (const [file, [first]] of waiting) {
      const { whole, block } = first![1];
      const text = readFileSync(file, "utf8");
      writeFileSync(
        join(copy, file),
        text.slice(0, whole.from) + (block ? whole.becomes : `(${whole.becomes})`) + text.slice(whole.to),
      );
    }
    const { stdout } = spawnSync("npx", ["--no-install", "tsc", "--noEmit", "--pretty", "false"], {
      cwd: copy,
      encoding: "utf8",
    });
    for (const [file, own] of waiting) {
      const [id] = own.shift()!;
      // An error elsewhere may be another mutant's, so only one in the file itself counts.
      if (stdout.split("\n").some((line) => line.startsWith(`${file}(`))) refused.add(id);
      cpSync(file, join(copy, file));
      if (own.length === 0) waiting.delete(file);
    }
  }
  rmSync(copy, { recursive: true });
  return refused;
}
