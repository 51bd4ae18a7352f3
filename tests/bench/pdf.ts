/** Rendering an estimate against its floor: the same glyphs written with pdf-lib on one page, without layout, tags or wording. Runs in Node and in workerd. */
import { PDFContext, PDFRawStream, PDFWriter } from "pdf-lib";
import { estimateBlocks } from "../../src/documents/estimate/estimateBlocks.js";
import { subjectOf } from "../../src/documents/estimate/subject.js";
import { estimatePdf } from "../../src/documents/estimatePdf.js";
import { setBlocks } from "../../src/documents/layout/setBlocks.js";
import { Tag } from "../../src/documents/layout/tag.js";
import { embedCut } from "../../src/documents/paper/embedCut.js";
import { Written } from "../../src/documents/paper/written.js";
import { Missing } from "../../src/documents/type/shape.js";
import { cuts } from "../../src/documents/type/typeface.js";
import type { EstimateInput } from "../../src/estimating/input.js";
import type { Sheet } from "../../src/estimating/sheet.js";

/** Each call does the whole work once and tells how many bytes came out. */
export interface PdfWork {
  readonly render: () => Promise<number>;
  readonly floor: () => Promise<number>;
}

export async function pdfWork(sheet: Sheet, input: EstimateInput): Promise<PdfWork> {
  const render = async (): Promise<number> => (await estimatePdf(sheet, input)).bytes.length;
  await render();
  const texts = setBlocks(estimateBlocks(subjectOf(sheet, input)), 500, new Tag("Document"), new Missing())
    .flatMap(({ marks }) => marks)
    .flatMap((mark) => (mark.is === "text" ? [mark.glyphs.slice(mark.from, mark.to)] : []));
  const used = [...new Set(texts.flat().map(({ cut }) => cut))];
  const floor = async (): Promise<number> => {
    const context = PDFContext.create();
    const fonts = used.map((place) => `/F${place} ${embedCut(context, cuts[place]!)}`).join("");
    let out = "";
    texts.forEach((glyphs, index) => {
      out += `BT /F${glyphs[0]?.cut ?? 0} 9 Tf 40 ${800 - index} Td(`;
      for (const { code } of glyphs) out += code;
      out += ")Tj ET\n";
    });
    const bytes = new Uint8Array(out.length);
    for (let at = 0; at < bytes.length; at += 1) bytes[at] = out.charCodeAt(at);
    const content = context.register(PDFRawStream.of(context.obj({}), bytes));
    const pages = context.nextRef();
    const page = context.register(
      new Written(`<</Type/Page/Parent ${pages}/MediaBox[0 0 595 842]/Resources<</Font<<${fonts}>>>>/Contents ${content}>>`),
    );
    context.assign(pages, new Written(`<</Type/Pages/Count 1/Kids[${page}]>>`));
    context.trailerInfo = { Root: context.register(new Written(`<</Type/Catalog/Pages ${pages}>>`)) };
    return (await PDFWriter.forContext(context, Number.POSITIVE_INFINITY).serializeToBuffer()).length;
  };
  return { render, floor };
}
