import { describe, expect, it } from "vitest";
import { parties } from "../../src/documents/estimate/parties.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import { isFault } from "../../src/documents/picture/picture.js";
import { readPicture } from "../../src/documents/picture/readPicture.js";
import { jpeg, png } from "./picture/files.js";
import { KEYBOARD, priced } from "./support/cast.js";
import { textsOf } from "./support/texts.js";

const sheet = priced(KEYBOARD);
const FOOTER = ["Pindrake Bank, account 0000 (demo)", "Open by appointment"];

async function printed(file?: Uint8Array, footer?: readonly string[]): Promise<string> {
  const logo = file && (await readPicture(file));
  if (logo && isFault(logo)) throw new Error(logo.is);
  const input = { ...KEYBOARD, paperwork: { ...KEYBOARD.paperwork, ...(footer && { footer }) } };
  return Buffer.from((await estimatePdf(sheet, input, { logo })).bytes).toString("latin1");
}

describe("the head of an owner's document", () => {
  const logo = png({ width: 400, height: 40, colour: "rgb", at: (x, y) => [x % 256, y * 6, 90] });

  it("carries the logo once, with what it shows told to readers, and the same bytes each time", async () => {
    const pdf = await printed(logo);
    expect(pdf.match(/\/Subtype \/Image/g)).toHaveLength(1);
    expect(pdf.match(/\/Ilogo Do/g)).toHaveLength(1);
    expect(pdf).toMatch(/190 0 0 19 46 [\d.]+ cm \/Ilogo Do/);
    expect(pdf).toMatch(/\/S\/Figure[^>]*\/A<<\/O\/Layout\/BBox\[46 [\d. ]+\]>>\/Alt<FEFF004C006F0067006F/);
    expect(await printed(logo)).toBe(pdf);
    expect(await printed(jpeg(400, 40))).toMatch(/\/Filter \/DCTDecode/);
  });

  it("gives a file with another logo another identifier, though the pages say the same", async () => {
    const id = (pdf: string) => /\/ID \[ <([0-9a-f]{32})>/.exec(pdf)![1];
    const other = png({ width: 400, height: 40, colour: "rgb", at: (x, y) => [x % 256, y * 6, 91] });
    expect(id(await printed(other))).not.toBe(id(await printed(logo)));
  });

  it("says what came with the unit only where somebody looked", () => {
    const { accessories: _, ...unit } = KEYBOARD.unit;
    const told = (more: object) => textsOf(parties(subjectOf(sheet, { ...KEYBOARD, unit: { ...unit, ...more } })));
    for (const unsaid of [{}, { accessories: [] }]) expect(told(unsaid)).not.toContain("Came with");
    expect(told({ accessories: ["none"] })).toEqual(expect.arrayContaining(["Came with", "none"]));
  });

  it("has the footer on every page, once as text and then as furniture", async () => {
    const plain = await printed();
    const pdf = await printed(undefined, FOOTER);
    const pages = pdf.match(/\/Type\/Page\/Parent/g)!.length;
    const furniture = (text: string) => text.match(/Pagination\/Subtype\/Footer/g)!.length;
    expect(furniture(pdf)).toBeGreaterThanOrEqual(pages);
    expect(pdf.match(/\/S\/P\/P/g)!.length).toBe(plain.match(/\/S\/P\/P/g)!.length + FOOTER.length);
  });
});
