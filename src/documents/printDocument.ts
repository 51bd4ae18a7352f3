import type { Block } from "./layout/block.js";
import { type Placed, paginate } from "./layout/paginate.js";
import { setBlocks } from "./layout/setBlocks.js";
import { setText } from "./layout/setText.js";
import type { Strip } from "./layout/strip.js";
import { STYLE } from "./layout/style.js";
import { Tag } from "./layout/tag.js";
import { Pen } from "./paper/pen.js";
import { SHEETS } from "./paper/sheetSize.js";
import { writeFile } from "./paper/writeFile.js";
import { Missing } from "./type/shape.js";
import { fetchPacksFor } from "./type/typeface.js";

export interface PrintedDocument {
  readonly title: string;
  readonly paper: "A4" | "Letter";
  readonly language: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** Printed at the top of every page but the first. */
  readonly runningHead: string;
  /** Printed at the foot of every page, beside the page number. */
  readonly foot: string;
  /** 'Page 2 of 5'. */
  readonly page: (page: number, of: number) => string;
  readonly blocks: readonly Block[];
}

/** Sets a document and writes it as PDF. Same document, same bytes. */
export async function printDocument(
  document: PrintedDocument,
): Promise<{ readonly bytes: Uint8Array; readonly missing: Missing }> {
  await fetchPacksFor(JSON.stringify(document).normalize("NFC"));
  const missing = new Missing();
  const tags = new Tag("Document");
  const size = SHEETS[document.paper];
  const width = size.width - 2 * size.side;
  const first = size.height - size.top - size.bottom;
  const pages = paginate(setBlocks(document.blocks, width, tags, missing), first, first - size.head);
  const usedCuts = new Set<number>();
  const written = pages.map((placed, index) => {
    const pen = new Pen(index, size.height, size.side);
    drawAll(pen, placed, index === 0 ? size.top : size.top + size.head);
    const furniture = new Tag("P");
    if (index > 0) {
      drawStrip(pen, setText(document.runningHead, STYLE.small, width, furniture, missing)[0]!, size.top - 8);
    }
    const footAt = size.height - size.bottom + 20;
    const number = setText(document.page(index + 1, pages.length), STYLE.small, 90, furniture, missing, "right");
    drawStrip(pen, setText(document.foot, STYLE.small, width - 100, furniture, missing)[0]!, footAt);
    drawStrip(pen, number[0]!, footAt, width - 90);
    for (const cut of pen.usedCuts) usedCuts.add(cut);
    return { operators: pen.finish(), marked: pen.marked, links: pen.links };
  });
  return { bytes: await writeFile(written, { ...document, size, usedCuts, tags }), missing };
}

function drawAll(pen: Pen, placed: readonly Placed[], from: number): void {
  for (const { strip, top, repeated } of placed) {
    for (const mark of strip.marks) pen.draw(mark, from + top, repeated);
  }
}

/** Running heads and page numbers are no part of the text. */
function drawStrip(pen: Pen, strip: Strip, top: number, indent = 0): void {
  for (const mark of strip.marks) pen.draw({ ...mark, x: mark.x + indent }, top, true);
}
