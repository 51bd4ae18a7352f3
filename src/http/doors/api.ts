/** The door for programs: an operation of the API, and its part of the OpenAPI document, made from an act. */
import { createRoute, type OpenAPIHono, z } from "@hono/zod-openapi";
import type { Context } from "hono";
import type { Act } from "../../acts/act.js";
import { carryOut } from "../../acts/carryOut.js";
import type { Seen } from "../../acts/record.js";
import type { AnswerName } from "../../acts/refusals.js";
import type { StoredReply } from "../../records/replies.js";
import { sha256 } from "../../records/sha256.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { ALWAYS, json, ON_BODY, problems } from "./answers.js";
import { deskOf, KEY_UNREADABLE, keyIn, onceOf } from "./desk.js";
import { seenIn } from "./etag.js";
import { checked } from "./router.js";

/** The names in a path: 'id' and 'entry' in /jobs/{id}/work-log/{entry}. */
export type Names<Path extends string> = Path extends `${string}{${infer Name}}${infer Rest}` ? Name | Names<Rest> : never;

export interface ApiDoor<A, On, Path extends string> {
  readonly method?: "post" | "put";
  /** With `{names}` of what the act is done on. */
  readonly path: Path;
  /** Of names that are one of a few. */
  readonly among?: Readonly<Record<string, readonly [string, ...string[]]>>;
  readonly tag: string;
  readonly description?: string;
  /** An example of the body, which the tests send. */
  readonly example?: unknown;
  readonly on: (named: Readonly<Record<Names<Path>, string>>, seen: Seen | undefined, c: Context<AppEnv>) => On;
  /** It stands on the version last seen, which If-Match names. */
  readonly onVersion?: boolean;
  /** Beyond what any request with a body may meet. */
  readonly refusals: readonly AnswerName[];
  readonly status?: 200 | 201;
  /** Where it is one of two: 200 says that it was so before. */
  readonly statusOf?: (answer: A) => 200 | 201;
  /** What a program gets of the answer; absent: all of it. */
  readonly shown?: (answer: A, c: Context<AppEnv>) => unknown;
  /** Such as Location and ETag. */
  readonly headers?: (answer: A) => Readonly<Record<string, string>>;
  /** What is kept of the answer for a repeat under the same Idempotency-Key, where some of it is told once and kept nowhere. */
  readonly kept?: (answer: A) => unknown;
  /** Once it stands, before it is answered; not for a repeat. */
  readonly after?: (c: Context<AppEnv>, on: On) => Promise<unknown>;
  /** What they say in the document. */
  readonly headersTold?: Readonly<Record<string, string>>;
}

export const ON_KEY = ["header refused", "idempotency key reused"] as const;
export const KEY_HEADER = {
  "idempotency-key": z
    .string()
    .optional()
    .meta({ description: "A repeat within a day gets the first reply again, and nothing is done twice" }),
};

/** Wanted, and yet optional to the reader: 428 answers its absence. */
const VERSION_HEADER = {
  "if-match": z
    .string()
    .optional()
    .openapi({ description: "The ETag last seen", param: { name: "if-match", in: "header", required: true } }),
};
const ON_VERSION = ["version wanted", "version moved"] as const;

export function apiDoor<F extends z.ZodObject, A, On, const Path extends string>(
  app: OpenAPIHono<AppEnv>,
  act: Act<F, A, On>,
  door: ApiDoor<A, On, Path>,
): void {
  const { method = "post", path, status = method === "post" ? 201 : 200, onVersion = false } = door;
  const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name!);
  const answers = {
    ...json(act.answer, act.title),
    headers: Object.fromEntries(
      Object.entries(door.headersTold ?? {}).map(([name, description]) => [
        name,
        { schema: { type: "string" as const }, description },
      ]),
    ),
  };
  const route = createRoute({
    method,
    path,
    tags: [door.tag],
    operationId: act.name,
    summary: act.title,
    ...(door.description && { description: door.description }),
    request: {
      ...(names.length > 0 && {
        params: z.strictObject(
          Object.fromEntries(
            names.map((name) => [name, door.among?.[name] ? z.enum(door.among[name]) : z.string().min(1).max(100)]),
          ),
        ),
      }),
      headers: z.object({ ...(method === "post" && KEY_HEADER), ...(onVersion && VERSION_HEADER) }),
      body: {
        required: true,
        content: {
          "application/json": { schema: act.fields, ...(door.example !== undefined && { example: door.example }) },
        },
      },
    },
    responses: {
      ...(door.statusOf && { 200: { ...answers, description: `${act.title}: it was so before` } }),
      [status]: answers,
      ...problems(
        ...door.refusals,
        ...(method === "post" ? ON_KEY : []),
        ...(onVersion ? ON_VERSION : []),
        ...(names.length > 0 ? (["query refused"] as const) : []),
        ...ON_BODY,
        ...ALWAYS,
      ),
    },
  });
  const reply = (answer: A, body: unknown): StoredReply => ({
    status: door.statusOf?.(answer) ?? status,
    headers: { "content-type": "application/json", ...door.headers?.(answer) },
    body: JSON.stringify(body),
  });
  app.openapi(
    route,
    (async (c: Context<AppEnv>) => {
      const value = c.req.valid("json" as never) as z.output<F>;
      const seen = onVersion ? seenIn(c.req.header("if-match")) : undefined;
      const on = door.on((names.length > 0 ? c.req.valid("param" as never) : {}) as Record<Names<Path>, string>, seen, c);
      const shown = (answer: A) => reply(answer, door.shown?.(answer, c) ?? answer);
      const kept = (answer: A) => (door.kept ? reply(answer, door.kept(answer)) : shown(answer));
      const answer = await throughDoor(c, act, value, on, shown, kept);
      if (door.after && answer.ok && !answer.headers.has("idempotency-replayed")) await door.after(c, on);
      return answer;
    }) as never,
    checked(act.fields) as never,
  );
}

/** Carried out and answered; a POST under its Idempotency-Key. */
export async function throughDoor<F extends z.ZodObject, A, On>(
  c: Context<AppEnv>,
  act: Act<F, A, On>,
  value: z.output<F>,
  on: On,
  reply: (answer: A) => StoredReply,
  /** What a repeat gets, where some of the answer is told once. */
  kept: (answer: A) => StoredReply = reply,
): Promise<Response> {
  const header = c.req.method === "POST" ? c.req.header("idempotency-key") : undefined;
  const key = header === undefined ? undefined : keyIn(header);
  if (header !== undefined && key === undefined) return refuse(c, "header refused", KEY_UNREADABLE);
  const once =
    key === undefined
      ? undefined
      : { ...(await onceOf(c, key, [await sha256(new Uint8Array(await c.req.arrayBuffer()))])), reply: kept };
  const outcome = await carryOut(act, deskOf(c), value, on, once);
  if (!outcome.ok) return refuse(c, outcome.refusal.is, outcome.refusal);
  return "replayed" in outcome ? replayed(c, outcome.replayed) : answered(c, reply(outcome.answer));
}

export const answered = (c: Context<AppEnv>, { body, status, headers }: StoredReply): Response =>
  c.body(body, status as 200, headers);

export const replayed = (c: Context<AppEnv>, { headers, ...reply }: StoredReply): Response =>
  answered(c, { ...reply, headers: { ...headers, "idempotency-replayed": "true" } });
