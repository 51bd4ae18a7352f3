/** JPEG, segment by segment (ITU-T T.81, annex B). Kept: the picture, its colour profile and how it is to be turned. */

import { joined } from "../../documents/picture/pngChunks.js";
import type { PhotoRefusal } from "../../wording/photoRefusal.js";
import { orientationSegment, turnIn } from "./orientation.js";
import type { PhotoRead } from "./readPhoto.js";

const SCAN = 0xda;
const END = 0xd9;
const EXIF = 0xe1;
const PROFILE = 0xe2;
const ADOBE = 0xee;
const COMMENT = 0xfe;
/** Baseline, extended and progressive Huffman frames. */
const FRAMES = new Set([0xc0, 0xc1, 0xc2]);
const OTHER_FRAMES = new Set([0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf]);

export function readJpeg(file: Uint8Array): PhotoRead | PhotoRefusal {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const kept: Uint8Array[] = [];
  let frame: { readonly width: number; readonly height: number } | undefined;
  let turn = 1;
  let scanned = false;
  for (let at = 2; at + 2 <= file.length; ) {
    if (file[at] !== 0xff) return { is: scanned ? "photo cut short" : "photo unreadable" };
    const marker = file[at + 1]!;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    // What stands after the end, such as a film of the same moment, is left out.
    if (marker === END) {
      if (!frame || !scanned) return { is: "photo unreadable" };
      const head = [file.subarray(0, 2), ...(turn === 1 ? [] : [orientationSegment(turn)])];
      return { mime: "image/jpeg", ...frame, turn, bytes: joined([...head, ...kept, file.subarray(at, at + 2)]) };
    }
    if (at + 4 > file.length) break;
    const end = at + 2 + view.getUint16(at + 2);
    if (end > file.length || end < at + 4) break;
    if (OTHER_FRAMES.has(marker)) return { is: "photo unreadable" };
    if (FRAMES.has(marker)) {
      if (end < at + 9) return { is: "photo unreadable" };
      frame ??= { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    }
    if (marker === EXIF && turn === 1) turn = turnIn(file.subarray(at + 4, end));
    const upTo = marker === SCAN ? afterScan(file, end) : end;
    if (marker === SCAN) scanned = true;
    if (isKept(marker, file, at)) kept.push(file.subarray(at, upTo));
    at = upTo;
  }
  return { is: "photo cut short" };
}

/** The first marker after the coded data; 00 and restarts are part of it. */
function afterScan(file: Uint8Array, from: number): number {
  for (let at = file.indexOf(0xff, from); at >= 0 && at + 1 < file.length; at = file.indexOf(0xff, at + 1)) {
    const next = file[at + 1]!;
    if (next !== 0 && next !== 0xff && !(next >= 0xd0 && next <= 0xd7)) return at;
  }
  return file.length;
}

const ICC = [..."ICC_PROFILE\0"].map((sign) => sign.charCodeAt(0));

function isKept(marker: number, file: Uint8Array, at: number): boolean {
  if (marker === PROFILE) return ICC.every((byte, place) => file[at + 4 + place] === byte);
  return marker === ADOBE || !((marker > 0xe0 && marker <= 0xef) || marker === COMMENT);
}
