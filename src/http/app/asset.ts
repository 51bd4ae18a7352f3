import type { Context } from "hono";
import type { Asset } from "../bindings.js";

/** A name that carries a hash of the content never changes what it holds. */
const HASHED = /[-.][0-9a-f]{8,}\.\w+$/i;

export function asset(c: Context, { type, body, etag }: Asset): Response {
  const tag = etag.startsWith('"') ? etag : `"${etag}"`;
  const headers = {
    etag: tag,
    "cache-control": HASHED.test(c.req.path) ? "public, max-age=31536000, immutable" : "public, no-cache",
  };
  if (c.req.header("if-none-match") === tag) return c.body(null, 304, headers);
  return c.body(body as string | Uint8Array<ArrayBuffer>, 200, { ...headers, "content-type": type });
}
