/** Photos that a paper shows, fetched and checked before it is printed. */
import type { Context } from "hono";
import { isFault, type Picture } from "../../documents/picture/picture.js";
import { readPicture } from "../../documents/picture/readPicture.js";
import type { PaperPhoto } from "../../estimating/input.js";
import { type Photo, photos } from "../../records/photos.js";
import { sha256 } from "../../records/sha256.js";
import { PHOTO_LIMITS, type PhotoRefusal, photoRefusalText } from "../../wording/photoRefusal.js";
import type { AppEnv } from "../bindings.js";

export type PhotosOnPaper =
  | { readonly ok: true; readonly pictures: ReadonlyMap<string, Picture> }
  /** Of each photo, why it cannot be printed, in words. */
  | { readonly ok: false; readonly faults: readonly { readonly id: string; readonly text: string }[] };

/** Pictures by the photo's SHA-256. */
export async function photosOnPaper(
  c: Context<AppEnv>,
  ofJob: readonly Photo[],
  wanted: readonly PaperPhoto[] | undefined,
): Promise<PhotosOnPaper> {
  const pictures = new Map<string, Picture>();
  const faults: { id: string; text: string }[] = [];
  let together = 0;
  for (const [place, photo] of (wanted ?? []).entries()) {
    const read = await pictureOf(c, ofJob, photo);
    if ("kind" in read) {
      pictures.set(photo.sha256, read);
      together += read.bytes.length;
    } else faults.push({ id: photo.id, text: photoRefusalText(read, photo.caption ?? `Photo ${place + 1}`) });
  }
  const of = { id: wanted?.[0]?.id ?? "" };
  if (pictures.size > PHOTO_LIMITS.onPaperCount)
    faults.push({
      ...of,
      text: photoRefusalText({ is: "too many photos", most: PHOTO_LIMITS.onPaperCount }, "Photos in the PDF"),
    });
  if (together > PHOTO_LIMITS.onPaperTogether)
    faults.push({ ...of, text: photoRefusalText({ is: "photos too large together", bytes: together }, "Photos in the PDF") });
  return faults.length > 0 ? { ok: false, faults } : { ok: true, pictures };
}

async function pictureOf(c: Context<AppEnv>, ofJob: readonly Photo[], wanted: PaperPhoto): Promise<Picture | PhotoRefusal> {
  const photo = ofJob.find(({ id }) => id === wanted.id);
  if (photo?.sha256 !== wanted.sha256) return { is: "photo lost" };
  const { width, height, size } = photo;
  if (size > PHOTO_LIMITS.onPaper) return { is: "photo too large for paper", bytes: size };
  if (Math.max(width, height) > PHOTO_LIMITS.paperSide) return { is: "photo too wide for paper", width, height };
  const bytes = await c.var.photos?.get(photo.id);
  if (!bytes || (await sha256(bytes)) !== photo.sha256) return { is: "photo lost" };
  const read = await readPicture(bytes);
  return isFault(read) ? { is: "photo of no kind for paper" } : read;
}

/** Of each that no PDF can carry, why. */
export const unfitIn = (c: Context<AppEnv>, jobId: string) => async (wanted: readonly PaperPhoto[]) => {
  const checked = await photosOnPaper(c, await photos.ofJob(c.var.db, jobId), wanted);
  return checked.ok ? [] : checked.faults;
};
