/** JPEG, segment by segment (ITU-T T.81, annex B). Nothing is unpacked, and what a camera writes beside the picture is left out. */
import { turnIn } from "./turn.js";

/** Baseline, extended and progressive Huffman frames (table B.1). */
const FRAMES = [0xc0, 0xc1, 0xc2];
const OTHER_FRAMES = [0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf];
const SCAN = 0xda;
const END = 0xd9;
const EXIF = 0xe1;
const PROFILE = 0xe2;
/** Says how the colours are coded; the other application segments say where and with what a photograph was taken. */
const ADOBE = 0xee;
const COMMENT = 0xfe;

interface Frame {
  readonly width: number;
  readonly height: number;
  /** Bits a sample. */
  readonly bits: number;
  readonly components: number;
}

export interface Jpeg extends Frame {
  /** 1 to 8 as in Exif 2.32, tag Orientation. */
  readonly turn: number;
  /** What the picture consists of, without its beginning; what stands after the end, such as a film of the same moment, is left out. */
  readonly parts: readonly Uint8Array[];
  /** The same without the colour profile. */
  readonly plain: readonly Uint8Array[];
}

export interface JpegFault {
  readonly is: "unreadable" | "cut short" | "unusual";
}

export function readJpeg(file: Uint8Array): Jpeg | JpegFault {
  const parts: Uint8Array[] = [];
  const plain: Uint8Array[] = [];
  let frame: Frame | undefined;
  let turn = 1;
  let scanned = false;
  for (const { marker, from, to } of segments(file)) {
    if (marker === undefined) return { is: scanned ? "cut short" : "unreadable" };
    if (OTHER_FRAMES.includes(marker)) return { is: "unusual" };
    if (FRAMES.includes(marker)) {
      if (to < from + 10) return { is: "unreadable" };
      frame ??= frameAt(file, from);
    }
    if (marker === EXIF && turn === 1) turn = turnIn(file.subarray(from + 4, to));
    if (marker === SCAN) scanned = true;
    const part = file.subarray(from, to);
    if (isPicture(marker)) plain.push(part);
    if (isPicture(marker) || (marker === PROFILE && isColours(part))) parts.push(part);
    if (marker === END) return frame && scanned ? { ...frame, turn, parts, plain } : { is: "unreadable" };
  }
  return { is: "cut short" };
}

/** Of a file that was read before. `inverted`: four inks written upside down, as one maker of software does. */
export function jpegColours(file: Uint8Array): { readonly components: number; readonly inverted: boolean } {
  let adobe = false;
  for (const { marker, from } of segments(file)) {
    if (marker === ADOBE) adobe = true;
    if (marker === undefined || !FRAMES.includes(marker)) continue;
    const { components } = frameAt(file, from);
    return { components, inverted: adobe && components === 4 };
  }
  throw new Error("A JPEG was kept that has no frame.");
}

const word = (file: Uint8Array, at: number): number => (file[at]! << 8) | file[at + 1]!;

const frameAt = (file: Uint8Array, at: number): Frame => ({
  ...{ bits: file[at + 4]!, height: word(file, at + 5), width: word(file, at + 7), components: file[at + 9]! },
});

/** From each marker to its end, a scan with its coded data; the last has no marker where none stands there. */
function* segments(file: Uint8Array): Generator<{ readonly marker?: number; readonly from: number; readonly to: number }> {
  for (let at = 2; at + 2 <= file.length; ) {
    if (file[at] !== 0xff) return yield { from: at, to: at };
    const marker = file[at + 1]!;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === END) return yield { marker, from: at, to: at + 2 };
    if (at + 4 > file.length) return;
    const end = at + 2 + word(file, at + 2);
    if (end > file.length || end < at + 4) return;
    const to = marker === SCAN ? afterScan(file, end) : end;
    yield { marker, from: at, to };
    at = to;
  }
}

/** The first marker after the coded data; 00 and restarts are part of it. */
function afterScan(file: Uint8Array, from: number): number {
  for (let at = file.indexOf(0xff, from); at >= 0 && at + 1 < file.length; at = file.indexOf(0xff, at + 1)) {
    const next = file[at + 1]!;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return file.length;
}

const isPicture = (marker: number): boolean => marker === ADOBE || !((marker > 0xe0 && marker <= 0xef) || marker === COMMENT);

const ICC = [..."ICC_PROFILE\0"].map((sign) => sign.charCodeAt(0));
const isColours = (segment: Uint8Array): boolean => ICC.every((byte, place) => segment[4 + place] === byte);
