import { readdir, readFile } from "node:fs/promises";
import { expect, it } from "vitest";

const STYLE = new URL("../../src/pages/style/", import.meta.url);

it("pages are set in the five sizes of the type scale and in two weights; pictures have their own", async () => {
  const sizes = new Set<string>();
  const weights = new Set<string>();
  for (const file of (await readdir(STYLE)).filter((name) => name.endsWith(".css") && name !== "print.css")) {
    const css = await readFile(new URL(file, STYLE), "utf8");
    for (const [, size] of css.matchAll(/font-size: ([^;]+);/g)) if (!/px$/.test(size!)) sizes.add(size!);
    for (const [, weight] of css.matchAll(/font-weight: ([^;]+);/g)) weights.add(weight!);
  }
  expect([...sizes].sort()).toEqual(["100%", "var(--hint)", "var(--small)", "var(--type-1)", "var(--type-2)", "var(--type-3)"]);
  expect([...weights].sort()).toEqual(["400", "600"]);
});
