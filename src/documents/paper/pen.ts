import type { LinkMark, Mark, PathMark } from "../layout/strip.js";
import type { Tag } from "../layout/tag.js";
import { turned } from "../picture/turn.js";

/** Hundredths of a point are finer than any printer. */
export const figure = (value: number): string => String(Math.round(value * 100) / 100);

/** Ids are letters and digits. */
export const pictureName = (id: string): string => `/I${id}`;
export const fontName = (cut: number): string => `/F${cut}`;

/** What is on the page and no part of the text, as its marked content begins (ISO 32000-1, 14.8.2.2). */
export const ARTIFACT = {
  drawn: "/Artifact BMC\n",
  head: "/Artifact<</Type/Pagination/Subtype/Header>>BDC\n",
  foot: "/Artifact<</Type/Pagination/Subtype/Footer>>BDC\n",
} as const;
export type Artifact = (typeof ARTIFACT)[keyof typeof ARTIFACT];

/** A place of the page that leads to a web address. */
export interface Link {
  /** Left, bottom, right, top. */
  readonly box: string;
  readonly to: string;
  readonly tag: Tag;
}

/** Writes one page's content stream (ISO 32000-1, 8 and 9), one byte for each character of the string. */
export class Pen {
  readonly links: Link[] = [];
  readonly usedCuts = new Set<number>();
  readonly usedPictures = new Set<string>();
  /** Tags of this page's marked content, by number. */
  readonly marked: Tag[] = [];
  readonly #page: number;
  readonly #height: number;
  readonly #left: number;
  #out = "";
  #open: Tag | Artifact | undefined;
  #font = "";
  #fill = "";
  #stroke = "";

  constructor(page: number, height: number, left: number) {
    this.#page = page;
    this.#height = height;
    this.#left = left;
  }

  /** `top` in points from the top edge of the paper. Nothing of an artifact is part of the document's text. */
  draw(mark: Mark, top: number, artifact?: Artifact): void {
    const y = this.#height - top - mark.y;
    const x = this.#left + mark.x;
    if (mark.is === "link") {
      if (!artifact) this.#link(mark, x, y);
      return;
    }
    const tag = artifact || mark.is === "frame" ? undefined : mark.tag;
    this.#mark(tag ?? artifact ?? ARTIFACT.drawn);
    if (mark.is === "picture") {
      tag?.enclose(x, y - mark.height, x + mark.width, y);
      this.usedPictures.add(mark.picture);
      const place = `${turned(mark.turn ?? 1, [x, y - mark.height, mark.width, mark.height])
        .map(figure)
        .join(" ")} cm`;
      this.#out += `q ${place} ${pictureName(mark.picture)} Do Q\n`;
    } else if (mark.is === "text") {
      this.#fillWith(mark.colour);
      this.#write(mark, x, y);
    } else if (mark.is === "fill") {
      this.#fillWith(mark.colour);
      if (tag?.role === "Figure") tag.enclose(x, y - mark.height, x + mark.width, y);
      this.#out += `${figure(x)} ${figure(y - mark.height)} ${figure(mark.width)} ${figure(mark.height)} re f\n`;
    } else if (mark.is === "path") {
      this.#strokeWith(mark.colour);
      if (tag?.role === "Figure") for (const [right, down] of mark.points) tag.enclose(x + right, y - down, x + right, y - down);
      this.#path(mark, x, y);
    } else {
      const half = mark.line / 2;
      this.#strokeWith(mark.colour);
      this.#out += `${figure(mark.line)} w ${figure(x + half)} ${figure(y - mark.height + half)} ${figure(mark.width - mark.line)} ${figure(mark.height - mark.line)} re S\n`;
    }
  }

  finish(): string {
    if (this.#open) this.#out += "EMC\n";
    this.#open = undefined;
    return this.#out;
  }

  #write({ glyphs, from, to, size }: Extract<Mark, { is: "text" }>, x: number, y: number): void {
    this.#out += "BT ";
    let cut = -1;
    let run = "";
    let placed = `${figure(x)} ${figure(y)} Td`;
    const flush = (): void => {
      const font = `${fontName(cut)} ${figure(size)} Tf `;
      this.#out += `${font === this.#font ? "" : font}${placed}(${run})Tj`;
      this.#font = font;
      placed = "";
    };
    for (let at = from; at < to; at += 1) {
      const glyph = glyphs[at]!;
      if (glyph.cut !== cut) {
        if (run !== "") flush();
        cut = glyph.cut;
        this.usedCuts.add(cut);
        run = "";
      }
      run += glyph.code;
    }
    flush();
    this.#out += " ET\n";
  }

  #fillWith(colour: string): void {
    if (this.#fill !== colour) this.#out += `${colour} rg\n`;
    this.#fill = colour;
  }

  #strokeWith(colour: string): void {
    if (this.#stroke !== colour) this.#out += `${colour} RG\n`;
    this.#stroke = colour;
  }

  #path({ points, line, dashed }: PathMark, x: number, y: number): void {
    const steps = points.map(([right, down], at) => `${figure(x + right)} ${figure(y - down)} ${at === 0 ? "m" : "l"}`);
    const pattern = dashed ? ["[4 3] 0 d ", " [] 0 d"] : ["", ""];
    this.#out += `${figure(line)} w 1 j ${pattern[0]}${steps.join(" ")} S${pattern[1]}\n`;
  }

  #link({ width, height, to, tag }: LinkMark, x: number, y: number): void {
    const link = this.links.push({ to, tag, box: [x, y - height, x + width, y].map(figure).join(" ") }) - 1;
    tag.kids.push({ page: this.#page, link });
  }

  /** Marked content: what follows belongs to `tag`, or to nothing. */
  #mark(wanted: Tag | Artifact): void {
    if (this.#open === wanted) return;
    if (this.#open) this.#out += "EMC\n";
    this.#open = wanted;
    if (typeof wanted === "string") {
      this.#out += wanted;
      return;
    }
    const mark = this.marked.push(wanted) - 1;
    wanted.kids.push({ page: this.#page, mark });
    this.#out += `/${wanted.role}<</MCID ${mark}>>BDC\n`;
  }
}
