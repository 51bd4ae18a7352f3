/** A photo is taken out of the job's pages and of the open draft; its bytes stay, since an issued estimate may show it. */
import { z } from "zod";
import { tellingOf } from "../records/keptOnce.js";
import { photoRemovalsTable } from "../records/photos.js";
import { act, refused } from "./act.js";
import { withPaperwork } from "./paperwork.js";

export const removePhoto = act({
  name: "removePhoto",
  title: "Take the photo out",
  fields: z.strictObject({}),
  answer: z.strictObject({}),
  decide: async (desk, _, { job: id, photo: photoId }: { readonly job: string; readonly photo: string }) => {
    const { db, at, staff } = desk;
    const job = await desk.job(id);
    if (!job?.photos.some((photo) => photo.id === photoId)) return refused("not found", { detail: "There is no such photo." });
    const by = staff && { by: staff.name };
    const row = { id: desk.newId(), jobId: id, at, photoId, ...by };
    const { draft, head } = job;
    const shown = draft?.input.paperwork?.photos ?? [];
    const left = shown.filter((photo) => photo.id !== photoId);
    const paper =
      draft && left.length < shown.length
        ? [await withPaperwork(desk, job, draft, { photos: left.length > 0 ? left : undefined })]
        : [];
    return {
      answer: {},
      writes: [db.insert(photoRemovalsTable).values(row), ...paper.map(({ write }) => write)],
      trail: {
        job: id,
        head,
        events: [{ is: "photo removed", content: { ...by, record: await tellingOf("photo_removals", row) } }],
      },
    };
  },
});
