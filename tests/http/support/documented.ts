/** Calls the app and holds every answer of the API against its own OpenAPI entry: status, media type and shape. */
import type { z } from "@hono/zod-openapi";
import type { Hono } from "hono";
import { expect } from "vitest";
import { api } from "../../../src/http/api/index.js";
import type { AppEnv } from "../../../src/http/bindings.js";

interface Answers {
  readonly [status: string]: { readonly content?: Readonly<Record<string, { readonly schema: unknown }>> };
}

export const routes = api.openAPIRegistry.definitions.flatMap((definition) =>
  definition.type === "route"
    ? [
        {
          method: definition.route.method.toUpperCase(),
          path: definition.route.path,
          responses: definition.route.responses as Answers,
        },
      ]
    : [],
);

const routeOf = (method: string, path: string) =>
  routes
    .filter((route) => route.method === method && new RegExp(`^${route.path.replaceAll(/\{\w+\}/g, "[^/]+")}$`).test(path))
    .sort((a, b) => a.path.split("{").length - b.path.split("{").length)[0];

export const BASE = "http://localhost:4700";

export function documented(app: Hono<AppEnv>) {
  return async (path: string, init: RequestInit = {}): Promise<Response> => {
    const response = await app.request(new Request(`${BASE}${path}`, { duplex: "half", ...init } as RequestInit));
    const route = routeOf(init.method ?? "GET", path.split("?")[0]!);
    if (route) await conforms(route, response.clone());
    return response;
  };
}

async function conforms(route: (typeof routes)[number], response: Response): Promise<void> {
  const name = `${route.method} ${route.path} answers ${response.status}`;
  const answer = route.responses[response.status];
  expect(answer, `${name}, which is not documented`).toBeDefined();
  if (!answer?.content) return;
  const type = (response.headers.get("content-type") ?? "").split(";")[0]!;
  const schema = answer.content[type]?.schema;
  expect(schema, `${name} as ${type}, which is not documented`).toBeDefined();
  if (!type.endsWith("json")) return;
  const read = (schema as z.ZodType).safeParse(await response.json());
  expect(read.error?.issues ?? [], name).toEqual([]);
}
