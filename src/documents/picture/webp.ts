/** WebP, chunk by chunk (RFC 9649). Kept: everything but Exif and XMP. */

import type { PhotoRefusal } from "../../wording/photoRefusal.js";
import { joined, type PhotoRead } from "./picture.js";

const LEFT_OUT = new Set(["EXIF", "XMP "]);
/** Bits of VP8X that announce them. */
const ANNOUNCED = 0x0c;

export function photoOfWebp(file: Uint8Array): PhotoRead | PhotoRefusal {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file.length < 30) return { is: "photo cut short" };
  const whole = 8 + view.getUint32(4, true);
  if (whole > file.length) return { is: "photo cut short" };
  const kept: Uint8Array[] = [];
  let size: { readonly width: number; readonly height: number } | undefined;
  let pixels = false;
  for (let at = 12; at + 8 <= whole; ) {
    const type = String.fromCharCode(...file.subarray(at, at + 4));
    const length = view.getUint32(at + 4, true);
    const end = at + 8 + length + (length % 2);
    if (end > whole + 1 || at + 8 + length > whole) return { is: "photo cut short" };
    const data = file.subarray(at + 8, at + 8 + length);
    if (type === "VP8X" && length >= 10) size ??= { width: 1 + three(data, 4), height: 1 + three(data, 7) };
    if (type === "VP8 " && length >= 10) size ??= { width: two(data, 6) & 0x3fff, height: two(data, 8) & 0x3fff };
    if (type === "VP8L" && length >= 5) {
      const bits = new DataView(data.buffer, data.byteOffset).getUint32(1, true);
      size ??= { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) };
    }
    if (type === "VP8 " || type === "VP8L" || type === "ANMF") pixels = true;
    if (!LEFT_OUT.has(type)) kept.push(type === "VP8X" ? unannounced(file.subarray(at, end)) : file.subarray(at, end));
    at = end;
  }
  if (!size || !pixels) return { is: "photo unreadable" };
  const bytes = joined([file.slice(0, 12), ...kept]);
  new DataView(bytes.buffer).setUint32(4, bytes.length - 8, true);
  return { mime: "image/webp", ...size, turn: 1, bytes };
}

const two = (data: Uint8Array, at: number): number => data[at]! | (data[at + 1]! << 8);
const three = (data: Uint8Array, at: number): number => two(data, at) | (data[at + 2]! << 16);

function unannounced(chunk: Uint8Array): Uint8Array {
  const copy = chunk.slice();
  copy[8] = copy[8]! & ~ANNOUNCED;
  return copy;
}
