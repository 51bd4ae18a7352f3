/** Both documents of every demo job under tools that are not ours: qpdf (structure), pdffonts and pdfinfo (poppler). */
import { describe, expect, it } from "vitest";
import { benchSheetPdf } from "../../../src/documents/benchSheetPdf.js";
import { estimatePdf } from "../../../src/documents/estimatePdf.js";
import { isFault } from "../../../src/documents/picture/picture.js";
import { readPicture } from "../../../src/documents/picture/readPicture.js";
import type { EstimateInput } from "../../../src/estimating/input.js";
import { png } from "../../documents/picture/files.js";
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
    expect(tags).toMatch(/TD\s+"Open and refit Lid "/);
    expect(tags).not.toContain("Page 1 of");
  });

  it("is tagged with lists, and with the heads of columns and of sums, and reads texts of one cell apart", async () => {
    const tags = await (await printed(estimatePdf, KEYBOARD)).info("-struct-text");
    expect(tags).toMatch(/L \(block\)\s+LI \(block\)\s+Lbl \(block\)\s+"Number"\s+LBody \(block\)\s+"J-2026-0001, revision 1"/);
    expect(tags).toMatch(/L \(block\)\s+LI \(block\)\s+LBody \(block\)\s+"1\. /);
    expect(tags).toMatch(/TH:\s+\/Scope \/Column\s+"Item"/);
    expect(tags).toMatch(
      /TH:\s+\/ColSpan 4\s+\/Scope \/Row\s+"Sum of the lines"|TH:\s+\/Scope \/Row\s+\/ColSpan 4\s+"Sum of the lines"/,
    );
    expect(tags).toContain('"Organ contact rail: Clean key contacts × 49 notes drop out"');
    expect(tags).toContain('"19 Larkholt Rise Nether Wimslake QX1 7ZA"');
  });

  it("is German throughout, with a logo of the colour it was given and see-through where it was", async () => {
    const logo = await readPicture(
      png({ width: 120, height: 40, colour: "rgb and alpha", at: (x) => [0, 0, 0, x < 60 ? 255 : 0] }),
    );
    const paperwork = { ...KEYBOARD.paperwork, language: "de", locale: "de-AT", footer: ["Bankverbindung: demo"] };
    const { bytes } = await estimatePdf(priced(KEYBOARD), { ...KEYBOARD, paperwork }, { logo: isFault(logo) ? undefined : logo });
    const paper = await Paper.of(bytes);
    expect(await paper.check()).toContain("No syntax or stream encoding errors found");
    const tags = await paper.info("-struct-text");
    expect(tags).toMatch(/Figure:\s+\/BBox \[46 [\d. ]+\]\s+""\s+P \(block\)\s+"Lanternfold Electronics Repair"/);
    expect(tags).toMatch(/H1 \(block\)\s+"Kostenvoranschlag"/);
    expect(tags.match(/"Bankverbindung: demo"/g)).toHaveLength(1);
    expect((await paper.text()).match(/Bankverbindung: demo/g)!.length).toBe((await paper.pages()).length);
    const { width, levels } = await paper.raster(1, 72);
    const at = (x: number, y: number) => levels[y * width + x]!;
    expect([at(60, 50), at(130, 50)]).toEqual([0, 255]);
  });
});
