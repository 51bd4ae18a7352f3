/** Pictures made by hand (demo): PNG by its standard (ISO/IEC 15948) with Node's own zlib, JPEG as bare segments (ITU-T T.81). */
import { deflateSync } from "node:zlib";
import { pngOf } from "../../../src/documents/picture/png.js";

const COLOUR = { grey: [0, 1], rgb: [2, 3], palette: [3, 1], "grey and alpha": [4, 2], "rgb and alpha": [6, 4] } as const;

export interface PngWanted {
  readonly width: number;
  readonly height: number;
  readonly colour: keyof typeof COLOUR;
  /** Eight-bit samples of a pixel. */
  readonly at: (x: number, y: number) => readonly number[];
  readonly interlaced?: boolean;
  readonly more?: readonly { readonly type: string; readonly data: Uint8Array }[];
}

/** Rows unfiltered. */
export function png({ width, height, colour, at, interlaced = false, more = [] }: PngWanted): Uint8Array {
  const [code, samples] = COLOUR[colour];
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, code, 0, 0, interlaced ? 1 : 0], 8);
  const row = width * samples + 1;
  const rows = Buffer.alloc(height * row);
  for (let y = 0; y < height; y += 1) for (let x = 0; x < width; x += 1) rows.set(at(x, y), y * row + 1 + x * samples);
  return pngOf([{ type: "IHDR", data: head }, ...more, { type: "IDAT", data: deflateSync(rows) }]);
}

const segment = (marker: number, ...data: number[]): number[] => [
  0xff,
  marker,
  (data.length + 2) >> 8,
  (data.length + 2) & 0xff,
  ...data,
];
const text = (words: string): number[] => [...Buffer.from(words)];

/** The segments of a JPEG; what would be its pixels are nought. */
export const jpeg = (width: number, height: number, frame = 0xc0): Uint8Array =>
  Uint8Array.from([
    0xff,
    0xd8,
    ...segment(0xe0, ...text("JFIF\0"), 1, 1, 0, 0, 1, 0, 1, 0, 0),
    ...segment(0xe1, ...text("Exif\0\0 where it was taken")),
    ...segment(0xfe, ...text("made by a demo")),
    ...segment(frame, 8, height >> 8, height & 0xff, width >> 8, width & 0xff, 1, 1, 0x11, 0),
    ...segment(0xda, 1, 1, 0, 0, 63, 0),
    0,
    0,
    0xff,
    0xd9,
  ]);
