/** The door for looking: one thing, all of a kind, or a page of it. What stands here is its part of the OpenAPI document. */
import { createRoute, type OpenAPIHono, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { ALWAYS, json, problems } from "./answers.js";
import type { Names } from "./api.js";
import { isFresh } from "./etag.js";
import { linkNext, paged, pageFrom, pageOf } from "./paged.js";

type Named<Path extends string, Query> = Readonly<Record<Names<Path>, string>> & Query;
type Found<T> = T | undefined | Promise<T | undefined>;

interface Look<Path extends string> {
  /** With `{names}`. */
  readonly path: Path;
  readonly tag: string;
  /** The operation's id. */
  readonly name: string;
  readonly title: string;
  readonly description?: string;
  /** What one of them is. */
  readonly answer: z.ZodType;
  /** What is answered, in a word or two. */
  readonly says: string;
  /** What is said where there is none; absent: there always is. */
  readonly none?: string;
}

type Looking<T, Path extends string, Query> = Look<Path> &
  (
    | {
        readonly query?: z.ZodType<Query>;
        readonly one: (c: Context<AppEnv>, named: Named<Path, Query>) => Found<T>;
        /** Its ETag, in quotes. */
        readonly tagOf?: (found: T) => string;
        /** What is answered moves without its tag, which so never says that it is the same. */
        readonly moves?: boolean | undefined;
      }
    /** So few that they are answered whole; the description says how many. */
    | { readonly query?: z.ZodType<Query>; readonly few: (c: Context<AppEnv>, named: Named<Path, Query>) => Found<readonly T[]> }
    /** Read whole, answered page by page, with what else is told on each. */
    | {
        readonly all: (c: Context<AppEnv>, named: Named<Path, unknown>) => Found<readonly T[] | { readonly items: readonly T[] }>;
        readonly beside?: z.ZodRawShape;
      }
    | { readonly page: (c: Context<AppEnv>, limit: number, after: string | undefined) => Promise<readonly T[]> }
  );

const SAME = z.object({ "if-none-match": z.string().optional().meta({ description: "ETags of what is there already" }) });
const ETAG = { ETag: { schema: { type: "string" as const }, description: "Its version, or the hash of its content" } };

export function look<T, const Path extends string, Query = unknown>(
  app: OpenAPIHono<AppEnv>,
  looking: Looking<T, Path, Query>,
): void {
  const { path, tag, name, title, description, answer, says, none } = looking;
  const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, each]) => each!);
  const byPage = "page" in looking || "all" in looking;
  const query = byPage ? paged : looking.query;
  const tagged = "one" in looking && looking.tagOf;
  const maybeSame = tagged && !looking.moves;
  const shape = "one" in looking ? json(answer, says) : json(z.strictObject({ items: z.array(answer) }), says);
  const route = createRoute({
    method: "get",
    path,
    tags: [tag],
    operationId: name,
    summary: title,
    ...(description && { description }),
    request: {
      ...(names.length > 0 && {
        params: z.strictObject(Object.fromEntries(names.map((each) => [each, z.string().min(1).max(100)]))),
      }),
      ...(query && { query: query as z.ZodObject }),
      ...(maybeSame && { headers: SAME }),
    },
    responses: {
      200: byPage ? pageOf(answer, says, "all" in looking ? looking.beside : {}) : { ...shape, ...(tagged && { headers: ETAG }) },
      ...(maybeSame && { 304: { description: "It is the one named by If-None-Match" } }),
      ...problems(
        ...(none ? (["not found"] as const) : []),
        ...(names.length > 0 || query ? (["query refused"] as const) : []),
        ...ALWAYS,
      ),
    },
  });
  app.openapi(route, (async (c: Context<AppEnv>) => {
    if ("page" in looking) {
      const { limit, after } = c.req.valid("query" as never) as { limit: number; after?: string };
      const items = await looking.page(c, limit, after);
      linkNext(c, items as readonly object[], limit);
      return c.json({ items });
    }
    const named = {
      ...(names.length > 0 ? (c.req.valid("param" as never) as object) : {}),
      ...(query ? (c.req.valid("query" as never) as object) : {}),
    } as Named<Path, Query>;
    const found = await ("one" in looking ? looking.one : "few" in looking ? looking.few : looking.all)(c, named);
    if (found === undefined) return refuse(c, "not found", none === undefined ? {} : { detail: none });
    if ("few" in looking) return c.json({ items: found });
    if ("all" in looking) {
      const { items, ...beside } = Array.isArray(found) ? { items: found } : (found as { readonly items: readonly T[] });
      const { limit, after } = c.req.valid("query" as never) as { limit: number; after?: string };
      const page = pageFrom(items, limit, after);
      if (page.at(-1) !== items.at(-1)) linkNext(c, page as readonly object[], limit);
      return c.json({ ...beside, items: page });
    }
    const etag = looking.tagOf?.(found as T);
    if (etag !== undefined) c.header("etag", etag);
    return maybeSame && etag !== undefined && isFresh(c, etag) ? c.body(null, 304) : c.json(found as object);
  }) as never);
}
