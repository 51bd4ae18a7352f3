declare module "subset-font" {
  /** Cuts a font to the characters of `text` (HarfBuzz). */
  export default function subsetFont(
    font: Buffer,
    text: string,
    options: {
      readonly targetFormat: "truetype" | "woff2";
      readonly noHinting?: boolean;
      readonly noLayoutClosure?: boolean;
      readonly keepFeatures?: readonly string[];
      readonly dropTables?: readonly string[];
    },
  ): Promise<Buffer>;
}
