import type { Warning } from "../estimating/sheet.js";
import { regionOf } from "../wording/time.js";
import { LOGO, type Subject } from "./estimate/subject.js";
import type { Block } from "./layout/block.js";
import { type Placed, paginate } from "./layout/paginate.js";
import { setBlocks, setFooter } from "./layout/setBlocks.js";
import { setText } from "./layout/setText.js";
import type { Strip } from "./layout/strip.js";
import { STYLE } from "./layout/style.js";
import { Tag } from "./layout/tag.js";
import { ARTIFACT, type Artifact, Pen } from "./paper/pen.js";
import { SHEETS, writeFile } from "./paper/writeFile.js";
import type { Picture } from "./picture/picture.js";
import { Missing, oneLine } from "./type/shape.js";
import { fetchPacksFor } from "./type/typeface.js";

interface PrintedDocument {
  readonly title: string;
  readonly paper: "A4" | "Letter";
  readonly language: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** Printed at the top of every page but the first. */
  readonly runningHead: string;
  /** Printed at the foot of every page, beside the page number. */
  readonly foot: string;
  /** Lines over the foot of every page; read once, after everything else. */
  readonly footer?: readonly string[];
  /** 'Page 2 of 5'. */
  readonly page: (page: number, of: number) => string;
  readonly blocks: readonly Block[];
  /** Tried in turn while they take more than one page: the first that takes the fewest is printed. */
  readonly shorter?: readonly (readonly Block[])[] | undefined;
  /** By the id a block names it with: letters and digits. */
  readonly pictures?: ReadonlyMap<string, Picture>;
}

/** Sets a document and writes it as PDF. Same document, same bytes. */
export async function printDocument(
  document: PrintedDocument,
): Promise<{ readonly bytes: Uint8Array; readonly missing: Missing }> {
  await fetchPacksFor(JSON.stringify(document).normalize("NFC"));
  const { footer = [], pictures = new Map<string, Picture>() } = document;
  const size = SHEETS[document.paper];
  const width = size.width - 2 * size.side;
  const set = (blocks: readonly Block[]) => {
    const missing = new Missing();
    const tags = new Tag("Document");
    const strips = setBlocks(blocks, width, tags, missing);
    const lines = setFooter(footer, width, tags, missing);
    const footerHeight = lines.reduce((sum, { height }) => sum + height, 0);
    const first = size.height - size.top - size.bottom - footerHeight;
    return { missing, tags, lines, footerHeight, pages: paginate(strips, first, first - size.head) };
  };
  let best = set(document.blocks);
  for (const blocks of document.shorter ?? []) {
    if (best.pages.length === 1) break;
    const shorter = set(blocks);
    if (shorter.pages.length < best.pages.length) best = shorter;
  }
  const { missing, tags, lines, footerHeight, pages } = best;
  const usedCuts = new Set<number>();
  const used = new Set<string>();
  const written = pages.map((placed, index) => {
    const pen = new Pen(index, size.height, size.side);
    drawAll(pen, placed, index === 0 ? size.top : size.top + size.head);
    const furniture = new Tag("P");
    if (index > 0) {
      drawStrip(pen, setText(document.runningHead, STYLE.small, width, furniture, missing)[0]!, size.top - 8, ARTIFACT.head);
    }
    const footAt = size.height - size.bottom + 20;
    let top = footAt - footerHeight;
    for (const strip of lines) {
      drawStrip(pen, strip, top, index === 0 ? undefined : ARTIFACT.foot);
      top += strip.height;
    }
    const number = setText(document.page(index + 1, pages.length), STYLE.small, 90, furniture, missing, "right");
    drawStrip(pen, setText(document.foot, STYLE.small, width - 100, furniture, missing)[0]!, footAt, ARTIFACT.foot);
    drawStrip(pen, number[0]!, footAt, ARTIFACT.foot, width - 90);
    for (const cut of pen.usedCuts) usedCuts.add(cut);
    for (const picture of pen.usedPictures) used.add(picture);
    return { operators: pen.finish(), marked: pen.marked, links: pen.links };
  });
  const drawn = new Map([...pictures].filter(([id]) => used.has(id)));
  return { bytes: await writeFile(written, { ...document, size, usedCuts, pictures: drawn, tags }), missing };
}

function drawAll(pen: Pen, placed: readonly Placed[], from: number): void {
  for (const { strip, top, repeated } of placed) {
    for (const mark of strip.marks) pen.draw(mark, from + top, repeated ? ARTIFACT.drawn : undefined);
  }
}

/** Running heads and page numbers are no part of the text. */
function drawStrip(pen: Pen, strip: Strip, top: number, as: Artifact | undefined, indent = 0): void {
  for (const mark of strip.marks) pen.draw({ ...mark, x: mark.x + indent }, top, as);
}

const DAY = /^\d{4}-\d\d-\d\d$/;

/** Prints what is said about an estimate on the shop's paper, and lists what the fonts lack. */
export async function printSubject(
  { sheet, paperwork, tongue, words, logo, photos }: Subject,
  title: string,
  blocks: readonly Block[],
  shorter?: readonly (readonly Block[])[],
): Promise<{ bytes: Uint8Array; warnings: Warning[] }> {
  const date = paperwork.date ?? sheet.asOf;
  const { bytes, missing } = await printDocument({
    title,
    language: languageTag(words.tag, tongue.locale),
    page: words.paper.furniture.page,
    paper: paperwork.paper ?? "A4",
    date: DAY.test(date) ? date : sheet.asOf,
    runningHead: title,
    // The record first: of a foot too long for its line the rest is cut off.
    foot: oneLine(
      [paperwork.chainHead && words.paper.furniture.record(paperwork.chainHead), paperwork.shop?.name]
        .filter(Boolean)
        .join(" · "),
    ),
    ...(paperwork.footer && { footer: paperwork.footer.map(oneLine) }),
    blocks,
    shorter,
    pictures: new Map([...(logo ? [[LOGO, logo] as const] : []), ...(photos ?? [])]),
  });
  const warnings = [...missing.found].map(
    ([text, characters]): Warning => ({ is: "missing glyphs", text, characters: [...characters] }),
  );
  return { bytes, warnings };
}

/** The words are in the language whatever the figures look like; where they are of the same one, the region is told too. */
function languageTag(language: string, locale: string): string {
  const region = regionOf(locale);
  return new RegExp(`^${language}(-[A-Za-z0-9]+)*$`).test(region) ? region : language;
}
