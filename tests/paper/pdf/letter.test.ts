/** The letter on paper, under tools that are not ours: qpdf (structure), pdftotext and pdfinfo (poppler). */
import { describe, expect, it } from "vitest";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { asLetter, CAST, KEYBOARD, priced, SUMMARY } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

describe("the letter", () => {
  it.each(CAST)("is one page on A4, in English and in German: %s", async (_, input) => {
    for (const language of ["en", "de"]) {
      const letter = { ...asLetter(input), paperwork: { ...asLetter(input).paperwork, language } };
      const paper = await Paper.of((await estimatePdf(priced(input), letter)).bytes);
      await paper.check();
      const pages = await paper.pages();
      expect([language, pages.length]).toEqual([language, 1]);
      expect(pages[0]).toContain(language === "de" ? "Nie mehr als" : "Never more than");
    }
  });

  it("is tagged: title, headings, the words, and a table with its heads", async () => {
    const letter = asLetter(KEYBOARD);
    const paper = await Paper.of((await estimatePdf(priced(KEYBOARD), letter)).bytes);
    expect(await paper.info("-isodates")).toContain("Tagged:          yes");
    const tags = await paper.info("-struct-text");
    expect(tags).toMatch(/H1 \(block\)\s+"Estimate"/);
    expect(tags).toMatch(/H2 \(block\)\s+"What is wrong, and what we will do"/);
    expect(tags.replaceAll(/\s+/g, " ")).toContain(SUMMARY.slice(0, 60));
    expect(tags).toMatch(/TH:\s+\/Scope \/Column\s+"We may find, and then do without asking again"/);
  });
});
