/** PNG, chunk by chunk (ISO/IEC 15948, clauses 5 and 11). */
export const PNG_SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;

export interface Chunk {
  readonly type: string;
  readonly data: Uint8Array;
}

/** Each with where it stands in the file, to the end of its check sum, as far as they are whole. */
export function* eachChunk(file: Uint8Array): Generator<Chunk & { readonly from: number; readonly to: number }> {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  for (let at: number = PNG_SIGNATURE.length; at + 12 <= file.length; ) {
    const to = at + 12 + view.getUint32(at);
    if (to > file.length) return;
    const type = String.fromCharCode(...file.subarray(at + 4, at + 8));
    yield { type, data: file.subarray(at + 8, to - 4), from: at, to };
    if (type === "IEND") return;
    at = to;
  }
}

/** Undefined where the file ends within a chunk or a check sum differs. */
export function chunksOf(file: Uint8Array): Chunk[] | undefined {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const chunks: Chunk[] = [];
  for (const { type, data, from, to } of eachChunk(file)) {
    if (view.getUint32(to - 4) !== crc(file.subarray(from + 4, to - 4))) return undefined;
    chunks.push({ type, data });
  }
  return chunks.at(-1)?.type === "IEND" ? chunks : undefined;
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

/** IHDR (11.2.2). */
export interface PngHead {
  readonly width: number;
  readonly height: number;
  /** Bits a sample. */
  readonly depth: number;
  readonly colour: "grey" | "rgb" | "palette" | "grey and alpha" | "rgb and alpha";
  readonly interlaced: boolean;
}

const COLOURS = { 0: "grey", 2: "rgb", 3: "palette", 4: "grey and alpha", 6: "rgb and alpha" } as const;
const SAMPLES = { grey: 1, rgb: 3, palette: 1, "grey and alpha": 2, "rgb and alpha": 4 } as const;
const DEPTHS: Readonly<Record<PngHead["colour"], readonly number[]>> = {
  grey: [1, 2, 4, 8, 16],
  rgb: [8, 16],
  palette: [1, 2, 4, 8],
  "grey and alpha": [8, 16],
  "rgb and alpha": [8, 16],
};

export function pngHead(data: Uint8Array): PngHead | undefined {
  if (data.length !== 13) return undefined;
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const colour = COLOURS[data[9] as keyof typeof COLOURS] as PngHead["colour"] | undefined;
  const [width, height, depth] = [view.getUint32(0), view.getUint32(4), data[8]!];
  if (!colour || !DEPTHS[colour].includes(depth) || width === 0 || height === 0) return undefined;
  return { width, height, depth, colour, interlaced: data[12] === 1 };
}

export const samplesOf = ({ colour }: Pick<PngHead, "colour">): number => SAMPLES[colour];

/** Bytes of one row, without the one that names its filter. */
export const rowBytes = (head: PngHead): number => Math.ceil((head.width * head.depth * samplesOf(head)) / 8);
