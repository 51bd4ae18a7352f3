/** The four routes of a noun that the shop keeps as it is: list, find, and the doors of its two acts. */
import { createRoute, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import type { Act } from "../../acts/act.js";
import { nameOf, type OnRecord } from "../../acts/record.js";
import type { AnswerName } from "../../acts/refusals.js";
import type { Kept } from "../../records/columns.js";
import type { Database } from "../../records/database.js";
import type { Page, PageWanted } from "../../records/noun.js";
import type { AppEnv } from "../bindings.js";
import { ALWAYS, json, problems } from "./answers.js";
import { apiDoor } from "./api.js";
import { etagOf } from "./etag.js";
import { look } from "./look.js";
import { paged } from "./paged.js";
import { router } from "./router.js";

export interface Resource<Row extends Kept> {
  /** /api/owners */
  readonly path: string;
  /** owner, part kind: for descriptions and operation ids. */
  readonly one: string;
  readonly many: string;
  readonly kept: z.ZodType;
  /** Query parameters that narrow the list, and what they do. */
  readonly narrow?: Readonly<Record<string, string | z.ZodType>>;
  /** What it answers moves without its version, so a version does not say that it is the same. */
  readonly moves?: true;
  readonly list: (db: Database, wanted: PageWanted, narrow: Readonly<Record<string, string>>, now: Date) => Promise<Page<Row>>;
  readonly find: (db: Database, id: string, now: Date) => Promise<Row | undefined>;
  readonly add: Act<z.ZodObject, Row>;
  readonly replace: Act<z.ZodObject, Row, OnRecord>;
  readonly withdraw?: Act<z.ZodObject, Row, OnRecord>;
  readonly replaceRefusals?: readonly AnswerName[];
}

export function resource<Row extends Kept>({
  path,
  one,
  many,
  kept,
  list,
  find,
  add,
  replace,
  withdraw,
  ...noun
}: Resource<Row>) {
  const app = router();
  const tags = [many];
  const narrow = Object.fromEntries(
    Object.entries(noun.narrow ?? {}).map(([name, by]) => [
      name,
      typeof by === "string" ? z.string().max(100).optional().meta({ description: by }) : by.optional(),
    ]),
  );
  app.openapi(
    createRoute({
      method: "get",
      path,
      tags,
      operationId: nameOf("list", many),
      summary: `A page of ${many}`,
      description: "Oldest first; follow Link rel=next for more",
      request: { query: z.strictObject({ ...paged.shape, ...narrow }) },
      responses: {
        200: {
          ...json(
            z.strictObject({ items: z.array(kept) }),
            `${many}; a Link header with rel="next" when there are more (RFC 8288)`,
          ),
          headers: { Link: { schema: { type: "string" }, description: "RFC 8288" } },
        },
        ...problems("query refused", ...ALWAYS),
      },
    }),
    (async (c: Context<AppEnv>) => {
      const { limit, after, ...rest } = c.req.valid("query" as never) as { limit: number; after?: string };
      const { rows, next } = await list(c.var.db, { limit, after }, rest, c.var.clock());
      if (next !== undefined)
        c.header("link", `<${path}?${new URLSearchParams({ ...rest, limit: String(limit), after: next })}>; rel="next"`);
      return c.json({ items: rows }, 200);
    }) as never,
  );

  look(app, {
    ...{ path: `${path}/{id}` as const, tag: many, name: nameOf("find", one), title: `One ${one}`, answer: kept, says: one },
    description: noun.moves
      ? "Its ETag is the version of what was typed; its state moves without it"
      : "Its ETag is its version: If-None-Match with it is answered 304 while nothing has changed",
    none: `There is no such ${one}.`,
    one: (c, { id }) => find(c.var.db, id!, c.var.clock()),
    ...{ tagOf: etagOf, moves: noun.moves },
  });

  apiDoor(app, add, {
    ...{ path, tag: many, on: () => ({}), refusals: ["id taken"] },
    description: "Its id may be chosen by the sender",
    headers: (record) => ({ location: `${path}/${encodeURIComponent(record.id)}`, etag: etagOf(record) }),
    headersTold: { Location: "The new record", ETag: "Its version" },
  });
  apiDoor(app, replace, {
    ...{ method: "put", path: `${path}/{id}` as const, tag: many, onVersion: true },
    refusals: ["not found", "id taken", ...(withdraw ? (["withdrawn already"] as const) : []), ...(noun.replaceRefusals ?? [])],
    description:
      "Wants If-Match with the version last seen; where another stands by now, it is told (412) and nothing is changed",
    on: ({ id }, seen) => ({ id: id!, seen }),
    headers: (record) => ({ etag: etagOf(record) }),
    headersTold: { ETag: "Its version" },
  });
  if (withdraw)
    apiDoor(app, withdraw, {
      ...{ path: `${path}/{id}/withdrawal` as const, tag: many, refusals: ["not found", "withdrawn already", "part wanted"] },
      description: "It stays on record, with who, when and why, and is listed only when asked for",
      example: { by: "Wilhelmina Stråhle", reason: "typed for another part" },
      on: ({ id }) => ({ id: id! }),
      headers: (record) => ({ etag: etagOf(record) }),
      headersTold: { ETag: "Its version" },
    });
  return app;
}
