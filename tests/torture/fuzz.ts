/** Every operation of OpenAPI and every form of the pages, with what they take and with what they should not: seeded, in this process. */
import { performance } from "node:perf_hooks";
import { formsOn } from "../http/support/noScript.js";

export interface Answering {
  readonly request: (address: string, init?: RequestInit) => Response | Promise<Response>;
}

export interface Fuzzed {
  requests: number;
  /** Route -> how often, how often refused, worst milliseconds. */
  readonly routes: Map<string, { times: number; refused: number; worst: number }>;
  readonly faults: string[];
  readonly slowest: number;
}

/** `slowest`: milliseconds beyond which an answer is a fault; a test that shares its machine has none. */
export const counting = (slowest = Number.POSITIVE_INFINITY): Fuzzed => ({ requests: 0, routes: new Map(), faults: [], slowest });

const BASE = "http://localhost:4700";
const UNKNOWN = "noSuchField";

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const deep = (levels: number): Json => {
  let value: Json = 0;
  for (let level = 0; level < levels; level += 1) value = [value];
  return value;
};

/** Of a program that means harm, or has a fault. */
const HOSTILE: readonly Json[] = [
  ...[null, true, -0, -1, 0.1, 1e308, -1e308, 2 ** 53, -(2 ** 53), 1e-9, "", " ", "\0", "a\0b", "\ud800", "\udfff\ud800"],
  ...["x".repeat(70_000), "=1+1", "<img src=x onerror=alert(1)>", "'; DROP TABLE owners; --", "../../etc/passwd", "%00", "NaN"],
  ...[
    "2026-02-30",
    "9999-12-31",
    "-000001-01-01",
    "0x10",
    "١٢",
    "1e9",
    "\u202eabc",
    "😀".repeat(300),
    "constructor",
    "__proto__",
  ],
  ...[[], [[]], {}, { __proto__: null, a: 1 } as Json, deep(500), Array(3000).fill("a") as Json, Array(50).fill({}) as Json],
];

/** mulberry32: the same numbers from the same seed everywhere. */
export function dice(seed: number) {
  let state = seed;
  const next = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const below = (most: number) => Math.floor(next() * most);
  return { next, below, one: <T>(of: readonly T[]): T => of[below(of.length)]! };
}
type Dice = ReturnType<typeof dice>;

/** One place of it is another value, gone, or beside a key that nobody knows. */
function mutated(value: Json, of: Dice): Json {
  if (value === null || typeof value !== "object" || of.next() < 0.15) return of.one(HOSTILE);
  if (Array.isArray(value)) {
    if (value.length === 0 || of.next() < 0.2) return [...value, ...value, of.one(HOSTILE)];
    const at = of.below(value.length);
    return value.map((each: Json, index) => (index === at ? mutated(each, of) : each));
  }
  const keys = Object.keys(value);
  if (keys.length === 0 || of.next() < 0.1)
    return { ...value, [of.one([UNKNOWN, "__proto__", "id", "version", ""])]: of.one(HOSTILE) };
  const key = of.one(keys);
  const { [key]: own, ...rest } = value as Record<string, Json>;
  return of.next() < 0.15 ? rest : { ...rest, [key]: mutated(own!, of) };
}

export interface Operation {
  readonly method: string;
  readonly path: string;
  readonly example?: Json;
}

/** Those that take a whole shop away are left out: what comes after them would be refused at the door. */
const ENDS_IT = /^\/api\/(restore|staff|tokens|invitations)/;

export async function operationsOf(app: Answering): Promise<Operation[]> {
  const { paths, components } = (await (await app.request(`${BASE}/openapi.json`)).json()) as {
    paths: Record<
      string,
      Record<
        string,
        { requestBody?: { content?: Record<string, { example?: Json; schema?: { example?: Json; $ref?: string } }> } }
      >
    >;
    components: { schemas: Record<string, { example?: Json }> };
  };
  return Object.entries(paths).flatMap(([path, methods]) =>
    ENDS_IT.test(path)
      ? []
      : Object.entries(methods).map(([method, { requestBody }]) => {
          const json = requestBody?.content?.["application/json"];
          const named = json?.schema?.$ref?.split("/").at(-1);
          const example = json?.example ?? json?.schema?.example ?? (named ? components.schemas[named]?.example : undefined);
          return { method: method.toUpperCase(), path, ...(json && { example: example ?? {} }) };
        }),
  );
}

/** Ids that are there, by noun. */
type Ids = ReadonlyMap<string, readonly string[]>;

export async function idsOf(app: Answering): Promise<Ids> {
  const found = new Map<string, string[]>();
  for (const noun of ["jobs", "owners", "units", "estimates", "models", "part-kinds", "offers", "rate-books"]) {
    const answer = await app.request(`${BASE}/api/${noun}`);
    if (answer.status !== 200) continue;
    const { items = [] } = (await answer.json()) as { items?: readonly { readonly id: string }[] };
    found.set(
      noun,
      items.slice(0, 6).map(({ id }) => id),
    );
  }
  return found;
}

const BAD_IDS = ["%00", "..%2f..", "x".repeat(3000), "%F0%9F%98%80", "-1", "%ud800", "a%20b", "'", "null"];

async function asked(
  app: Answering,
  route: string,
  path: string,
  init: RequestInit,
  into: Fuzzed,
): Promise<Response | undefined> {
  into.requests += 1;
  const began = performance.now();
  let answer: Response;
  try {
    answer = await app.request(BASE + path, { redirect: "manual", ...init });
  } catch (error) {
    into.faults.push(`${route}: thrown ${(error as Error).message} at ${path.slice(0, 200)}`);
    return undefined;
  }
  const text = await answer.clone().text();
  const took = performance.now() - began;
  const told = into.routes.get(route) ?? { times: 0, refused: 0, worst: 0 };
  into.routes.set(route, {
    times: told.times + 1,
    refused: told.refused + (answer.status >= 400 ? 1 : 0),
    worst: Math.max(told.worst, took),
  });
  const sent = `${path.slice(0, 120)} ${String(init.body ?? "").slice(0, 400)}`;
  if (answer.status >= 500 && answer.status !== 503) into.faults.push(`${route}: ${answer.status} for ${sent}`);
  if (took > into.slowest) into.faults.push(`${route}: ${Math.round(took)} ms for ${sent}`);
  const type = answer.headers.get("content-type") ?? "";
  if (answer.status >= 400 && text !== "" && !/^(application\/problem\+json|text\/html)/.test(type))
    into.faults.push(`${route}: ${answer.status} as '${type}' for ${sent}`);
  return answer;
}

/** One request to an operation: as its example has it, changed, or broken. */
export async function fuzzOperation(app: Answering, operation: Operation, ids: Ids, of: Dice, into: Fuzzed) {
  const { method, path, example } = operation;
  const all = [...ids.values()].flat();
  // One of the noun it stands after, of another, or none at all.
  const filled = path.replaceAll(/(?<=\/([a-z-]+)\/)\{[^}]+\}/g, (_, noun: string) => {
    const own = ids.get(noun) ?? [];
    return of.next() < 0.15 ? of.one(BAD_IDS) : own.length > 0 && of.next() < 0.8 ? of.one(own) : of.one(all);
  });
  const query =
    of.next() < 0.15
      ? `?${of.one(["limit", "after", "q", "of", "at"])}=${of.one(["-1", "%00", "1e9", "", "%F0%9F", "x".repeat(500)])}`
      : "";
  const unknown = of.next() < 0.1;
  const kept = of.next() < 0.15 || unknown;
  const body =
    example === undefined
      ? undefined
      : unknown
        ? { ...(example as object), [UNKNOWN]: 1 }
        : kept
          ? example
          : mutated(example, of);
  const text = body === undefined ? undefined : JSON.stringify(body);
  const cut = text !== undefined && !kept && of.next() < 0.05 ? text.slice(0, of.below(text.length + 1)) : text;
  const type =
    of.next() < 0.04 ? of.one(["text/plain", "application/xml", "", "application/json; charset=utf-16"]) : "application/json";
  const headers: Record<string, string> = { "sec-fetch-site": "same-origin" };
  if (type && cut !== undefined) headers["content-type"] = type;
  if (of.next() < 0.6) headers["if-match"] = of.one(['"1"', "*", "*", "*", '"x"', 'W/"1"', ""]);
  if (of.next() < 0.2) headers["idempotency-key"] = of.one(["k", "x".repeat(300), "a b", '"1"']);
  const init: RequestInit = { method, headers, ...(cut !== undefined && method !== "GET" && { body: cut }) };
  const answer = await asked(app, `${method} ${path}`, filled + query, init, into);
  const plain = example !== null && typeof example === "object" && !Array.isArray(example);
  if (unknown && plain && type === "application/json" && answer && answer.status < 300)
    into.faults.push(`${method} ${path}: took '${UNKNOWN}' and answered ${answer.status}`);
}

export interface PageForm {
  readonly page: string;
  readonly action: string;
  readonly fields: readonly (readonly [string, string])[];
}

/** Forms of the pages that links lead to, from the first on. */
export async function formsFrom(app: Answering, most: number): Promise<PageForm[]> {
  const [seen, left, found]: [Set<string>, string[], PageForm[]] = [new Set(["/"]), ["/"], []];
  const kinds = new Map<string, number>();
  while (left.length > 0 && seen.size < most) {
    const page = left.shift()!;
    const answer = await app.request(BASE + page, { headers: { accept: "text/html" } });
    if (!(answer.headers.get("content-type") ?? "").startsWith("text/html")) continue;
    const html = await answer.text();
    for (const [, href] of html.matchAll(/<a [^>]*?href="(\/[^"#]*)/g)) {
      const to = href!.replaceAll("&amp;", "&");
      const kind = to.replaceAll(/[0-9a-f-]{20,}|\d+/g, "*");
      if (seen.has(to) || (kinds.get(kind) ?? 0) >= 2) continue;
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      seen.add(to);
      left.push(to);
    }
    for (const { action, fields, buttons } of formsOn(html))
      for (const button of buttons.slice(0, 4))
        found.push({
          page,
          action: button.action ?? action ?? page,
          fields: [...fields, ...(button.name ? [[button.name, button.value] as const] : [])],
        });
  }
  return found.filter(({ action }) => !/set-up|sign|account|staff|restore|erase/.test(action));
}

const TEXTS = HOSTILE.map((each) => (typeof each === "string" ? each : JSON.stringify(each).slice(0, 2000)));

export async function fuzzForm(app: Answering, { action, fields }: PageForm, of: Dice, into: Fuzzed) {
  const pairs = fields.map(([name, value]) => [name, value] as [string, string]);
  for (let times = of.below(4); times > 0 && pairs.length > 0; times -= 1) {
    const at = of.below(pairs.length);
    const [name] = pairs[at]!;
    const how = of.next();
    if (how < 0.15) pairs.splice(at, 1);
    else if (how < 0.3) pairs.push([name, of.one(TEXTS)]);
    else if (how < 0.4) pairs[at] = [of.one([`${name}.0`, `${name}.__proto__`, "", `${name}\0`]), of.one(TEXTS)];
    else pairs[at] = [name, of.one(TEXTS)];
  }
  const route = `FORM ${action.replaceAll(/[0-9a-f-]{20,}|\d+/g, "*").replace(/\?.*/, "")}`;
  const headers = { "sec-fetch-site": "same-origin", accept: "text/html" };
  const body =
    of.next() < 0.1
      ? multipart(pairs, of)
      : { body: new URLSearchParams(pairs).toString(), type: "application/x-www-form-urlencoded" };
  await asked(app, route, action, { method: "POST", headers: { ...headers, "content-type": body.type }, body: body.body }, into);
}

/** Whole, or cut off. */
function multipart(pairs: readonly (readonly [string, string])[], of: Dice) {
  const part = ([name, value]: readonly [string, string]) =>
    `--edge\r\ncontent-disposition: form-data; name="${name.replaceAll(/["\r\n\0]/g, "")}"${of.next() < 0.2 ? '; filename="a\0b.csv"' : ""}\r\n\r\n${value}\r\n`;
  const whole = `${pairs.map(part).join("")}--edge--\r\n`;
  return { body: of.next() < 0.5 ? whole.slice(0, of.below(whole.length)) : whole, type: "multipart/form-data; boundary=edge" };
}
