import { createHash } from "node:crypto";
import { PDFContext, PDFHexString, PDFRawStream, type PDFRef, PDFString, PDFWriter } from "pdf-lib";
import type { Tag } from "../layout/tag.js";
import type { Picture } from "../picture/picture.js";
import { cuts } from "../type/typeface.js";
import { embedCut } from "./embedCut.js";
import { embedPicture } from "./embedPicture.js";
import { fontName, type Link, pictureName } from "./pen.js";
import { writeLinks, writeTags } from "./writeTags.js";
import { Written } from "./written.js";

/** Lengths in points, 1/72 inch. ISO 216 A4 and US Letter. */
interface SheetSize {
  readonly width: number;
  readonly height: number;
  readonly side: number;
  readonly top: number;
  readonly bottom: number;
  /** Height of the running head, on every sheet but the first. */
  readonly head: number;
}

const MARGINS = { side: 46, top: 40, bottom: 52, head: 26 };

export const SHEETS: Readonly<Record<"A4" | "Letter", SheetSize>> = {
  A4: { width: 595.28, height: 841.89, ...MARGINS },
  Letter: { width: 612, height: 792, ...MARGINS },
};

interface PageContent {
  /** One byte for each character. */
  readonly operators: string;
  readonly marked: readonly Tag[];
  readonly links: readonly Link[];
}

interface FileFacts {
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  /** YYYY-MM-DD. */
  readonly date: string;
  readonly size: SheetSize;
  readonly usedCuts: ReadonlySet<number>;
  /** Those that are drawn, by id. */
  readonly pictures: ReadonlyMap<string, Picture>;
  readonly tags: Tag;
}

const MAKER = "Ohmwright";

/** Puts pages together to a tagged PDF 1.7. Takes no clock and no randomness: same pages, same bytes. */
export async function writeFile(pages: readonly PageContent[], facts: FileFacts): Promise<Uint8Array> {
  const context = PDFContext.create();
  const write = (text: string): PDFRef => context.register(new Written(text));
  const tree = context.nextRef();
  const fonts = [...facts.usedCuts].sort((a, b) => a - b).map((place) => `${fontName(place)} ${embedCut(context, cuts[place]!)}`);
  const pictures = [...facts.pictures].map(([id, picture]) => `${pictureName(id)} ${embedPicture(context, picture)}`);
  const resources = write(`<</Font<<${fonts.join("")}>>${pictures.length === 0 ? "" : `/XObject<<${pictures.join("")}>>`}>>`);
  const box = `[0 0 ${facts.size.width} ${facts.size.height}]`;
  const contents = pages.map(({ operators }) => bytesOf(operators));
  const links = writeLinks(
    context,
    pages.map((page) => page.links),
  );
  const refs = contents.map((content, index) => {
    const stream = context.register(PDFRawStream.of(context.obj({}), content));
    const annotations = links[index]!.length === 0 ? "" : `/Annots[${links[index]!.map(({ ref }) => ref).join(" ")}]`;
    return write(
      `<</Type/Page/Parent ${tree}/MediaBox${box}/Resources ${resources}/Contents ${stream}/StructParents ${index}/Tabs/S${annotations}>>`,
    );
  });
  context.assign(tree, new Written(`<</Type/Pages/Count ${refs.length}/Kids[${refs.join(" ")}]>>`));
  const structure = writeTags(
    context,
    facts.tags,
    refs,
    pages.map(({ marked }) => marked),
    links,
  );
  const root = write(
    `<</Type/Catalog/Pages ${tree}/Lang${PDFString.of(facts.language)}/MarkInfo<</Marked true>>/StructTreeRoot ${structure}` +
      "/ViewerPreferences<</DisplayDocTitle true>>>>",
  );
  const made = `(D:${facts.date.replaceAll("-", "")}000000Z)`;
  const info = write(
    `<</Title${PDFHexString.fromText(facts.title)}/Creator(${MAKER})/Producer(${MAKER})/CreationDate${made}/ModDate${made}>>`,
  );
  const drawn = [...facts.pictures.values()].map(({ bytes }) => bytes);
  const id = PDFHexString.of(digest([...contents, ...drawn]));
  context.trailerInfo = { Root: root, Info: info, ID: context.obj([id, id]) };
  return PDFWriter.forContext(context, Number.POSITIVE_INFINITY).serializeToBuffer();
}

function bytesOf(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length);
  for (let at = 0; at < bytes.length; at += 1) bytes[at] = text.charCodeAt(at);
  return bytes;
}

/** File identifier: 16 bytes that follow from the content. At once: waiting for Web Crypto's answer costs more than the hash. */
function digest(contents: readonly Uint8Array[]): string {
  const hash = createHash("sha256");
  for (const content of contents) hash.update(content);
  return hash.digest("hex").slice(0, 32);
}
