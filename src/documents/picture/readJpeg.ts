import { type Picture, type PictureFault, tooManyPixels } from "./picture.js";
import { joined } from "./pngChunks.js";

/** Baseline, extended and progressive Huffman frames (ITU-T T.81, table B.1). */
const FRAMES = [0xc0, 0xc1, 0xc2];
const OTHER_FRAMES = [0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf];
const SCAN = 0xda;
const COMMENT = 0xfe;
/** Says how the colours are coded; the other application segments say where and with what a photograph was taken. */
const ADOBE = 0xee;

export interface JpegFrame {
  readonly width: number;
  readonly height: number;
  readonly components: number;
  /** Four inks written upside down, as one maker of software does. */
  readonly inverted: boolean;
}

/** Kept without comments and without what a camera writes into it. */
export function readJpeg(file: Uint8Array): Picture | PictureFault {
  const kept: Uint8Array[] = [file.subarray(0, 2)];
  let frame: Omit<JpegFrame, "inverted"> | undefined;
  for (const { marker, from, to } of segments(file)) {
    if (OTHER_FRAMES.includes(marker)) return { is: "unusual" };
    if (FRAMES.includes(marker)) {
      if (file[from + 4] !== 8 || ![1, 3, 4].includes(file[from + 9] ?? 0)) return { is: "unusual" };
      frame = { height: word(file, from + 5), width: word(file, from + 7), components: file[from + 9]! };
    }
    const aside = marker === COMMENT || (marker > 0xe0 && marker <= 0xef && marker !== ADOBE);
    if (!aside) kept.push(file.subarray(from, to));
    if (marker !== SCAN) continue;
    if (!frame || frame.width === 0 || frame.height === 0) break;
    const { width, height } = frame;
    if (file.at(-2) !== 0xff || file.at(-1) !== 0xd9) break;
    return tooManyPixels(width, height) ?? { kind: "jpeg", width, height, bytes: joined(kept) };
  }
  return { is: "damaged" };
}

/** Of a file that `readJpeg` has let through. */
export function jpegFrame(file: Uint8Array): JpegFrame {
  let inverted = false;
  for (const { marker, from } of segments(file)) {
    if (marker === ADOBE) inverted = true;
    if (!FRAMES.includes(marker)) continue;
    const components = file[from + 9]!;
    return { height: word(file, from + 5), width: word(file, from + 7), components, inverted: inverted && components === 4 };
  }
  throw new Error("A JPEG was kept that has no frame.");
}

const word = (file: Uint8Array, at: number): number => (file[at]! << 8) | file[at + 1]!;

/** From each marker to its end; the first scan reaches to the end of the file. */
function* segments(file: Uint8Array): Generator<{ readonly marker: number; readonly from: number; readonly to: number }> {
  for (let at = 2; at + 4 <= file.length; ) {
    if (file[at] !== 0xff) return;
    const marker = file[at + 1]!;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const to = marker === SCAN ? file.length : at + 2 + word(file, at + 2);
    if (to > file.length || to < at + 4) return;
    yield { marker, from: at, to };
    if (marker === SCAN) return;
    at = to;
  }
}
