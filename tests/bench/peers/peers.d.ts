/** What of these packages the bench calls: two bring no types of their own, and the third brings a thousand lines. */
declare module "pdfkit" {
  export default class PDFDocument {
    constructor(options: { readonly autoFirstPage: boolean; readonly compress: boolean });
    on(event: "data", taken: (chunk: Buffer) => void): this;
    on(event: "end", taken: () => void): this;
    registerFont(name: string, font: Buffer): this;
    addPage(options: { readonly size: readonly [number, number]; readonly margin: number }): this;
    font(name: string): this;
    fontSize(points: number): this;
    text(text: string, x: number, y: number, options: { readonly lineBreak: boolean; readonly baseline: "alphabetic" }): this;
    end(): void;
  }
}

declare module "pdfmake" {
  interface Printed {
    getBuffer(): Promise<Buffer>;
  }
  const pdfmake: {
    readonly virtualfs: { writeFileSync(name: string, content: Buffer): void };
    setUrlAccessPolicy(may: () => boolean): void;
    setLocalAccessPolicy(may: () => boolean): void;
    setFonts(fonts: Readonly<Record<string, { readonly normal: string; readonly bold: string }>>): void;
    createPdf(document: object): Printed;
  };
  export default pdfmake;
}

declare module "jspdf" {
  export class jsPDF {
    constructor(options: {
      readonly unit: "pt";
      readonly format: readonly [number, number];
      readonly compress: boolean;
      readonly putOnlyUsedFonts: boolean;
    });
    addFileToVFS(name: string, base64: string): this;
    addFont(file: string, name: string, style: "normal" | "bold"): string;
    addPage(format: readonly [number, number]): this;
    setFont(name: string, style: "normal" | "bold"): this;
    setFontSize(points: number): this;
    text(text: string, x: number, y: number): this;
    output(as: "arraybuffer"): ArrayBuffer;
  }
}
