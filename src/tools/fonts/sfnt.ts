/** Reads what the font compiler needs from a TrueType file (ISO/IEC 14496-22, "OpenType"). */
export interface Metrics {
  readonly unitsPerEm: number;
  readonly box: readonly [number, number, number, number];
  readonly ascent: number;
  readonly descent: number;
  /** By glyph number. */
  readonly advances: readonly number[];
}

/** One table of the file. Throws when it is not there: the compiler's input is fixed, so that is our own fault. */
export function tableOf(font: Uint8Array, tag: string): DataView {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  for (let index = 0; index < view.getUint16(4); index += 1) {
    const at = 12 + 16 * index;
    const name = String.fromCharCode(...font.subarray(at, at + 4));
    if (name === tag) return new DataView(font.buffer, font.byteOffset + view.getUint32(at + 8), view.getUint32(at + 12));
  }
  throw new Error(`The font has no table ${tag}`);
}

export function readMetrics(font: Uint8Array): Metrics {
  const head = tableOf(font, "head");
  const hhea = tableOf(font, "hhea");
  const hmtx = tableOf(font, "hmtx");
  const measured = hhea.getUint16(34);
  return {
    unitsPerEm: head.getUint16(18),
    box: [head.getInt16(36), head.getInt16(38), head.getInt16(40), head.getInt16(42)],
    ascent: hhea.getInt16(4),
    descent: hhea.getInt16(6),
    advances: Array.from({ length: tableOf(font, "maxp").getUint16(4) }, (_, glyph) =>
      hmtx.getUint16(4 * Math.min(glyph, measured - 1)),
    ),
  };
}
