/** Every operation of OpenAPI: as its example has it, changed in one place, broken as text, and with a key that no schema knows. */
import { jpeg, png, webp } from "../http/support/pictures.js";
import { type Answering, asked, BASE, type Dice, type Fuzzed, HOSTILE, type Json, UNKNOWN, written } from "./fuzz.js";

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

interface Schema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly example?: Json;
}
type Schemas = Readonly<Record<string, Schema>>;

const whole = (schema: Schema, named: Schemas): readonly Schema[] => {
  const { $ref, anyOf = [], oneOf = [], allOf = [] } = schema;
  const of = $ref === undefined ? schema : named[$ref.split("/").at(-1)!]!;
  if (of !== schema) return whole(of, named);
  const parts = [...anyOf, ...oneOf, ...allOf];
  return parts.length > 0 ? parts.flatMap((part) => whole(part, named)) : [schema];
};

/** Where in a value stands an object of which every key is said: none besides is to be taken there. */
function closedPlaces(
  value: Json,
  schemas: readonly Schema[],
  named: Schemas,
  at: readonly (string | number)[] = [],
): (typeof at)[] {
  if (value === null || typeof value !== "object") return [];
  const into = (each: Json, of: readonly (Schema | undefined)[], key: string | number) =>
    closedPlaces(
      each,
      of.flatMap((schema) => (schema ? whole(schema, named) : [])),
      named,
      [...at, key],
    );
  if (Array.isArray(value))
    return value.flatMap((each: Json, index) =>
      into(
        each,
        schemas.map(({ items }) => items),
        index,
      ),
    );
  const objects = schemas.filter(({ type, properties }) => type === "object" || properties);
  const inner = Object.entries(value).flatMap(([key, each]) =>
    into(
      each,
      objects.map(
        ({ properties, additionalProperties: rest }) => properties?.[key] ?? (typeof rest === "object" ? rest : undefined),
      ),
      key,
    ),
  );
  const closed = objects.length > 0 && objects.every(({ additionalProperties }) => additionalProperties === false);
  return closed ? [at, ...inner] : inner;
}

const withUnknown = (value: Json, [key, ...rest]: readonly (string | number)[]): Json => {
  if (key === undefined) return { ...(value as object), [UNKNOWN]: 1 };
  const next = withUnknown((value as Record<string | number, Json>)[key]!, rest);
  return Array.isArray(value) ? value.with(key as number, next) : { ...(value as object), [key]: next };
};

export interface Operation {
  readonly method: string;
  readonly path: string;
  /** What it takes, where that is JSON. */
  readonly example?: Json;
  /** Of the example. */
  readonly closed: readonly (readonly (string | number)[])[];
  /** What it takes, where that is bytes. */
  readonly bytes?: string;
}

interface Document {
  readonly paths: Readonly<
    Record<string, Readonly<Record<string, { requestBody?: { content?: Record<string, { example?: Json; schema?: Schema }> } }>>>
  >;
  readonly components: { readonly schemas: Schemas };
}

export async function operationsOf(app: Answering): Promise<Operation[]> {
  const { paths, components } = (await (await app.request(`${BASE}/openapi.json`)).json()) as Document;
  const named = components.schemas;
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, { requestBody }]): Operation => {
      const [[type, taken] = ["", undefined]] = Object.entries(requestBody?.content ?? {});
      const told = { method: method.toUpperCase(), path };
      if (!taken) return { ...told, closed: [] };
      if (type !== "application/json") return { ...told, closed: [], bytes: type };
      const schemas = taken.schema ? whole(taken.schema, named) : [];
      const example = taken.example ?? taken.schema?.example ?? schemas[0]?.example ?? {};
      return { ...told, example, closed: closedPlaces(example, schemas, named) };
    }),
  );
}

/** Ids that are there, by noun. */
type Ids = ReadonlyMap<string, readonly string[]>;

export async function idsOf(app: Answering): Promise<Ids> {
  const found = new Map<string, string[]>();
  for (const noun of [
    "jobs",
    "owners",
    "units",
    "estimates",
    "models",
    "part-kinds",
    "offers",
    "rate-books",
    "staff",
    "tokens",
  ]) {
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

/** One request to an operation: as its example has it, changed, or broken. */
export async function fuzzOperation(app: Answering, operation: Operation, ids: Ids, of: Dice, into: Fuzzed) {
  const { method, path, example, closed, bytes } = operation;
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
  const headers: Record<string, string> = { "sec-fetch-site": "same-origin" };
  if (of.next() < 0.6) headers["if-match"] = of.one(['"1"', "*", "*", "*", '"x"', 'W/"1"', ""]);
  if (of.next() < 0.2) headers["idempotency-key"] = of.one(["k", "x".repeat(300), "a b", '"1"']);
  const unknown = of.next() < 0.1 && closed.length > 0 ? of.one(closed) : undefined;
  const { body, type } =
    bytes !== undefined
      ? {
          body: of.next() < 0.5 ? damaged(of.one(PICTURES), of) : new TextEncoder().encode("x".repeat(of.below(2000))),
          type: bytes,
        }
      : example === undefined
        ? {}
        : unknown
          ? { body: written(withUnknown(example, unknown)), type: "application/json" }
          : { body: broken(example, of), type: of.next() < 0.04 ? of.one(TYPES) : "application/json" };
  if (type) headers["content-type"] = type;
  const init: RequestInit = { method, headers, ...(body !== undefined && method !== "GET" && { body }) };
  const answer = await asked(app, `${method} ${path}`, filled + query, init, into);
  if (unknown && answer && answer.status < 300)
    into.faults.push(`${method} ${path}: took '${UNKNOWN}' at /${unknown.join("/")} and answered ${answer.status}`);
}

const TYPES = ["text/plain", "application/xml", "", "application/json; charset=utf-16"];
const PICTURES = [jpeg(), png(8, 4), webp()];

/** JSON as text: whole, changed, cut off, with a key said twice, or with nothing but levels. */
function broken(example: Json, of: Dice): string {
  const how = of.next();
  if (how < 0.15) return written(example);
  if (how < 0.18) return of.one(LEVELS);
  const text = written(mutated(example, of));
  if (how < 0.22) return text.slice(0, of.below(text.length + 1));
  const keys = example !== null && typeof example === "object" ? Object.keys(example) : [];
  if (how < 0.3 && keys.length > 0)
    return written(example).replace("{", `{${JSON.stringify(of.one(keys))}:${written(of.one(HOSTILE))},`);
  return text;
}
const LEVELS = [500, 100_000].flatMap((levels) => [
  "[".repeat(levels),
  `${"[".repeat(levels)}${"]".repeat(levels)}`,
  `${'{"a":'.repeat(levels)}0${"}".repeat(levels)}`,
  `{"name":${'{"name":'.repeat(levels)}""${"}".repeat(levels)}}`,
]);

/** Some bytes are others, or it is cut off. */
export function damaged(bytes: Uint8Array, of: Dice): Uint8Array<ArrayBuffer> {
  const other = Uint8Array.from(bytes);
  for (let times = of.below(4); times > 0; times -= 1) other[of.below(other.length)] = of.below(256);
  return of.next() < 0.3 ? other.slice(0, of.below(other.length)) : other;
}
