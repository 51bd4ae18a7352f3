/** The picture at the top of the shop's documents: read and checked as it comes in, found again by what the paperwork names. */
import { isFault, LARGEST_SIDE, type Picture, type PictureFault } from "../../documents/picture/picture.js";
import { readPicture } from "../../documents/picture/readPicture.js";
import type { Paperwork } from "../../estimating/input.js";
import type { Database } from "../../records/database.js";
import { logos } from "../../records/logos.js";

const LARGEST = 200_000;

/** Undefined where the paperwork names none. */
export const logoOf = async (db: Database, { logo }: Paperwork): Promise<Picture | undefined> =>
  logo === undefined ? undefined : await logos.find(db, logo);

/** The picture, or what is wrong with the file. */
export async function readLogo(file: Uint8Array): Promise<Picture | { readonly wrong: string }> {
  if (file.length > LARGEST)
    return { wrong: `Logo: the file has ${Math.ceil(file.length / 1000)} kB; give one of at most ${LARGEST / 1000} kB.` };
  const read = await readPicture(file);
  return isFault(read) ? { wrong: `Logo: ${faultText(read)}` } : read;
}

function faultText(fault: PictureFault): string {
  switch (fault.is) {
    case "not a picture":
      return "the file is neither PNG nor JPEG by its content, whatever it is called; save it as one of them.";
    case "too many pixels":
      return `the picture has ${fault.width} × ${fault.height} pixels; make it no more than ${LARGEST_SIDE} either way.`;
    case "interlaced":
      return "the PNG is interlaced, which a PDF cannot carry; save it without interlacing.";
    case "unusual":
      return "the JPEG is of a kind that few programs read; save it as an ordinary JPEG or PNG.";
    case "damaged":
      return "the file is cut off or damaged; save it again.";
  }
}
