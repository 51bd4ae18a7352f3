/** What the document says of every operation alike: headers by status, descriptions, and a name and an example of each body. */
import { EXAMPLES } from "./examples.js";
import { OPERATIONS, SCHEMAS } from "./said.js";

interface Said {
  readonly description?: string;
  readonly headers?: Readonly<Record<string, unknown>>;
}
export interface Operation {
  readonly operationId?: string;
  readonly summary?: string;
  readonly description?: string;
  readonly parameters?: readonly { readonly name?: string }[];
  readonly requestBody?: {
    readonly content?: Readonly<Record<string, { readonly schema?: object; readonly example?: unknown }>>;
  };
  readonly responses?: Readonly<Record<string, Said>>;
}

const header = (description: string) => ({ schema: { type: "string" }, description });
const ETAG = { ETag: header("The version that stands") };
const RETRY = { "Retry-After": header("Seconds to wait before sending it again") };

const HEADERS: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  304: ETAG,
  401: { "WWW-Authenticate": header("Bearer, and what is wrong with the token sent (RFC 6750)") },
  409: { ...ETAG, ...RETRY, Location: header("The record that stands in the way") },
  412: ETAG,
  428: ETAG,
  429: RETRY,
  503: RETRY,
};
const REPLAYED = {
  "Idempotency-Replayed": header("true where the reply is that of an earlier request with this key"),
};

type Schemas = Readonly<Record<string, { readonly description?: string }>>;

/** A body without a name is called as its operation is: AddOwner. */
const nameOf = (operationId: string): string => operationId[0]!.toUpperCase() + operationId.slice(1);

/** Moves the body's schema to `named` unless it has a name already. */
export function withBody<O extends Operation>(operation: O, named: Record<string, object>): O {
  const { operationId = "", requestBody } = operation;
  const body = requestBody?.content?.["application/json"];
  if (!body?.schema) return operation;
  const example = body.example ?? EXAMPLES[operationId];
  const name = nameOf(operationId);
  if (!("$ref" in body.schema)) named[name] = { ...body.schema, description: `Body of ${operationId}` };
  const schema = "$ref" in body.schema ? body.schema : { $ref: `#/components/schemas/${name}` };
  const content = { ...requestBody?.content, "application/json": { ...body, schema, ...(example !== undefined && { example }) } };
  return { ...operation, requestBody: { ...requestBody, content } };
}

export function described<O extends Operation>(operation: O): O {
  const description = operation.description ?? OPERATIONS[operation.operationId ?? ""];
  return description === undefined ? operation : { ...operation, description };
}

export const describedSchemas = (schemas: Schemas): Schemas =>
  Object.fromEntries(
    Object.entries(schemas).map(([name, schema]) => [
      name,
      schema.description === undefined && SCHEMAS[name] !== undefined ? { ...schema, description: SCHEMAS[name] } : schema,
    ]),
  );

export function withHeaders<O extends Operation>(operation: O): O {
  const keyed = operation.parameters?.some(({ name }) => name === "idempotency-key") ?? false;
  const responses = Object.entries(operation.responses ?? {}).map(([status, said]) => {
    const headers = { ...HEADERS[status], ...(keyed && status.startsWith("2") && REPLAYED), ...said.headers };
    return [status, Object.keys(headers).length > 0 ? { ...said, headers } : said];
  });
  return { ...operation, responses: Object.fromEntries(responses) };
}
