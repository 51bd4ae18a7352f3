/** The four routes every noun has: list, add, find, replace. What a noun does beyond them stands in its own file. */
import { createRoute, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { Added, Page, PageWanted, Replaced } from "../../records/answers.js";
import type { Database, Instant } from "../../records/database.js";
import type { AppEnv } from "../bindings.js";
import { type RefuseWith, refuse } from "../problems/refuse.js";
import type { Fault } from "../problems/shape.js";
import { newId } from "../schemas/resources.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { etagOf, isFresh, matches } from "./etag.js";
import { once } from "./once.js";
import { router } from "./router.js";

type Kept = { readonly id: string; readonly version: number };

export interface Resource<Value, Record extends Kept, Other extends { readonly is: string } = never> {
  /** /api/owners */
  readonly path: string;
  /** owner, rate book: for descriptions and operation ids. */
  readonly one: string;
  readonly many: string;
  readonly value: z.ZodObject;
  readonly kept: z.ZodObject;
  /** Query parameters that narrow the list. */
  readonly narrow?: Readonly<globalThis.Record<string, string>>;
  readonly list: (db: Database, wanted: PageWanted, narrow: Readonly<globalThis.Record<string, string>>) => Promise<Page<Record>>;
  readonly find: (db: Database, id: string) => Promise<Record | undefined>;
  readonly add: (db: Database, id: string, value: Value, at: Instant) => Promise<Added<Record>>;
  readonly replace: (
    db: Database,
    id: string,
    expectedVersion: number,
    value: Value,
    at: Instant,
  ) => Promise<Replaced<Record> | Other>;
  /** What is wrong with a value of the right shape. */
  readonly check?: (db: Database, value: Value) => Promise<readonly Fault[]>;
}

const DEFAULT_LIMIT = 50;
const MOST_LIMIT = 200;

/** `refuse` for handlers whose documented answers are typed. */
export const refused = (c: Context, ...rest: Parameters<typeof refuse> extends [unknown, ...infer Rest] ? Rest : never): never =>
  refuse(c, ...rest) as never;

export function resource<Value, Record extends Kept, Other extends { readonly is: string } = never>(
  noun: Resource<Value, Record, Other>,
  refuseOther?: (c: Context<AppEnv>, answer: Other) => never,
) {
  const { path, one, many } = noun;
  const operation = (verb: string, name: string) =>
    `${verb}${name
      .split(" ")
      .map((word) => word[0]!.toUpperCase() + word.slice(1))
      .join("")}`;
  const app = router();
  const params = z.strictObject({ id: z.string().min(1).max(100) });
  const narrow = Object.fromEntries(
    Object.entries(noun.narrow ?? {}).map(([name, description]) => [
      name,
      z.string().max(100).optional().openapi({ description }),
    ]),
  );
  const tags = [many];

  app.openapi(
    createRoute({
      method: "get",
      path,
      tags,
      operationId: operation("list", many),
      summary: `A page of ${many}`,
      request: {
        query: z.strictObject({
          limit: z.coerce.number().int().min(1).max(MOST_LIMIT).default(DEFAULT_LIMIT),
          after: z
            .string()
            .max(100)
            .optional()
            .openapi({ description: "The last id of the page before; follow Link rel=next instead" }),
          ...narrow,
        }),
      },
      responses: {
        200: {
          ...json(
            z.strictObject({ items: z.array(noun.kept) }),
            `${many}; a Link header with rel="next" when there are more (RFC 8288)`,
          ),
          headers: { Link: { schema: { type: "string" }, description: "RFC 8288" } },
        },
        ...problems("query refused", ...ALWAYS),
      },
    }),
    (async (c: Context<AppEnv>) => {
      const { limit, after, ...rest } = c.req.valid("query" as never) as { limit: number; after?: string };
      const page = await noun.list(c.var.db, { limit, after }, rest as Readonly<globalThis.Record<string, string>>);
      if (page.next !== undefined) {
        const query = new URLSearchParams({ ...rest, limit: String(limit), after: page.next });
        c.header("link", `<${path}?${query}>; rel="next"`);
      }
      return c.json({ items: page.rows }, 200);
    }) as never,
  );

  app.openapi(
    createRoute({
      method: "post",
      path,
      tags,
      operationId: operation("add", one),
      summary: `Add ${article(one)}`,
      middleware: once,
      request: {
        headers: z.object({
          "idempotency-key": z.string().optional().openapi({ description: "A repeat within a day gets the first answer again" }),
        }),
        body: { required: true, content: { "application/json": { schema: z.strictObject({ ...noun.value.shape, ...newId }) } } },
      },
      responses: {
        201: {
          ...json(noun.kept, "Added"),
          headers: {
            Location: { schema: { type: "string" }, description: "The new record" },
            ETag: { schema: { type: "string" }, description: "Its version" },
          },
        },
        ...problems("id taken", "header refused", "idempotency key in flight", "idempotency key reused", ...ON_BODY, ...ALWAYS),
      },
    }),
    (async (c: Context<AppEnv>) => {
      const { id = uuidv7(), ...value } = c.req.valid("json" as never) as Value & { id?: string };
      const errors = await noun.check?.(c.var.db, value as Value);
      if (errors?.length) return refused(c, "input refused", { errors });
      const answer = await noun.add(c.var.db, id, value as Value, c.var.clock().toISOString());
      if (answer.is === "taken") return refused(c, "id taken");
      if (answer.is === "unlinked") return refused(c, "input refused", unlinked(answer));
      c.header("location", `${path}/${encodeURIComponent(answer.record.id)}`);
      c.header("etag", etagOf(answer.record));
      return c.json(answer.record, 201);
    }) as never,
  );

  app.openapi(
    createRoute({
      method: "get",
      path: `${path}/{id}`,
      tags,
      operationId: operation("find", one),
      summary: `One ${one}`,
      request: { params },
      responses: {
        200: { ...json(noun.kept, one), headers: { ETag: { schema: { type: "string" }, description: "Its version" } } },
        304: { description: "Unchanged since the ETag sent in If-None-Match" },
        ...problems("not found", "query refused", ...ALWAYS),
      },
    }),
    (async (c: Context<AppEnv>) => {
      const record = await noun.find(c.var.db, (c.req.valid("param" as never) as { id: string }).id);
      if (!record) return refused(c, "not found", { detail: `There is no such ${one}.` });
      const tag = etagOf(record);
      c.header("etag", tag);
      return isFresh(c, tag) ? c.body(null, 304) : c.json(record, 200);
    }) as never,
  );

  app.openapi(
    createRoute({
      method: "put",
      path: `${path}/{id}`,
      tags,
      operationId: operation("replace", one),
      summary: `Replace ${article(one)}`,
      request: {
        params,
        headers: z.object({ "if-match": z.string().optional().openapi({ description: "The ETag last seen; wanted" }) }),
        body: { required: true, content: { "application/json": { schema: noun.value } } },
      },
      responses: {
        200: { ...json(noun.kept, "Replaced"), headers: { ETag: { schema: { type: "string" }, description: "Its version" } } },
        ...problems("not found", "id taken", "version wanted", "version moved", "query refused", ...ON_BODY, ...ALWAYS),
      },
    }),
    (async (c: Context<AppEnv>) => {
      const { id } = c.req.valid("param" as never) as { id: string };
      const value = c.req.valid("json" as never) as Value;
      const current = await noun.find(c.var.db, id);
      const held = heldBack(c, one, current);
      if (held) return held;
      const errors = await noun.check?.(c.var.db, value);
      if (errors?.length) return refused(c, "input refused", { errors });
      const answer = await noun.replace(c.var.db, id, current!.version, value, c.var.clock().toISOString());
      return replaced(c, one, answer, refuseOther);
    }) as never,
  );
  return app;
}

/** Why a change may not even be tried: no such record, no If-Match, or another version. */
export function heldBack(c: Context<AppEnv>, one: string, current: Kept | undefined): undefined | never {
  if (!current) return refused(c, "not found", { detail: `There is no such ${one}.` });
  const header = c.req.header("if-match");
  if (header === undefined) return refused(c, "version wanted", { headers: { etag: etagOf(current) } });
  return matches(header, etagOf(current)) ? undefined : refused(c, "version moved", moved(current));
}

/** The answer to a change that was tried. */
export function replaced<Record extends Kept, Other extends { readonly is: string }>(
  c: Context<AppEnv>,
  one: string,
  answer: Replaced<Record> | Other,
  refuseOther?: (c: Context<AppEnv>, answer: Other) => never,
) {
  const usual = answer as Replaced<Record>;
  switch (usual.is) {
    case "replaced":
      c.header("etag", etagOf(usual.record));
      return c.json(usual.record as never, 200);
    case "missing":
      return refused(c, "not found", { detail: `There is no such ${one}.` });
    case "moved":
      return refused(c, "version moved", moved(usual.current));
    case "taken":
      return refused(c, "id taken");
    case "unlinked":
      return refused(c, "input refused", unlinked(usual));
    default:
      if (refuseOther) return refuseOther(c, answer as Other);
      throw new Error(`Nobody answers '${(answer as Other).is}'.`);
  }
}

const moved = (current: Kept): RefuseWith => ({
  detail: `The record is at version ${current.version} by now; fetch it again and put your change on top.`,
  headers: { etag: etagOf(current) },
});

const unlinked = ({ field, id }: { readonly field: string; readonly id: string }): RefuseWith => ({
  errors: [
    { pointer: `/${field}`, name: "record unknown", detail: `${field} is '${id}', which names no record; add that one first.` },
  ],
});

const article = (one: string): string => (/^[aeio]/.test(one) ? `an ${one}` : `a ${one}`);
