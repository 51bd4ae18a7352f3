/** One weight of one script, cut when the project is built (src/tools/fonts). Lengths are thousandths of the type size. */
export interface Cut {
  /** PostScript name, subset tag included. */
  readonly name: string;
  /** The characters it draws; glyph number and advance stand at the same place in the two lists. */
  readonly characters: string;
  readonly glyphs: readonly number[];
  readonly advances: readonly number[];
  /** PDF /W array. */
  readonly widths: string;
  readonly box: readonly [number, number, number, number];
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  readonly stem: number;
  /** TrueType program and ToUnicode map: deflated (zlib), base64. */
  readonly program: string;
  readonly programLength: number;
  readonly toUnicode: string;
}

export interface Pack {
  readonly regular: Cut;
  readonly bold: Cut;
}
