/** Other libraries drawing given lines at given places: no layout, no tags, nothing deflated, fonts as their manuals say. Each is loaded when asked for. */
import type { Drawn } from "./drawn.js";
import type { Fonts } from "./fonts.js";

export type Draw = () => Promise<Uint8Array>;
/** What a program would keep between two documents is made ready here. */
type Drawer = (drawn: Drawn, fonts: Fonts) => Promise<Draw>;

const withPdfkit: Drawer = async ({ width, height, pages }, { regular, bold }) => {
  const { default: PDFDocument } = await import("pdfkit");
  return () =>
    new Promise((done) => {
      const pdf = new PDFDocument({ autoFirstPage: false, compress: false });
      const chunks: Buffer[] = [];
      pdf.on("data", (chunk) => chunks.push(chunk)).on("end", () => done(Buffer.concat(chunks)));
      pdf.registerFont("regular", regular).registerFont("bold", bold);
      for (const lines of pages) {
        pdf.addPage({ size: [width, height], margin: 0 });
        for (const { text, x, y, size, bold } of lines)
          pdf
            .font(bold ? "bold" : "regular")
            .fontSize(size)
            .text(text, x, y, { lineBreak: false, baseline: "alphabetic" });
      }
      pdf.end();
    });
};

const withJspdf: Drawer = async ({ width, height, pages }, fonts) => {
  const { jsPDF } = await import("jspdf");
  const [regular, bold] = [fonts.regular.toString("base64"), fonts.bold.toString("base64")];
  return async () => {
    const pdf = new jsPDF({ unit: "pt", format: [width, height], compress: false, putOnlyUsedFonts: true });
    pdf.addFileToVFS("regular.ttf", regular).addFileToVFS("bold.ttf", bold);
    pdf.addFont("regular.ttf", "Text", "normal");
    pdf.addFont("bold.ttf", "Text", "bold");
    pages.forEach((lines, page) => {
      if (page > 0) pdf.addPage([width, height]);
      for (const { text, x, y, size, bold } of lines)
        pdf
          .setFont("Text", bold ? "bold" : "normal")
          .setFontSize(size)
          .text(text, x, y);
    });
    return new Uint8Array(pdf.output("arraybuffer"));
  };
};

/** Height of the typeface over the baseline (its table hhea), in parts of the size: a text stands by its top there. */
const ASCENT = 1.025;

const withPdfmake: Drawer = async ({ width, height, pages }, { regular, bold }) => {
  const { default: pdfmake } = await import("pdfmake");
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy(() => false);
  pdfmake.virtualfs.writeFileSync("regular.ttf", regular);
  pdfmake.virtualfs.writeFileSync("bold.ttf", bold);
  pdfmake.setFonts({ Text: { normal: "regular.ttf", bold: "bold.ttf" } });
  return async () => {
    const content = pages.flatMap((lines, page) =>
      lines.map(({ text, x, y, size, bold }, index) => ({
        ...{ text, bold, fontSize: size, noWrap: true, absolutePosition: { x, y: y - ASCENT * size } },
        ...(page > 0 && index === 0 && { pageBreak: "before" }),
      })),
    );
    const pageSize = { width, height };
    return pdfmake.createPdf({ content, pageSize, pageMargins: 0, compress: false, defaultStyle: { font: "Text" } }).getBuffer();
  };
};

export const DRAWERS = { pdfkit: withPdfkit, jspdf: withJspdf, pdfmake: withPdfmake };
export type Peer = keyof typeof DRAWERS;
