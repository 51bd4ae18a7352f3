import { tableOf } from "./sfnt.js";

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
