/** What was photographed of a job: the list, the bytes of each, and the doors of their acts. */
import { createRoute, z } from "@hono/zod-openapi";
import { addPhotos, keptPhoto, removePhoto, showPhotos } from "../../acts/photos.js";
import { jobs } from "../../records/jobs.js";
import { PHOTO_TYPES, photos as records } from "../../records/photos.js";
import { PHOTO_LIMITS } from "../../wording/photoRefusal.js";
import { ALWAYS, json, ON_BODY, problems } from "../doors/answers.js";
import { apiDoor, KEY_HEADER, ON_KEY, throughDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";
import { photoAnswer } from "../photos/answer.js";
import { unfitIn } from "../photos/onPaper.js";
import { photoSent } from "../photos/sent.js";
import { refused } from "./change.js";

export const photos = router();
const tags = ["photos"];
const params = z.strictObject({ id: z.string().min(1).max(100) });

look(photos, {
  ...{ path: "/api/jobs/{id}/photos", tag: "photos", name: "listPhotos", answer: keptPhoto, says: "Photos" },
  title: "Photos of a job, oldest first, without those taken out",
  description: `Whole: a job has at most ${PHOTO_LIMITS.ofJob}`,
  none: "There is no such job.",
  few: async (c, { id }) => ((await jobs.find(c.var.db, id)) ? records.ofJob(c.var.db, id) : undefined),
});

const bytes = { schema: { type: "string" as const, format: "binary" } };
const pictures = Object.fromEntries(PHOTO_TYPES.map((type) => [type, bytes]));
const kept = { Location: { schema: { type: "string" as const }, description: "Its bytes" } };
photos.openapi(
  createRoute({
    method: "post",
    path: "/api/jobs/{id}/photos",
    tags,
    operationId: addPhotos.name,
    summary: addPhotos.title,
    description: `The body is the file; what it shows stands in the query. It is checked by its content, at most ${
      PHOTO_LIMITS.bytes / 1024 / 1024
    } MiB and ${PHOTO_LIMITS.pixels / 1_000_000} million pixels, and kept without what a camera wrote into it`,
    request: { params, query: addPhotos.fields, headers: z.object(KEY_HEADER), body: { required: true, content: pictures } },
    responses: {
      201: { ...json(keptPhoto, "Kept"), headers: kept },
      ...problems("not found", "query refused", "photo store missing", ...ON_KEY, ...ON_BODY, ...ALWAYS),
    },
  }),
  async (c) => {
    const sent = [await photoSent("The photo", new Uint8Array(await c.req.arrayBuffer()))];
    const on = { job: c.req.valid("param").id, sent };
    return (await throughDoor(c, addPhotos, c.req.valid("query"), on, ([photo]) => ({
      status: 201,
      headers: { "content-type": "application/json", location: `/api/photos/${photo!.id}` },
      body: JSON.stringify(photo),
    }))) as never;
  },
);

apiDoor(photos, showPhotos, {
  ...{ path: "/api/jobs/{id}/photos/on-paper", tag: "photos", status: 200, refusals: ["not found", "estimate issued"] },
  description: `All that are printed with the open draft, and so seen by the owner: at most ${PHOTO_LIMITS.onPaperCount}; others leave it`,
  example: { onPaper: [] },
  on: ({ id }, _, c) => ({ job: id, unfit: unfitIn(c, id) }),
});

apiDoor(photos, removePhoto, {
  ...{ path: "/api/jobs/{id}/photos/{photo}/removal", tag: "photos", refusals: ["not found"] },
  description: "It leaves the job's list and an open draft; what was issued with it keeps it",
  example: {},
  on: ({ id, photo }) => ({ job: id, photo }),
});

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
        content: pictures,
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
