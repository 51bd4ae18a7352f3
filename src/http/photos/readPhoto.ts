/**
 * Reads the head of a picture by what is in the file, not by its name, before anyone unpacks it, and takes out what a camera writes
 * into it besides the picture: where, when and with what it was taken. Nothing is unpacked here.
 */
import type { PhotoType } from "../../records/photos.js";
import { PHOTO_LIMITS, type PhotoRefusal } from "../../wording/photoRefusal.js";
import { readJpeg } from "./jpeg.js";
import { readPng } from "./png.js";
import { readWebp } from "./webp.js";

export interface PhotoRead {
  readonly mime: PhotoType;
  /** Pixels as stored. */
  readonly width: number;
  readonly height: number;
  /** 1 to 8 as in Exif 2.32, tag Orientation. */
  readonly turn: number;
  /** The file without what was taken out. */
  readonly bytes: Uint8Array;
}

export function readPhoto(file: Uint8Array): PhotoRead | PhotoRefusal {
  if (file.length === 0) return { is: "photo missing" };
  if (file.length > PHOTO_LIMITS.bytes) return { is: "photo too large", bytes: file.length };
  const read = readerOf(file)?.(file) ?? ({ is: "photo unreadable" } as const);
  if ("is" in read) return read;
  const { width, height } = read;
  if (width === 0 || height === 0) return { is: "photo unreadable" };
  return width * height > PHOTO_LIMITS.pixels ? { is: "photo has too many pixels", width, height } : read;
}

function readerOf(file: Uint8Array): ((file: Uint8Array) => PhotoRead | PhotoRefusal) | undefined {
  const starts = (begin: readonly number[], at = 0) => begin.every((byte, place) => file[at + place] === byte);
  if (starts([0xff, 0xd8, 0xff])) return readJpeg;
  if (starts([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return readPng;
  if (starts([0x52, 0x49, 0x46, 0x46]) && starts([0x57, 0x45, 0x42, 0x50], 8)) return readWebp;
  return undefined;
}
