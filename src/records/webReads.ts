/**
 * What reads a database over HTTP: all of it in one request, with each statement said once, where the client's batch stores a text, runs it
 * and forgets it, and walks through each answer three times.
 * Protocol: Hrana 2, JSON: github.com/tursodatabase/libsql, docs/HRANA_2_SPEC.md (from memory).
 */
import { type InArgs, type InValue, LibsqlError, type ResultSet } from "@libsql/client/http";
import { decodeBase64, encodeBase64 } from "hono/utils/encode";
import { numberOf, resultsOf } from "./readRows.js";
import type { Statement } from "./sideBySide.js";

type Value =
  | { readonly type: "null" }
  | { readonly type: "integer" | "text"; readonly value: string }
  | { readonly type: "float"; readonly value: number }
  | { readonly type: "blob"; readonly base64: string };

interface Answer {
  readonly cols: readonly { readonly name: string | null; readonly decltype?: string | null }[];
  readonly rows: readonly (readonly Value[])[];
}

interface Refusal {
  readonly message: string;
  readonly code?: string | null;
}

type Told = {
  readonly type: "ok" | "error";
  readonly error?: Refusal;
  readonly response?: {
    readonly result?: { readonly step_results: readonly (Answer | null)[]; readonly step_errors: readonly (Refusal | null)[] };
  };
};

/** An answer that was read to its end. */
export interface Heard {
  readonly status: number;
  readonly body: string;
  readonly type: string;
}

/** All of one moment of the database. Address and token as the client reads them; `ask` hears an answer, or throws. */
export function webReads(
  address: string,
  authToken: string | undefined,
  ask: (url: string, init: RequestInit) => Promise<Heard>,
) {
  const { searchParams } = new URL(address);
  const token = searchParams.get("authToken") ?? authToken;
  const headers = { "content-type": "application/json", ...(token && { authorization: `Bearer ${token}` }) };
  const url = new URL("v2/pipeline", address.replace(/^libsql:/i, searchParams.get("tls") === "0" ? "http:" : "https:")).href;
  return async (statements: readonly Statement[]): Promise<ResultSet[]> => {
    const asked = JSON.stringify({ requests: [{ type: "batch", batch: { steps: stepsOf(statements) } }, { type: "close" }] });
    const { status, body } = await ask(url, { method: "POST", headers, body: asked });
    if (status !== 200) throw new LibsqlError(body, "SERVER_ERROR");
    const told = (JSON.parse(body) as { readonly results?: readonly Told[] } | null)?.results?.[0];
    if (told?.error) throw refused(told.error);
    const { step_results, step_errors } = told?.response?.result ?? {};
    const wrong = step_errors?.find(Boolean);
    if (wrong) throw refused(wrong);
    return statements.map((_, step) => {
      const found = step_results?.[statements.length === 1 ? 0 : step + 1];
      if (!Array.isArray(found?.cols) || !Array.isArray(found.rows)) throw amiss();
      if (found.rows.some((row) => row?.length !== found.cols.length)) throw amiss();
      return resultsOf(found.cols.map(({ name, decltype }) => ({ name: name ?? "", type: decltype ?? "" })))(found.rows, asRead);
    });
  };
}

const refused = ({ message, code }: Refusal): LibsqlError => new LibsqlError(message, code ?? "UNKNOWN");

/** No answer of the database, then: told as the client tells it. */
const amiss = (): LibsqlError =>
  new LibsqlError("The database's server answered something else than it was asked.", "HRANA_PROTO_ERROR");

/** More than one in a transaction of their own; a statement that is refused ends it. */
function stepsOf(statements: readonly Statement[]): object[] {
  if (statements.length === 1) return statements.map((statement) => ({ stmt: stmtOf(statement) }));
  const after = (step: number) => ({ type: "ok", step });
  const last = statements.length + 1;
  return [
    { stmt: { sql: "BEGIN DEFERRED", want_rows: false } },
    ...statements.map((statement, at) => ({ condition: after(at), stmt: stmtOf(statement) })),
    { condition: after(last - 1), stmt: { sql: "COMMIT", want_rows: false } },
    { condition: { type: "not", cond: after(last) }, stmt: { sql: "ROLLBACK", want_rows: false } },
  ];
}

function stmtOf(statement: Statement): object {
  const [sql, args = []] =
    typeof statement === "string"
      ? [statement]
      : Array.isArray(statement)
        ? statement
        : ([statement.sql, statement.args] as const);
  return { sql, want_rows: true, ...bound(args) };
}

const bound = (args: InArgs): object =>
  Array.isArray(args)
    ? { args: args.map(asSent) }
    : { named_args: Object.entries(args).map(([name, value]) => ({ name, value: asSent(value) })) };

function asSent(value: InValue): Value {
  if (value === null) return { type: "null" };
  if (typeof value === "string") return { type: "text", value };
  if (typeof value === "number") {
    if (!Number.isFinite(value)) throw new RangeError("Only finite numbers can be passed to a statement.");
    return { type: "float", value };
  }
  if (typeof value === "bigint") return { type: "integer", value: String(value) };
  if (typeof value === "boolean") return { type: "integer", value: value ? "1" : "0" };
  if (value instanceof Date) return { type: "float", value: value.valueOf() };
  return { type: "blob", base64: encodeBase64(value instanceof ArrayBuffer ? value : new Uint8Array(value).buffer) };
}

function asRead(value: Value | null): unknown {
  switch (value?.type) {
    case "null":
      return null;
    case "text":
      if (typeof value.value === "string") return value.value;
      break;
    case "float":
      if (typeof value.value === "number") return value.value;
      break;
    case "integer":
      if (typeof value.value === "string" && !Number.isNaN(Number(value.value))) return numberOf(value.value);
      break;
    case "blob":
      return bytesOf(value.base64);
  }
  throw amiss();
}

function bytesOf(base64: string): ArrayBuffer {
  try {
    return decodeBase64(base64).buffer;
  } catch {
    throw amiss();
  }
}
