/** Lists that come page by page: their query, and the way to the next page (RFC 8288). */
import { z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { json } from "./answers.js";

export const paged = z.strictObject({
  limit: z.coerce.number().int().min(1).max(200).default(50),
  after: z.string().max(100).optional().meta({ description: "The last id of the page before; follow Link rel=next instead" }),
});

export const pageOf = <S extends z.ZodType>(item: S, description: string, beside: z.ZodRawShape = {}) => ({
  ...json(
    z.strictObject({ ...beside, items: z.array(item) }),
    `${description}; a Link header with rel="next" when there may be more (RFC 8288)`,
  ),
  headers: { Link: { schema: { type: "string" as const }, description: "RFC 8288" } },
});

interface Row {
  readonly id?: string;
  /** Of an event. */
  readonly number?: number;
}
const nameOf = ({ id, number }: Row): string => id ?? String(number);

/** A full page may have a page after it. */
export function linkNext(c: Context, rows: readonly Row[], limit: number): void {
  const last = rows.at(-1);
  if (last && rows.length === limit)
    c.header("link", `<${c.req.path}?${new URLSearchParams({ limit: String(limit), after: nameOf(last) })}>; rel="next"`);
}

/** A page of what is read whole; after something that is not there, nothing comes. */
export function pageFrom<T>(rows: readonly T[], limit: number, after: string | undefined): readonly T[] {
  const begin = after === undefined ? 0 : rows.findIndex((row) => nameOf(row as Row) === after) + 1 || rows.length;
  return rows.slice(begin, begin + limit);
}
