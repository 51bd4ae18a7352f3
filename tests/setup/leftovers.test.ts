import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { expect, it } from "vitest";
import { folderOfRun, removeLeftovers } from "./leftovers.js";

it("takes away what a run left that is dead, and nothing else", () => {
  const within = mkdtempSync(join(tmpdir(), "leftovers-"));
  const mine = basename(folderOfRun(within));
  const { pid } = spawnSync(process.execPath, ["--version"]);
  const dead = join(within, `ohmwright-tests-${pid}-x1`);
  mkdirSync(dead);
  writeFileSync(join(dead, "shop.db"), "");
  mkdirSync(join(within, "ohmwright-tests-old"));
  removeLeftovers(within);
  expect(readdirSync(within).toSorted()).toEqual([mine, "ohmwright-tests-old"].toSorted());
});
