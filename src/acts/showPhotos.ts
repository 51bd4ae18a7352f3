/** Which photos are printed with the open draft. */
import { z } from "zod";
import type { PaperPhoto } from "../estimating/input.js";
import { act, refused } from "./act.js";
import type { Fault } from "./fault.js";
import { maybe, several } from "./field.js";
import { withPaperwork } from "./paperwork.js";

interface On {
  readonly job: string;
  /** Why they cannot be printed. */
  readonly unfit: (photos: readonly PaperPhoto[]) => Promise<readonly Fault[]>;
}

export const showPhotos = act({
  name: "showPhotos",
  title: "Print the ticked photos with the draft",
  fields: z.strictObject({ onPaper: maybe(several("Photos in the PDF", { most: 200 })) }),
  answer: z.strictObject({}),
  decide: async (desk, { onPaper = [] }, { job: id, unfit }: On) => {
    const job = await desk.job(id);
    if (!job) return refused("not found", { detail: "There is no such job." });
    if (!job.draft)
      return refused("estimate issued", {
        detail: "There is no open draft any more, so nothing was kept. Begin the next revision first.",
      });
    const photos = job.photos
      .filter((photo) => onPaper.includes(photo.id))
      .map(
        ({ id: photo, sha256, caption, turn }): PaperPhoto => ({
          ...{ id: photo, sha256 },
          ...(caption && { caption }),
          ...(turn > 1 && { turn }),
        }),
      );
    const errors = await unfit(photos);
    if (errors.length > 0) return refused("input refused", { errors });
    const kept = await withPaperwork(desk, job, job.draft, { photos: photos.length > 0 ? photos : undefined });
    return { answer: {}, writes: [kept.write] };
  },
});
