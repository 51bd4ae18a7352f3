/** A revision on paper: what changed adds up as pdftotext (poppler) reads it, and stays on the paper. */
import { describe, expect, it } from "vitest";
import { benchSheetPdf } from "../../../src/documents/benchSheetPdf.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { unagreed } from "../../../src/estimating/agreement/workLog.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { KEYBOARD, priced, withItems } from "../../documents/support/cast.js";
import { EARLIER, REVISED } from "../../documents/support/revision.js";
import { Paper } from "./tool.js";

const AMOUNTS = /[+-]?£[\d,]+\.\d\d/g;
const amountsOf = (line: string): number[] => [...line.matchAll(AMOUNTS)].map(([text]) => Number(text.replaceAll(/[£,.+]/g, "")));
const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);

function between(lines: readonly string[], from: RegExp, to: RegExp): string[] {
  const start = lines.findIndex((line) => from.test(line));
  const end = lines.findIndex((line, index) => index > start && to.test(line));
  if (start < 0 || end < 0) throw new Error(`Nothing between ${from} and ${to}`);
  return lines.slice(start + 1, end);
}

describe("a revised estimate", () => {
  it("prints causes that add up to the difference, and the difference to the total now", async () => {
    const paper = await Paper.of((await estimatePdf(priced(REVISED), REVISED, { earlier: EARLIER })).bytes);
    await paper.check();
    const lines = (await paper.pages()).join("\n").split("\n");
    const causes = between(lines, /^\s*Why the total changed/, /^\s*Difference\s/).flatMap(amountsOf);
    const at = (start: RegExp) => amountsOf(lines.find((line) => start.test(line))!)[0]!;
    const difference = at(/^\s*Difference\s+[+-]/);
    expect(causes.length).toBeGreaterThan(4);
    expect(sum(causes)).toBe(difference);
    expect(at(/^\s*Total of revision 1/) + difference).toBe(at(/^\s*Total now, tax included/));
    const rows = between(lines, /^\s*Work, parts and charges/, /^\s*Without tax/)
      .filter((line) => /[+−≠±]\s(Added|Dropped|Corrected|Price changed)/.test(line))
      .map((line) => amountsOf(line).at(-1)!);
    expect(rows.length).toBeGreaterThan(8);
    expect(sum(rows)).toBe(amountsOf(lines.find((line) => /^\s*Without tax/.test(line))!)[2]);
  });

  it("keeps every row, bar and word on the paper, 120 changed rows over pages with their head", async () => {
    const before = withItems(120);
    const after: EstimateInput = { ...before, items: before.items.map((item) => ({ ...item, count: item.count + 1 })) };
    const earlier = { input: before, sheet: priced(before), revision: 1 };
    const paper = await Paper.of((await estimatePdf(priced(after), after, { earlier })).bytes);
    await paper.check();
    const pages = await paper.pages();
    const first = pages.findIndex((page) => page.includes("What changed since revision 1"));
    const last = pages.findIndex((page) => /^\s*All that did not change/m.test(page));
    expect(last).toBeGreaterThan(first + 2);
    for (const page of pages.slice(first + 1, last + 1))
      expect(page).toMatch(/^\s*Work, parts and charges\s+Change\s+Was\s+Is now\s+Difference/m);
    const { width, levels } = await paper.raster(pages.length - 2, 36);
    expect(levels.every((level, at) => level === 255 || (at % width > 14 && at % width < width - 14))).toBe(true);
  });

  it("draws a bar beside a changed row and none beside the others", async () => {
    const dark = async (earlier?: typeof EARLIER) => {
      const paper = await Paper.of((await estimatePdf(priced(REVISED), REVISED, { earlier })).bytes);
      const page = (await paper.pages()).findLastIndex((text) => text.includes("Open and refit Mains transformer")) + 1;
      const { width, levels } = await paper.raster(page, 144);
      // The bar stands 9 points left of the margin of 46, 1.8 wide: two dots to a point.
      return levels.filter((level, at) => at % width >= 74 && at % width <= 77 && level < 140).length;
    };
    expect(await dark(EARLIER)).toBeGreaterThan(60);
    expect(await dark()).toBe(0);
  });
});

describe("a bench sheet with work that is not agreed", () => {
  it("says so in words that pdftotext finds beside the work", async () => {
    const { bytes } = await benchSheetPdf(priced(REVISED), REVISED, { unagreed: unagreed(REVISED, KEYBOARD) });
    const paper = await Paper.of(bytes);
    await paper.check();
    const text = await paper.text();
    expect(text).toContain("Stop: not all of this is agreed");
    expect(text).toContain("Resolder joints, each × Not agreed: it is not in the revision the owner agreed to.");
    expect(text).toContain("Mains lead, moulded plug, 3 m × Not agreed: do not order.");
  });
});

describe("the foot of a page", () => {
  it("carries the head of the job's record, however long the shop's name is", async () => {
    const input: EstimateInput = {
      ...KEYBOARD,
      paperwork: { ...KEYBOARD.paperwork, shop: { name: "Lanternfold ".repeat(20) }, chainHead: "14:9f3a77c0d1e2" },
    };
    for (const print of [estimatePdf, benchSheetPdf])
      for (const page of await (await Paper.of((await print(priced(input), input)).bytes)).pages())
        expect(page).toContain("Record 14:9f3a77c0d1e2");
  });
});
