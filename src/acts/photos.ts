/**
 * Photos of a job: added, chosen for the open draft, taken out. One that was taken out leaves the job's pages and the draft; its bytes
 * stay, since an issued estimate may show it.
 */
import { z } from "zod";
import type { PaperPhoto } from "../estimating/input.js";
import { tellingOf } from "../records/keptOnce.js";
import { PHOTO_TYPES, PHOTOS_OF, type Photo, type PhotoValue, photoRemovalsTable, photosTable } from "../records/photos.js";
import { PHOTO_LIMITS, type PhotoRefusal, photoRefusalText } from "../wording/photoRefusal.js";
import { act, refused, wrongField } from "./act.js";
import { choice, day, line, maybe, several } from "./field.js";
import type { JobAsItStands } from "./job.js";
import type { OnJob } from "./logWork.js";
import { withPaperwork } from "./paperwork.js";
import { keptOnce } from "./shapes/primitives.js";

/** A file as it came. */
export interface PhotoSent {
  /** The photo's, if it is taken; risen with time. */
  readonly id: string;
  /** Of the file, or what is said where there is none. */
  readonly name: string;
  readonly read:
    | PhotoRefusal
    | (Pick<PhotoValue, "mime" | "width" | "height" | "turn" | "sha256"> & { readonly bytes: Uint8Array });
}

const shown = {
  caption: maybe(line("Caption")),
  takenOn: maybe(day("Taken on")),
  by: maybe(line("Added by", { most: 200 })),
};
const pixels = z.int();

export const keptPhoto = z
  .strictObject({
    ...keptOnce,
    of: z.enum(PHOTOS_OF),
    item: maybe(z.string()).meta({ description: "Of a fault: the work item that puts it right" }),
    mime: z.enum(PHOTO_TYPES),
    ...{ width: pixels, height: pixels },
    turn: z.int().meta({ description: "To stand upright: 1 to 8 as in Exif 2.32, tag Orientation" }),
    size: z.int().meta({ description: "Bytes" }),
    sha256: z.string(),
    ...shown,
  })
  .meta({ id: "Photo", description: "What a photo of a job shows, and the hash of its bytes" });

export const addPhotos = act({
  name: "addPhoto",
  title: "Add a photo to a job",
  fields: z.strictObject({
    of: choice("What they show", PHOTOS_OF),
    item: maybe(line("Work that puts it right", { most: 100 })),
    ...shown,
  }),
  answer: keptPhoto,
  decide: async (desk, value, { job: jobId, sent }: OnJob & { readonly sent: readonly PhotoSent[] }) => {
    const { db, at, staff, photos: store } = desk;
    if (!store) return refused("photo store missing");
    const job = await desk.job(jobId);
    if (!job) return NO_JOB;
    const wrong = wrongIn(job, value.item, sent);
    if (wrong) {
      // What an earlier try had stored.
      if (desk.before) for (const { id } of sent) await store.remove(id);
      return wrong;
    }
    const by = value.by ?? staff?.name;
    const rows: Photo[] = [];
    for (const { id, read } of sent) {
      if ("is" in read) continue;
      const { bytes, ...photo } = read;
      // The bytes first, so that no row is without them.
      await store.put(id, bytes, photo.mime);
      rows.push({ ...value, ...(by !== undefined && { by }), ...photo, size: bytes.length, id, jobId, at });
    }
    const events = rows.map(async (row) => ({
      ...{ is: "photo added" as const, content: { ...(by !== undefined && { by }), record: await tellingOf("photos", row) } },
    }));
    return {
      answer: rows,
      writes: rows.map((row) => db.insert(photosTable).values(row)),
      trail: { job: jobId, head: job.head, events: await Promise.all(events) },
    };
  },
});

/** All of them are taken or none. */
function wrongIn(job: JobAsItStands, item: string | undefined, sent: readonly PhotoSent[]) {
  const said = (refusal: PhotoRefusal, name: string) =>
    wrongField("/photo", "picture unreadable", photoRefusalText(refusal, name));
  if (item !== undefined && !job.revisions.at(-1)?.input.items.some(({ id }) => id === item))
    return wrongField("/item", "work unknown", "What they show: this work is not part of the job any more; choose again.");
  if (sent.length === 0) return said({ is: "photo missing" }, "Photos to add");
  for (const { name, read } of sent)
    if ("is" in read)
      return wrongField(
        "/photo",
        "picture unreadable",
        `${photoRefusalText(read, name)}${sent.length > 1 ? " None was added." : ""}`,
      );
  if (job.photos.length + sent.length > PHOTO_LIMITS.ofJob)
    return said({ is: "too many photos", most: PHOTO_LIMITS.ofJob }, "Photos of one job");
  return undefined;
}

const NO_JOB = refused("not found", { detail: "There is no such job." });

interface OnDraft extends OnJob {
  /** Of each that cannot be printed, why. */
  readonly unfit: (photos: readonly PaperPhoto[]) => Promise<readonly { readonly id: string; readonly text: string }[]>;
}

const onPaper = several("Photos in the PDF", { most: PHOTO_LIMITS.ofJob });

export const showPhotos = act({
  name: "showPhotos",
  title: "Print the ticked photos with the draft",
  fields: z.strictObject({ onPaper: maybe(onPaper) }),
  answer: z
    .strictObject({ onPaper })
    .meta({ id: "PhotosOnPaper", description: "Ids of the photos that are printed with the draft" }),
  decide: async (desk, { onPaper: wanted = [] }, { job: id, unfit }: OnDraft) => {
    const job = await desk.job(id);
    if (!job) return NO_JOB;
    if (!job.draft)
      return refused("estimate issued", {
        detail: "There is no open draft any more, so nothing was kept. Begin the next revision first.",
      });
    const photos = job.photos
      .filter((photo) => wanted.includes(photo.id))
      .map(
        ({ id: photo, sha256, caption, turn }): PaperPhoto => ({
          ...{ id: photo, sha256 },
          ...(caption && { caption }),
          ...(turn > 1 && { turn }),
        }),
      );
    const errors = (await unfit(photos)).map(({ id: photo, text }) => ({
      ...{ pointer: `/onPaper/${Math.max(0, wanted.indexOf(photo))}`, name: "picture unreadable", detail: text },
    }));
    if (errors.length > 0) return refused("input refused", { errors });
    const kept = await withPaperwork(desk, job, job.draft, { photos: photos.length > 0 ? photos : undefined });
    return { answer: { onPaper: photos.map((photo) => photo.id) }, writes: [kept.write] };
  },
});

export const removePhoto = act({
  name: "removePhoto",
  title: "Take a photo out of a job",
  fields: z.strictObject({}),
  answer: z
    .strictObject({ ...keptOnce, photoId: z.string(), by: maybe(z.string()) })
    .meta({ id: "PhotoRemoval", description: "When a photo was taken out, and by whom" }),
  decide: async (desk, _, { job: jobId, photo: photoId }: OnJob & { readonly photo: string }) => {
    const { db, at, staff } = desk;
    const job = await desk.job(jobId);
    if (!job?.photos.some((photo) => photo.id === photoId)) return refused("not found", { detail: "There is no such photo." });
    const by = staff && { by: staff.name };
    const row = { id: desk.newId(), jobId, at, photoId, ...by };
    const { draft, head } = job;
    const before = draft?.input.paperwork?.photos ?? [];
    const left = before.filter((photo) => photo.id !== photoId);
    const paper =
      draft && left.length < before.length
        ? [await withPaperwork(desk, job, draft, { photos: left.length > 0 ? left : undefined })]
        : [];
    return {
      answer: row,
      writes: [db.insert(photoRemovalsTable).values(row), ...paper.map(({ write }) => write)],
      trail: {
        job: jobId,
        head,
        events: [{ is: "photo removed", content: { ...by, record: await tellingOf("photo_removals", row) } }],
      },
    };
  },
});
