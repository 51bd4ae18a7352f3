import { encode } from "uqr";
import { COLOUR } from "./colour.js";
import type { Mark, Strip } from "./strip.js";
import type { Tag } from "./tag.js";
import { webAddress } from "./webAddress.js";

const SIDE = 78;

/** A QR code (ISO/IEC 18004), drawn as one rectangle for each run of dark modules. */
export function setSquareCode({ content }: { readonly content: string }, _width: number, parent: Tag): Strip[] {
  const { data, size } = encode(content, { ecc: "M", border: 0 });
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
