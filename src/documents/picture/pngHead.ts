/** IHDR of a PNG (ISO/IEC 15948, 11.2.2). */
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
