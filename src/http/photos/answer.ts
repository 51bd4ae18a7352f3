/** The bytes of a photo as an answer: never anything but the picture it was checked to be. */
import type { Context } from "hono";
import type { Photo } from "../../records/photos.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

export async function photoAnswer(c: Context<AppEnv>, photo: Photo): Promise<Response> {
  const tag = `"${photo.sha256}"`;
  const headers = {
    etag: tag,
    // Bytes under an id never change; who may see them is asked again by the browser's own cache alone.
    "cache-control": "private, max-age=86400, immutable",
  };
  if (c.req.header("if-none-match") === tag) return c.body(null, 304, headers);
  if (!c.var.photos) return refuse(c, "photo store missing");
  const bytes = await c.var.photos.get(photo.id);
  if (!bytes) return refuse(c, "not found", { detail: "The file of this photo is not where photos are kept." });
  return c.body(bytes as Uint8Array<ArrayBuffer>, 200, {
    ...headers,
    "content-type": photo.mime,
    "content-disposition": `inline; filename="photo-${photo.id}.${photo.mime.slice("image/".length)}"`,
  });
}
