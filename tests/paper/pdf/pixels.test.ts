/**
 * Text can be extracted from a page that shows none of it, so what is drawn is compared too: our cut fonts against the uncut font,
 * embedded whole by pdf-lib and @pdf-lib/fontkit at the same places, both drawn by pdftoppm (poppler).
 */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import fontkit from "@pdf-lib/fontkit";
import { PDFDocument, rgb } from "pdf-lib";
import { describe, expect, it } from "vitest";
import { COLOUR, STYLE } from "../../../src/documents/layout/style.js";
import { SHEETS } from "../../../src/documents/paper/writeFile.js";
import { printDocument } from "../../../src/documents/printDocument.js";
import { Paper, type Raster } from "./tool.js";

const packages = createRequire(import.meta.url);
const PLAIN = {
  regular: packages.resolve("@expo-google-fonts/ibm-plex-sans/400Regular/IBMPlexSans_400Regular.ttf"),
  bold: packages.resolve("@expo-google-fonts/ibm-plex-sans/600SemiBold/IBMPlexSans_600SemiBold.ttf"),
};
const DOTS = 150;
const [red, green, blue] = COLOUR.ink.split(" ").map(Number);
const { size, leading } = STYLE.strong;
const { side, top, height } = SHEETS.A4;

const SAMPLES = [
  ["figures and symbols", "0123456789 £1,234.56 € $ ¥ ₹ 4k7 Ω 2µ2 μ ±5 % ≥ ≤ × → ✓ ° ½ – — … · “a” ‘b’"],
  ["English", "The quick brown fox jumps over the lazy dog; THE QUICK BROWN FOX JUMPS OVER THE LAZY DOG!"],
  ["Czech", "Příliš žluťoučký kůň úpěl ďábelské ódy PŘÍLIŠ ŽLUŤOUČKÝ KŮŇ"],
  ["Polish and Turkish", "Zażółć gęślą jaźń ŁÓDŹ Pijamalı hasta yağız şoföre İIıi"],
  ["Vietnamese", "Nguyễn Thị Ổi ẳ ẵ ặ ộ ự"],
  ["Greek", "Ξεσκεπάζω την ψυχοφθόρα βδελυγμία ΞΕΣΚΕΠΑΖΩ ΤΗΝ ΨΥΧΟΦΘΟΡΑ ΒΔΕΛΥΓΜΙΑ"],
  ["Cyrillic", "Съешь же ещё этих мягких французских булок ЧУЄШ ЇХ, ДОЦЮ, ҐОЛЬФ"],
] as const;

/** Both weights, one line each: a heading cell of a table and a plain one. */
async function ours(text: string): Promise<Raster> {
  const { bytes } = await printDocument({
    title: "Sample",
    paper: "A4",
    page: (page: number, of: number) => `Page ${page} of ${of}`,
    language: "en",
    date: "2026-11-25",
    runningHead: "",
    foot: "",
    blocks: [
      { is: "paragraph", text },
      { is: "table", columns: [{ title: "", width: "rest" }], rows: [{ kind: "group", cells: [{ text }] }] },
    ],
  });
  return (await Paper.of(bytes)).raster(1, DOTS);
}

/** The same lines at the same places. The offsets are those of the setters: a paragraph starts the page; the group row follows an empty table head. */
async function reference(text: string, bold: string = text): Promise<Raster> {
  const document = await PDFDocument.create();
  document.registerFontkit(fontkit);
  const page = document.addPage([SHEETS.A4.width, SHEETS.A4.height]);
  const baseline = leading / 2 + size * 0.34;
  const first = top + baseline;
  const head = STYLE.tableHead.leading + 2 * 2.2;
  const second = top + leading + head + 6 + baseline;
  for (const [line, file, y] of [
    [text, PLAIN.regular, first],
    [bold, PLAIN.bold, second],
  ] as const) {
    const font = await document.embedFont(await readFile(file), { subset: false, features: { liga: false, kern: false } });
    page.drawText(line, { x: side, y: height - y, size, font, color: rgb(red!, green!, blue!) });
  }
  return (await Paper.of(await document.save())).raster(1, DOTS);
}

/** Share of the ink that differs, within the rows that hold the two lines */
function difference(one: Raster, other: Raster): number {
  expect([one.width, one.height]).toEqual([other.width, other.height]);
  let differs = 0;
  let ink = 0;
  for (const [from, to] of BANDS) {
    for (let at = from * one.width; at < to * one.width; at += 1) {
      const a = one.levels[at]! < 128;
      const b = other.levels[at]! < 128;
      if (a !== b) differs += 1;
      if (b) ink += 1;
    }
  }
  expect(ink).toBeGreaterThan(500);
  return differs / ink;
}
const pixels = (points: number): number => Math.round((points * DOTS) / 72);
const BANDS = [
  [pixels(top), pixels(top + leading)],
  [pixels(top + leading + STYLE.tableHead.leading + 4.4 + 6), pixels(top + 2 * leading + STYLE.tableHead.leading + 4.4 + 6 + 2)],
] as const;

describe("what is drawn", () => {
  it.each(SAMPLES)("is what the uncut font draws: %s", async (_, text) => {
    expect(difference(await ours(text), await reference(text))).toBeLessThan(0.005);
  });

  it.each(SAMPLES)("would be told apart with two letters gone: %s", async (_, text) => {
    const letters = [...text];
    letters.splice(3, 2, " ", " ");
    expect(difference(await ours(text), await reference(text, letters.join("")))).toBeGreaterThan(0.02);
  });
});
