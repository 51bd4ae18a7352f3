import type { Picture, PictureFault } from "./picture.js";
import { PNG_SIGNATURE } from "./pngChunks.js";
import { readJpeg } from "./readJpeg.js";
import { readPng } from "./readPng.js";

/** Checks a file by what is in it, not by its name, and gives the picture as documents carry it. Same file, same picture. */
export async function readPicture(file: Uint8Array): Promise<Picture | PictureFault> {
  const read = startsWith(file, PNG_SIGNATURE) ? readPng : startsWith(file, [0xff, 0xd8, 0xff]) ? readJpeg : undefined;
  return read ? read(file) : { is: "not a picture" };
}

const startsWith = (file: Uint8Array, begin: readonly number[]): boolean => begin.every((byte, at) => file[at] === byte);
