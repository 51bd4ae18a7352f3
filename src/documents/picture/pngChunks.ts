/** The parts of a PNG file (ISO/IEC 15948, clause 5). */
export const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;

export interface Chunk {
  readonly type: string;
  readonly data: Uint8Array;
}

/** Undefined where the file ends within a chunk or a check sum differs. */
export function chunksOf(file: Uint8Array): Chunk[] | undefined {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const chunks: Chunk[] = [];
  for (let at: number = PNG_SIGNATURE.length; at + 12 <= file.length; ) {
    const length = view.getUint32(at);
    const end = at + 8 + length;
    if (end + 4 > file.length || view.getUint32(end) !== crc(file.subarray(at + 4, end))) return undefined;
    const type = String.fromCharCode(...file.subarray(at + 4, at + 8));
    chunks.push({ type, data: file.subarray(at + 8, end) });
    if (type === "IEND") return chunks;
    at = end + 4;
  }
  return undefined;
}

export function pngOf(chunks: readonly Chunk[]): Uint8Array {
  const whole = [...chunks, { type: "IEND", data: new Uint8Array() }];
  const file = new Uint8Array(PNG_SIGNATURE.length + whole.reduce((sum, { data }) => sum + 12 + data.length, 0));
  const view = new DataView(file.buffer);
  file.set(PNG_SIGNATURE);
  let at: number = PNG_SIGNATURE.length;
  for (const { type, data } of whole) {
    view.setUint32(at, data.length);
    for (let sign = 0; sign < 4; sign += 1) file[at + 4 + sign] = type.charCodeAt(sign);
    file.set(data, at + 8);
    view.setUint32(at + 8 + data.length, crc(file.subarray(at + 4, at + 8 + data.length)));
    at += 12 + data.length;
  }
  return file;
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

const TABLE = Uint32Array.from({ length: 256 }, (_, start) => {
  let value = start;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

/** ISO/IEC 15948, annex D. */
function crc(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of bytes) value = TABLE[(value ^ byte) & 0xff]! ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}
