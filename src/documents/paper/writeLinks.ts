import { type PDFContext, PDFHexString, type PDFRef } from "pdf-lib";
import type { Tag } from "../layout/tag.js";
import type { Link } from "./pen.js";
import { Written } from "./written.js";

export interface WrittenLink {
  readonly ref: PDFRef;
  readonly tag: Tag;
  /** Its key in the parent tree, after those of the pages. */
  readonly key: number;
}

/** Link annotations (ISO 32000-1, 12.5.6.5) by page. The address is ASCII without parentheses or backslash; what a reader is told is the address. */
export function writeLinks(context: PDFContext, pages: readonly (readonly Link[])[]): WrittenLink[][] {
  let key = pages.length;
  return pages.map((links) =>
    links.map(({ box, to, tag }) => {
      const ref = context.register(
        new Written(
          `<</Type/Annot/Subtype/Link/Rect[${box}]/Border[0 0 0]/F 4/StructParent ${key}/Contents${PDFHexString.fromText(to)}/A<</S/URI/URI(${to})>>>>`,
        ),
      );
      const written = { ref, tag, key };
      key += 1;
      return written;
    }),
  );
}
