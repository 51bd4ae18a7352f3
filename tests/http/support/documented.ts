/**
 * Calls the app and holds every answer of the API against the OpenAPI document as it is served: status, media type, headers and body.
 * Judge of bodies: JSON Schema 2020-12 by ajv, which knows nothing of our own schemas.
 */
import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import type { Hono } from "hono";
import { expect } from "vitest";
import { ANSWERS } from "../../../src/acts/refusals.js";
import { openApiDocument } from "../../../src/http/api/index.js";
import type { AppEnv } from "../../../src/http/bindings.js";
import { holdTo, type Told, untold } from "../../acts/support/told.js";

interface Answer {
  readonly content?: Readonly<Record<string, { readonly schema?: unknown }>>;
  readonly headers?: Readonly<Record<string, unknown>>;
}
interface Shape {
  readonly $ref?: string;
  readonly properties?: Readonly<Record<string, unknown>>;
}
interface Operation {
  readonly responses: Readonly<Record<string, Answer>>;
  readonly parameters?: readonly { readonly name: string }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema?: Shape }>> };
}
interface Document {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
  readonly components: { readonly schemas: Readonly<Record<string, Shape>> };
}

const DOCUMENT = JSON.parse(openApiDocument()) as Document;

export const routes = Object.entries(DOCUMENT.paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, { responses, parameters = [], requestBody }]) => ({
    ...{ method: method.toUpperCase(), path, responses },
    onVersion: parameters.some(({ name }) => name === "if-match"),
    body: keysOf(requestBody?.content["application/json"]?.schema),
  })),
);

/** Where its keys are told by name. */
function keysOf(shape: Shape | undefined): readonly string[] | undefined {
  const meant = shape?.$ref === undefined ? shape : DOCUMENT.components.schemas[shape.$ref.split("/").at(-1)!];
  return meant?.properties && Object.keys(meant.properties);
}

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

const ajv = new Ajv2020({ strict: false, allErrors: true, validateFormats: true });
addFormats.default(ajv);
ajv.addSchema(DOCUMENT as object, "openapi.json");

const made = new Map<string, ValidateFunction>();

/** The schema is found where it stands in the document, so that its references lead where a program's would. */
function judge(pointer: readonly string[]): ValidateFunction {
  const ref = `openapi.json#/${pointer.map((step) => encodeURIComponent(step.replaceAll("~", "~0").replaceAll("/", "~1"))).join("/")}`;
  const known = made.get(ref) ?? ajv.compile({ $ref: ref });
  made.set(ref, known);
  return known;
}

/** Those that a program acts on: where one is sent, the document says so. */
const WATCHED = ["allow", "etag", "idempotency-replayed", "link", "location", "retry-after", "www-authenticate"];

async function conforms(route: (typeof routes)[number], response: Response): Promise<void> {
  const name = `${route.method} ${route.path} answers ${response.status}`;
  const answer = route.responses[response.status];
  expect(answer, `${name}, which is not documented`).toBeDefined();
  const told = Object.keys(answer?.headers ?? {}).map((header) => header.toLowerCase());
  const untold = WATCHED.filter((header) => response.headers.has(header) && !told.includes(header));
  expect(untold, `${name} with headers that are not documented`).toEqual([]);
  if (!answer?.content) return;
  const type = (response.headers.get("content-type") ?? "").split(";")[0]!;
  expect(answer.content[type]?.schema, `${name} as ${type}, which is not documented`).toBeDefined();
  if (!type.endsWith("json")) return;
  const body = await response.json();
  if (type === "application/problem+json") says(name, body as Problem, route, response.headers);
  const validate = judge([
    "paths",
    route.path,
    route.method.toLowerCase(),
    "responses",
    String(response.status),
    "content",
    type,
    "schema",
  ]);
  validate(body);
  expect(validate.errors ?? [], name).toEqual([]);
}

interface Problem extends Omit<Told, "is"> {
  readonly type: string;
}

/** A problem is one of the catalogue, in sentences, at the fields of the body; one about versions tells the one that stands. */
function says(name: string, { type, ...problem }: Problem, { body, onVersion }: (typeof routes)[number], headers: Headers): void {
  const is = type.replace("/problems/", "");
  const etag = headers.get("etag") ?? undefined;
  const told = { ...problem, is: NAMES.get(is) ?? is, ...(etag && { headers: { etag } }) };
  holdTo(untold(told, body), `${name} with '${type}'`);
  if (onVersion && /^version-/.test(is)) expect(etag, `${name} with '${type}': its ETag`).toMatch(/^"\d+"$/);
}

const NAMES = new Map(Object.keys(ANSWERS).map((name) => [name.replaceAll(" ", "-"), name]));
