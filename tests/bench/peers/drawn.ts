/** The lines of text that a paper of ours draws, read back from its pages: what the peers are given to draw. */
import { PDFArray, PDFDocument, PDFName, PDFRawStream } from "pdf-lib";
import { cuts } from "../../../src/documents/type/typeface.js";

export interface DrawnLine {
  readonly text: string;
  readonly bold: boolean;
  readonly size: number;
  /** Points from the left, and of the baseline from the top of the page. */
  readonly x: number;
  readonly y: number;
}

export interface Drawn {
  readonly width: number;
  readonly height: number;
  readonly pages: readonly (readonly DrawnLine[])[];
}

const CODES = String.raw`\(((?:\\.|[^\\)])*)\)Tj`;
const LINE = new RegExp(String.raw`BT (\/F\d+ [\d.]+ Tf )?([\d.]+) ([\d.]+) Td((?:(?:\/F\d+ [\d.]+ Tf )?${CODES})+) ET\n`, "gs");
/** A font of its own for what another cut draws of the line. */
const RUN = new RegExp(`(?:/F(\\d+) [\\d.]+ Tf )?${CODES}`, "gs");

export async function drawnOf(bytes: Uint8Array): Promise<Drawn> {
  const pdf = await PDFDocument.load(bytes);
  const { width, height } = pdf.getPage(0).getSize();
  return { width, height, pages: pdf.getPages().map(({ node }) => linesOf(textOf(node.Contents()), height)) };
}

function textOf(contents: unknown): string {
  if (!(contents instanceof PDFRawStream) || contents.dict.get(PDFName.of("Filter")) instanceof PDFArray)
    throw new Error("A page of ours is one stream as it stands.");
  return Buffer.from(contents.contents).toString("latin1");
}

function linesOf(content: string, height: number): DrawnLine[] {
  const lines: DrawnLine[] = [];
  let [cut, size] = [0, 0];
  for (const [, font, x, y, runs] of content.matchAll(LINE)) {
    if (font !== undefined) [cut, size] = font.match(/[\d.]+/g)!.map(Number) as [number, number];
    let text = "";
    for (const [, another, codes] of runs!.matchAll(RUN)) {
      if (another !== undefined) cut = Number(another);
      text += read(codes!, cut);
    }
    lines.push({ text, bold: cut % 2 === 1, size, x: Number(x), y: height - Number(y) });
  }
  if (lines.length !== content.split("BT ").length - 1) throw new Error("Some text of the page was not read.");
  return lines;
}

/** Two-byte codes of an escaped literal string, as the cut has them. */
function read(codes: string, cut: number): string {
  const { characters, glyphs } = cuts[cut]!;
  const places = new Map(glyphs.map((glyph, place) => [glyph, place]));
  const list = [...characters];
  const bytes = codes.replaceAll(/\\(.)/gs, (_, escaped: string) => (escaped === "r" ? "\r" : escaped));
  let text = "";
  for (let at = 0; at < bytes.length; at += 2)
    text += list[places.get((bytes.charCodeAt(at) << 8) | bytes.charCodeAt(at + 1))!] ?? "";
  return text;
}
