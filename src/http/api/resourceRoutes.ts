/** The four routes of a noun as the OpenAPI document describes them; `resource.ts` answers them. */
import { createRoute, z } from "@hono/zod-openapi";
import { newId } from "../../acts/record.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { once } from "./once.js";

export interface Described {
  /** /api/owners */
  readonly path: string;
  /** owner, rate book: for descriptions and operation ids. */
  readonly one: string;
  readonly many: string;
  readonly value: z.ZodObject;
  readonly kept: z.ZodObject;
  /** Query parameters that narrow the list, and what they do. */
  readonly narrow?: Readonly<Record<string, string>>;
}

const DEFAULT_LIMIT = 50;
const MOST_LIMIT = 200;

export function resourceRoutes(noun: Described) {
  const { path, one, many } = noun;
  const params = z.strictObject({ id: z.string().min(1).max(100) });
  const narrow = Object.fromEntries(
    Object.entries(noun.narrow ?? {}).map(([name, description]) => [name, z.string().max(100).optional().meta({ description })]),
  );
  const tags = [many];
  return {
    list: createRoute({
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

    add: createRoute({
      method: "post",
      path,
      tags,
      operationId: operation("add", one),
      summary: `Add ${article(one)}`,
      middleware: once,
      request: {
        headers: z.object({
          "idempotency-key": z.string().optional().meta({ description: "A repeat within a day gets the first answer again" }),
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

    find: createRoute({
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

    replace: createRoute({
      method: "put",
      path: `${path}/{id}`,
      tags,
      operationId: operation("replace", one),
      summary: `Replace ${article(one)}`,
      request: {
        params,
        headers: z.object({ "if-match": z.string().optional().meta({ description: "The ETag last seen; wanted" }) }),
        body: { required: true, content: { "application/json": { schema: noun.value } } },
      },
      responses: {
        200: { ...json(noun.kept, "Replaced"), headers: { ETag: { schema: { type: "string" }, description: "Its version" } } },
        ...problems("not found", "id taken", "version wanted", "version moved", "query refused", ...ON_BODY, ...ALWAYS),
      },
    }),
  };
}

/** listPartKinds */
const operation = (verb: string, name: string): string =>
  verb +
  name
    .split(" ")
    .map((word) => word[0]!.toUpperCase() + word.slice(1))
    .join("");

const article = (one: string): string => (/^[aeio]/.test(one) ? `an ${one}` : `a ${one}`);
