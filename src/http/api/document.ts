/** What the document says of every operation alike: the headers that go with a status, and a name for each body. */

interface Said {
  readonly description?: string;
  readonly headers?: Readonly<Record<string, unknown>>;
}
export interface Operation {
  readonly operationId?: string;
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

export function withHeaders<O extends Operation>(operation: O): O {
  const keyed = operation.parameters?.some(({ name }) => name === "idempotency-key") ?? false;
  const responses = Object.entries(operation.responses ?? {}).map(([status, said]) => {
    const headers = { ...HEADERS[status], ...(keyed && status.startsWith("2") && REPLAYED), ...said.headers };
    return [status, Object.keys(headers).length > 0 ? { ...said, headers } : said];
  });
  return { ...operation, responses: Object.fromEntries(responses) };
}
