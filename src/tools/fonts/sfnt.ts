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

/** The file with its name table exchanged for these names, in English, by their numbers. Sums of tables are left to whoever writes the font out. */
export function renamed(font: Uint8Array, names: Readonly<Record<number, string>>): Buffer {
  const strings = Object.entries(names).map(([id, text]) => [Number(id), Buffer.from(text, "utf16le").swap16()] as const);
  const table = Buffer.alloc(6 + 12 * strings.length);
  table.writeUInt16BE(strings.length, 2);
  table.writeUInt16BE(table.length, 4);
  let from = 0;
  for (const [index, [id, { length }]] of strings.entries()) {
    for (const [at, value] of [3, 1, 0x409, id, length, from].entries()) table.writeUInt16BE(value, 6 + 12 * index + 2 * at);
    from += length;
  }
  const name = Buffer.concat([table, ...strings.map(([, bytes]) => bytes)]);
  const head = Buffer.from(font.subarray(0, 12 + 16 * Buffer.from(font).readUInt16BE(4)));
  const parts: Buffer[] = [head];
  let end = head.length;
  for (let at = 12; at < head.length; at += 16) {
    const [start, length] = [head.readUInt32BE(at + 8), head.readUInt32BE(at + 12)];
    const part = head.toString("latin1", at, at + 4) === "name" ? name : Buffer.from(font.subarray(start, start + length));
    head.writeUInt32BE(end, at + 8);
    head.writeUInt32BE(part.length, at + 12);
    parts.push(part, Buffer.alloc((4 - (part.length % 4)) % 4));
    end += part.length + ((4 - (part.length % 4)) % 4);
  }
  return Buffer.concat(parts);
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
