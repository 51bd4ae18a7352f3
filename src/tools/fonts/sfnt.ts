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

/** Code point -> glyph number, from the font's Unicode character map (cmap formats 4 and 12). */
export function readCharacterMap(font: Uint8Array): Map<number, number> {
  const cmap = tableOf(font, "cmap");
  const map = new Map<number, number>();
  for (let index = 0; index < cmap.getUint16(2); index += 1) {
    const platform = cmap.getUint16(4 + 8 * index);
    if (platform !== 0 && platform !== 3) continue;
    const at = cmap.getUint32(8 + 8 * index);
    const table = new DataView(cmap.buffer, cmap.byteOffset + at, cmap.byteLength - at);
    if (table.getUint16(0) === 4) readSegments(table, map);
    if (table.getUint16(0) === 12) readGroups(table, map);
  }
  return map;
}

function readSegments(table: DataView, map: Map<number, number>): void {
  const twice = table.getUint16(6);
  for (let at = 0; at < twice; at += 2) {
    const end = table.getUint16(14 + at);
    const start = table.getUint16(16 + twice + at);
    const delta = table.getUint16(16 + 2 * twice + at);
    const offsetAt = 16 + 3 * twice + at;
    const offset = table.getUint16(offsetAt);
    for (let code = start; code <= end && code < 0xffff; code += 1) {
      const raw = offset === 0 ? code : table.getUint16(offsetAt + offset + 2 * (code - start));
      const glyph = raw === 0 ? 0 : (raw + delta) & 0xffff;
      if (glyph !== 0) map.set(code, glyph);
    }
  }
}

function readGroups(table: DataView, map: Map<number, number>): void {
  for (let index = 0; index < table.getUint32(12); index += 1) {
    const at = 16 + 12 * index;
    const start = table.getUint32(at);
    for (let code = start; code <= table.getUint32(at + 4); code += 1) map.set(code, table.getUint32(at + 8) + code - start);
  }
}
