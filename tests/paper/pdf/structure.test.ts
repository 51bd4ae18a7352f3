/** Both documents of every demo job under tools that are not ours: qpdf (structure), pdffonts and pdfinfo (poppler). */
import { describe, expect, it } from "vitest";
import { benchSheetPdf } from "../../../src/documents/benchSheetPdf.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { CAST, KEYBOARD, priced } from "../../documents/support/cast.js";
import { Paper } from "./tool.js";

const DOCUMENTS = [
  ["estimate", estimatePdf],
  ["bench sheet", benchSheetPdf],
] as const;
const everything = CAST.flatMap(([name, input]) =>
  DOCUMENTS.map(([kind, print]) => [`${kind} of the ${name}`, input, print] as const),
);
type Print = (...about: [ReturnType<typeof priced>, EstimateInput]) => ReturnType<typeof estimatePdf>;
const printed = async (print: Print, input: EstimateInput) => Paper.of((await print(priced(input), input)).bytes);

describe("the file", () => {
  it.each(everything)("has no error that qpdf can find: %s", async (_, input, print) => {
    expect(await (await printed(print, input)).check()).toContain("No syntax or stream encoding errors found");
  });

  it.each(everything)("embeds every font, with a map back to text: %s", async (_, input, print) => {
    const rows = (await (await printed(print, input)).fonts()).trim().split("\n").slice(2);
    expect(rows.length).toBeGreaterThanOrEqual(2);
    for (const row of rows) expect(row).toMatch(/OhmwrightText-\w+\s+CID TrueType\s+Identity-H\s+yes yes yes/);
  });

  it("embeds only the packs that the text needs", async () => {
    const fonts = async (name: string) => {
      const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, owner: { name } } };
      return (await (await printed(estimatePdf, input)).fonts()).trim().split("\n").length - 2;
    };
    expect(await fonts("Ada Fenwick")).toBe(2);
    expect(await fonts("Žofie Kapradinová")).toBe(3);
    expect(await fonts("Žofie Λάμπρου Ежова")).toBe(5);
  });

  it.each([
    ["A4", "595.28 x 841.89 pts (A4)"],
    ["Letter", "612 x 792 pts (letter)"],
  ] as const)("is printed on %s", async (size, expected) => {
    const input: EstimateInput = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, paper: size } };
    expect(await (await printed(estimatePdf, input)).info()).toContain(`Page size:       ${expected}`);
  });

  it("has a title, fixed dates, and is tagged with headings and tables", async () => {
    const paper = await printed(estimatePdf, KEYBOARD);
    const info = await paper.info("-isodates");
    expect(info).toContain("Title:           Estimate · J-2026-0001, revision 1 · Quellmarsh Solivane 49");
    expect(info).toContain("CreationDate:    2026-11-25T00:00:00Z");
    expect(info).toContain("Tagged:          yes");
    const tags = await paper.info("-struct-text");
    expect(tags).toMatch(/H1 \(block\)\s+"Estimate"/);
    expect(tags).toMatch(/H2 \(block\)\s+"Work and parts"/);
    expect(tags).toMatch(/TR\s+TH:?[\s\S]*?"Item"/);
    expect(tags).toMatch(/TD\s+"Open and refit Lid"/);
    expect(tags).not.toContain("Page 1 of");
  });
});
