/** A record's ETag is its version. Compared strongly: a weak tag never matches an If-Match (RFC 9110, 13.1). */
import type { Context } from "hono";
import type { Seen } from "../../acts/record.js";

export const etagOf = (record: { readonly version: number }): string => `"${record.version}"`;

const tags = (header: string): string[] => header.split(",").map((tag) => tag.trim());

/** If-None-Match compares weakly. */
export function isFresh(c: Context, tag: string): boolean {
  const header = c.req.header("if-none-match");
  return header !== undefined && (header.trim() === "*" || tags(header).some((given) => given.replace(/^W\//, "") === tag));
}

/** The versions that an If-Match names; undefined without one. */
export function seenIn(header: string | undefined): Seen | undefined {
  if (header === undefined) return undefined;
  return header.trim() === "*"
    ? "any"
    : tags(header).flatMap((tag) => (/^"\d{1,15}"$/.test(tag) ? Number(tag.slice(1, -1)) : []));
}
