/** What was photographed of a job: the list, and the bytes of each. */
import { createRoute, z } from "@hono/zod-openapi";
import { maybe } from "../../acts/shapes/primitives.js";
import { jobs } from "../../records/jobs.js";
import { MOST_PHOTOS, PHOTO_TYPES, PHOTOS_OF, photos as records } from "../../records/photos.js";
import { look } from "../doors/look.js";
import { photoAnswer } from "../photos/answer.js";
import { ALWAYS, problems } from "./answers.js";
import { refused } from "./change.js";
import { router } from "./router.js";

export const photos = router();
const tags = ["photos"];
const params = z.strictObject({ id: z.string().min(1).max(100) });
const whole = z.int();

const photo = z
  .strictObject({
    ...{ id: z.string(), jobId: z.string(), at: z.string().meta({ format: "date-time" }), of: z.enum(PHOTOS_OF) },
    item: maybe(z.string()).meta({ description: "Of a fault: the work item that puts it right" }),
    caption: maybe(z.string()),
    mime: z.enum(PHOTO_TYPES),
    ...{ width: whole, height: whole },
    turn: whole.meta({ description: "To stand upright: 1 to 8 as in Exif 2.32, tag Orientation" }),
    size: whole.meta({ description: "Bytes" }),
    sha256: z.string(),
    takenOn: maybe(z.string()),
    by: maybe(z.string()),
  })
  .meta({ id: "Photo", description: "What a photo of a job shows, and the hash of its bytes" });

look(photos, {
  ...{ path: "/api/jobs/{id}/photos", tag: "photos", name: "listPhotos", answer: photo, says: "Photos" },
  title: "Photos of a job, oldest first, without those taken out",
  description: `Whole: a job has at most ${MOST_PHOTOS}`,
  none: "There is no such job.",
  all: async (c, { id }) => ((await jobs.find(c.var.db, id)) ? records.ofJob(c.var.db, id) : undefined),
});

const bytes = { schema: { type: "string" as const, format: "binary" } };
photos.openapi(
  createRoute({
    method: "get",
    path: "/api/photos/{id}",
    tags,
    operationId: "findPhoto",
    summary: "The bytes of a photo",
    description: "They never change; its ETag is their hash",
    request: { params },
    responses: {
      200: {
        description: "The photo",
        content: Object.fromEntries(PHOTO_TYPES.map((type) => [type, bytes])),
        headers: { ETag: { schema: { type: "string" }, description: "Hash of the bytes" } },
      },
      304: { description: "It is the one named by If-None-Match" },
      ...problems("not found", "photo store missing", ...ALWAYS),
    },
  }),
  async (c) => {
    const { id } = c.req.valid("param");
    const found = await records.find(c.var.db, id);
    if (!found || (await records.isRemoved(c.var.db, id))) return refused(c, "not found", { detail: "There is no such photo." });
    return (await photoAnswer(c, found)) as never;
  },
);
