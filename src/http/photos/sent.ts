/** Photos as they come: read by their content, each with the id that its bytes are stored under. */
import { uuidv7 } from "uuidv7";
import type { PhotoSent } from "../../acts/photos.js";
import { readPhoto } from "../../documents/picture/readPicture.js";
import { sha256 } from "../../records/sha256.js";

export async function photoSent(name: string, file: Uint8Array): Promise<PhotoSent> {
  const read = readPhoto(file);
  return { id: uuidv7(), name, read: "is" in read ? read : { ...read, sha256: await sha256(read.bytes) } };
}
