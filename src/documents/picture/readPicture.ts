/**
 * Pictures by what is in the file, not by its name: as documents carry them, and as photos are kept. What a camera writes into one
 * besides the picture, where, when and with what it was taken, is left out. Same file, same picture.
 */
import { PHOTO_LIMITS, type PhotoRefusal } from "../../wording/photoRefusal.js";
import { type Jpeg, type JpegFault, readJpeg } from "./jpeg.js";
import { joined, type PhotoRead, type Picture, type PictureFault, tooManyPixels } from "./picture.js";
import { eachChunk, PNG_SIGNATURE, pngHead } from "./png.js";
import { pngOnPaper } from "./pngOnPaper.js";
import { orientationSegment } from "./turn.js";
import { photoOfWebp } from "./webp.js";

const isPng = (file: Uint8Array): boolean => starts(file, PNG_SIGNATURE);
const isJpeg = (file: Uint8Array): boolean => starts(file, [0xff, 0xd8, 0xff]);
const isWebp = (file: Uint8Array): boolean =>
  starts(file, [0x52, 0x49, 0x46, 0x46]) && starts(file.subarray(8), [0x57, 0x45, 0x42, 0x50]);
const starts = (file: Uint8Array, begin: readonly number[]): boolean => begin.every((byte, at) => file[at] === byte);

export async function readPicture(file: Uint8Array): Promise<Picture | PictureFault> {
  if (isPng(file)) return pngOnPaper(file);
  return isJpeg(file) ? jpegOnPaper(file, readJpeg(file)) : { is: "not a picture" };
}

function jpegOnPaper(file: Uint8Array, read: Jpeg | JpegFault): Picture | PictureFault {
  if ("is" in read) return { is: read.is === "unusual" ? "unusual" : "damaged" };
  const { width, height, bits, components, plain } = read;
  if (bits !== 8 || ![1, 3, 4].includes(components)) return { is: "unusual" };
  if (width === 0 || height === 0) return { is: "damaged" };
  return tooManyPixels(width, height) ?? { kind: "jpeg", width, height, bytes: joined([file.subarray(0, 2), ...plain]) };
}

/** Nothing is unpacked here. */
export function readPhoto(file: Uint8Array): PhotoRead | PhotoRefusal {
  if (file.length === 0) return { is: "photo missing" };
  if (file.length > PHOTO_LIMITS.bytes) return { is: "photo too large", bytes: file.length };
  const reader = isJpeg(file) ? photoOfJpeg : isPng(file) ? photoOfPng : isWebp(file) ? photoOfWebp : undefined;
  const read = reader?.(file) ?? ({ is: "photo unreadable" } as const);
  if ("is" in read) return read;
  const { width, height } = read;
  if (width === 0 || height === 0) return { is: "photo unreadable" };
  return width * height > PHOTO_LIMITS.pixels ? { is: "photo has too many pixels", width, height } : read;
}

function photoOfJpeg(file: Uint8Array): PhotoRead | PhotoRefusal {
  const read = readJpeg(file);
  if ("is" in read) return { is: read.is === "cut short" ? "photo cut short" : "photo unreadable" };
  const { width, height, turn, parts } = read;
  const head = [file.subarray(0, 2), ...(turn === 1 ? [] : [orientationSegment(turn)])];
  return { mime: "image/jpeg", width, height, turn, bytes: joined([...head, ...parts]) };
}

const KEPT = ["IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "pHYS", "sBIT"];

function photoOfPng(file: Uint8Array): PhotoRead | PhotoRefusal {
  const kept: Uint8Array[] = [file.subarray(0, PNG_SIGNATURE.length)];
  const chunks = [...eachChunk(file)];
  const [first, last] = [chunks[0], chunks.at(-1)];
  if (!first) return { is: "photo cut short" };
  const head = first.type === "IHDR" ? pngHead(first.data) : undefined;
  if (!head) return { is: "photo unreadable" };
  const { width, height } = head;
  for (const { type, from, to } of chunks) if (KEPT.includes(type)) kept.push(file.subarray(from, to));
  // A file that is cut short says its size all the same: the worse of the two is told.
  if (last?.type !== "IEND")
    return width * height > PHOTO_LIMITS.pixels ? { is: "photo has too many pixels", width, height } : { is: "photo cut short" };
  return chunks.some(({ type }) => type === "IDAT")
    ? { mime: "image/png", width, height, turn: 1, bytes: joined(kept) }
    : { is: "photo unreadable" };
}
