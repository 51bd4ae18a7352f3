/** PNG, chunk by chunk (ISO/IEC 15948, clauses 5 and 11). Kept: the picture and its colours. */

import { joined } from "../../documents/picture/pngChunks.js";
import { PHOTO_LIMITS, type PhotoRefusal } from "../../wording/photoRefusal.js";
import type { PhotoRead } from "./readPhoto.js";

const KEPT = new Set(["IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "pHYS", "sBIT"]);

export function readPng(file: Uint8Array): PhotoRead | PhotoRefusal {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const kept: Uint8Array[] = [file.subarray(0, 8)];
  let size: { readonly width: number; readonly height: number } | undefined;
  let pixels = false;
  for (let at = 8; at + 12 <= file.length; ) {
    const end = at + 12 + view.getUint32(at);
    const type = String.fromCharCode(...file.subarray(at + 4, at + 8));
    if (end > file.length) break;
    if (type === "IHDR" && end === at + 25) size ??= { width: view.getUint32(at + 8), height: view.getUint32(at + 12) };
    else if (!size) return { is: "photo unreadable" };
    if (type === "IDAT") pixels = true;
    if (KEPT.has(type)) kept.push(file.subarray(at, end));
    if (type === "IEND")
      return size && pixels ? { mime: "image/png", ...size, turn: 1, bytes: joined(kept) } : { is: "photo unreadable" };
    at = end;
  }
  return size ? tooManyOr(size) : { is: "photo cut short" };
}

/** A file that is cut short says its size all the same: the worse of the two is told. */
const tooManyOr = ({ width, height }: { readonly width: number; readonly height: number }): PhotoRefusal =>
  width * height > PHOTO_LIMITS.pixels ? { is: "photo has too many pixels", width, height } : { is: "photo cut short" };
