import { type PDFContext, PDFHexString, type PDFRef } from "pdf-lib";
import type { Tag } from "../layout/tag.js";
import { figure, type Link } from "./pen.js";
import { Written } from "./written.js";

/** Writes the structure tree (ISO 32000-1, 14.7): what each piece of marked content is, and back from page and number, or from a link, to its tag. */
export function writeTags(
  context: PDFContext,
  root: Tag,
  pages: readonly PDFRef[],
  marked: readonly (readonly Tag[])[],
  links: readonly (readonly WrittenLink[])[],
): PDFRef {
  const tree = context.nextRef();
  const refs = new Map<Tag, PDFRef>();
  const write = (tag: Tag, parent: PDFRef): PDFRef => {
    const ref = context.nextRef();
    refs.set(tag, ref);
    const home = tag.kids.find((kid) => "mark" in kid);
    const kids = tag.kids.map((kid) => {
      if ("link" in kid) return `<</Type/OBJR/Pg ${pages[kid.page]}/Obj ${links[kid.page]![kid.link]!.ref}>>`;
      if (!("mark" in kid)) return String(write(kid, ref));
      return kid.page === home?.page ? String(kid.mark) : `<</Type/MCR/Pg ${pages[kid.page]}/MCID ${kid.mark}>>`;
    });
    const page = home ? `/Pg ${pages[home.page]}` : "";
    const alternative = tag.facts.alternative === undefined ? "" : `/Alt${PDFHexString.fromText(tag.facts.alternative)}`;
    const held = kids.length === 1 ? ` ${kids[0]}` : `[${kids.join(" ")}]`;
    context.assign(ref, new Written(`<</S/${tag.role}/P ${parent}${page}${attributesOf(tag)}${alternative}/K${held}>>`));
    return ref;
  };
  const document = write(root, tree);
  const all = links.flat();
  const parents = [
    ...marked.map((tags, page) => `${page}[${tags.map((tag) => refs.get(tag)).join(" ")}]`),
    ...all.map(({ key, tag }) => `${key} ${refs.get(tag)} `),
  ];
  context.assign(
    tree,
    new Written(
      `<</Type/StructTreeRoot/K ${document}/ParentTree<</Nums[${parents.join("")}]>>/ParentTreeNextKey ${parents.length}>>`,
    ),
  );
  return tree;
}

/** Standard attributes (ISO 32000-1, 14.8.5). */
function attributesOf({ role, facts: { scope, span }, box }: Tag): string {
  if (role === "Figure" && box) return `/A<</O/Layout/BBox[${box.map(figure).join(" ")}]>>`;
  if (scope === undefined && span === undefined) return "";
  return `/A<</O/Table${scope ? `/Scope/${scope}` : ""}${span ? `/ColSpan ${span}` : ""}>>`;
}

interface WrittenLink {
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
