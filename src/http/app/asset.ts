import type { Context } from "hono";
import type { AppEnv, Asset } from "../bindings.js";

/** A name that carries a hash of the content never changes what it holds. */
const HASHED = /[-.][0-9a-f]{8,}\.\w+$/i;

export async function asset(c: Context<AppEnv>, { type, body, etag }: Asset): Promise<Response> {
  const tag = etag.startsWith('"') ? etag : `"${etag}"`;
  const headers = {
    etag: tag,
    "cache-control": HASHED.test(c.req.path) ? "public, max-age=31536000, immutable" : "public, no-cache",
  };
  if (c.req.header("if-none-match") === tag) return c.body(null, 304, headers);
  const kept = body ?? (await c.env.ASSETS?.fetch(new URL(c.req.path, c.req.url)))?.body;
  if (kept === undefined || kept === null) return c.notFound();
  return c.body(kept as string | Uint8Array<ArrayBuffer> | ReadableStream, 200, { ...headers, "content-type": type });
}
