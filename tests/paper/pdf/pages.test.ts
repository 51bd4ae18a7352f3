/** Page breaks of long documents, read back by pdftotext (poppler). */
import { describe, expect, it } from "vitest";
import { benchSheetPdf } from "../../../src/documents/benchSheetPdf.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { KEYBOARD, priced, TAPE_ECHO, withItems } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

const onPaper = (input: EstimateInput, paper: "A4" | "Letter"): EstimateInput => ({
  ...input,
  paperwork: { ...input.paperwork, paper },
});
const printed = async (input: EstimateInput) => Paper.of((await estimatePdf(priced(input), input)).bytes);
const HEAD = /^\s*Item\s+Count\s+Time\s+Each\s+Amount/m;
/** A line of the ledger ends with an amount. */
const LEDGER_LINE = /\S.*\s-?£[\d,]+\.\d\d$/;

describe("page breaks", () => {
  for (const size of ["A4", "Letter"] as const) {
    it.each([1, 2, 5, 12, 40, 100, 400])(
      `heads every page of a ledger and keeps its sums with their last line: %i items on ${size}`,
      async (count) => {
        const input = onPaper(withItems(count), size);
        const paper = await printed(input);
        await paper.check();
        const pages = await paper.pages();
        pages.forEach((page, index) => {
          expect(page).toContain(`Page ${index + 1} of ${pages.length}`);
          if (index > 0) expect(page).toContain("Estimate · J-2026-0002");
        });
        const start = pages.findIndex((page) => HEAD.test(page));
        const end = pages.findIndex((page) => /^\s*Sum of the lines/m.test(page));
        expect(end).toBeGreaterThanOrEqual(start);
        for (const page of pages.slice(start, end + 1)) expect(page).toMatch(HEAD);
        const last = pages[end]!.split("\n");
        const sumAt = last.findIndex((line) => /^\s*Sum of the lines/.test(line));
        const headAt = last.findIndex((line) => HEAD.test(line));
        expect(last.slice(headAt + 1, sumAt).filter((line) => LEDGER_LINE.test(line.trimEnd())).length).toBeGreaterThan(0);
        expect(pages[end]).toMatch(/^\s*Total, tax included/m);
        const answer = pages.find((page) => page.includes("Your answer"))!;
        for (const word of ["I agree to this estimate", "I decline", "Signature"]) expect(answer).toContain(word);
      },
    );
  }

  it("prints every line of a 400-item estimate exactly once", async () => {
    const input = withItems(400);
    const amounts = priced(input).lines.length;
    const text = (await (await printed(input)).pages()).join("\n");
    const ledger = text.slice(text.search(HEAD), text.search(/^\s*Sum of the lines/m)).split("\n");
    expect(ledger.filter((line) => LEDGER_LINE.test(line.trimEnd()))).toHaveLength(amounts);
  });

  it("wraps 10,000 characters of notes over pages without losing a word", async () => {
    const words = Array.from({ length: 1600 }, (_, index) => `w${index}`)
      .join(" ")
      .slice(0, 10_000);
    const input: EstimateInput = { ...TAPE_ECHO, unit: { ...TAPE_ECHO.unit, found: words, condition: "x".repeat(10_000) } };
    for (const print of [estimatePdf, benchSheetPdf]) {
      const paper = await Paper.of((await print(priced(input), input)).bytes);
      await paper.check();
      const text = (await paper.pages())
        .map((page) =>
          page
            .split("\n")
            .filter((line) => !/Page \d+ of|^\s*(Estimate|Bench sheet) ·/.test(line))
            .join(" "),
        )
        .join(" ");
      const seen = [...text.matchAll(/\bw\d+\b/g)].map(([word]) => word);
      expect(seen).toEqual(words.split(" "));
      expect(text.match(/x{2,}/g)!.join("").length).toBeGreaterThanOrEqual(10_000);
    }
  });

  it("keeps every mark inside the paper, however long a name is", async () => {
    const long = "Ж".repeat(2000);
    const input: EstimateInput = {
      ...KEYBOARD,
      map: {
        ...KEYBOARD.map!,
        assemblies: KEYBOARD.map!.assemblies.map((assembly) => ({ ...assembly, name: `${assembly.id}${long.slice(0, 400)}` })),
      },
      unit: { ...KEYBOARD.unit, maker: long, serial: long },
      paperwork: { ...KEYBOARD.paperwork, owner: { name: long, address: [long] }, shop: { name: long } },
    };
    const paper = await printed(input);
    await paper.check();
    for (let page = 1; page <= (await paper.pages()).length; page += 1) {
      const { width, height, levels } = await paper.raster(page, 36);
      const inMargin = levels.filter((_, at) => {
        const x = at % width;
        const y = Math.floor(at / width);
        return x < 18 || x >= width - 18 || y < 14 || y >= height - 10;
      });
      expect(inMargin.every((level) => level === 255)).toBe(true);
    }
  });
});
