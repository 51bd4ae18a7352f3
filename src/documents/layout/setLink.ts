import { encode } from "uqr";
import type { Missing } from "../type/shape.js";
import type { Block } from "./block.js";
import { setRuns } from "./setText.js";
import { gap, type Mark, type Strip } from "./strip.js";
import { COLOUR, STYLE } from "./style.js";
import type { Tag } from "./tag.js";

type Link = Extract<Block, { is: "link" }>;

/** An address that is no web address is printed and leads nowhere. */
export function setLink({ before, shown, after, to }: Link, width: number, parent: Tag, missing: Missing): Strip[] {
  const paragraph = parent.add("P");
  const address = webAddress(to);
  const link = address === undefined ? STYLE.small : { ...STYLE.small, colour: COLOUR.accent };
  const runs = [
    { text: before, style: STYLE.small, tag: paragraph.add("Span") },
    { text: shown, style: link, tag: paragraph.add(address === undefined ? "Span" : "Link"), to: address },
    ...(after === "" ? [] : [{ text: after, style: STYLE.small, tag: paragraph.add("Span") }]),
  ];
  return [gap(2), ...setRuns(runs, width, missing)];
}

const SIDE = 78;

/** A QR code (ISO/IEC 18004), drawn as one rectangle for each run of dark modules. */
export function setSquareCode({ content }: { readonly content: string }, _width: number, parent: Tag): Strip[] {
  const { data, size } = squareOf(content);
  const to = webAddress(content);
  const link = to === undefined ? parent : parent.add("Link");
  const tag = link.add("Figure", { alternative: content });
  const module = SIDE / size;
  const marks: Mark[] = [];
  data.forEach((row, y) => {
    for (let x = 0; x < size; x += 1) {
      if (!row[x]) continue;
      const from = x;
      while (row[x + 1]) x += 1;
      marks.push({
        is: "fill",
        x: from * module,
        y: y * module,
        width: (x - from + 1) * module,
        height: module,
        colour: COLOUR.ink,
        tag,
      });
    }
  });
  if (to !== undefined) marks.push({ is: "link", x: 0, y: 0, width: SIDE, height: SIDE, to, tag: link });
  return [{ before: 0, height: SIDE, keep: false, marks }];
}

let last: { readonly content: string; readonly square: ReturnType<typeof encode> } | undefined;

/** Kept for the next call: a document that is also set in a shorter form asks twice, and of the eight masks each is weighed. */
function squareOf(content: string): ReturnType<typeof encode> {
  if (last?.content !== content) last = { content, square: encode(content, { ecc: "M", border: 0 }) };
  return last.square;
}

/** A web address as a PDF carries it: plain ASCII, nothing that ends a PDF string. Undefined for what is not one, such as a script. */
export function webAddress(text: string): string | undefined {
  if (!/^https?:\/\//i.test(text) || !URL.canParse(text)) return undefined;
  const { href } = new URL(text);
  return /^[!-~]+$/.test(href) ? href.replaceAll(/[()\\]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`) : undefined;
}
