/**
 * Idempotency-Key (draft-ietf-httpapi-idempotency-key-header-07): honoured on POST when sent. The first answer is kept for a day
 * and given again; the same key with another body is refused; a request still running answers 409.
 */
import type { MiddlewareHandler } from "hono";
import { contentHash } from "../../records/contentHash.js";
import { idempotency } from "../../records/idempotency.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

const KEPT_HEADERS = ["content-type", "location", "etag"];

export const once: MiddlewareHandler<AppEnv> = async (c, next) => {
  const sent = c.req.header("idempotency-key");
  if (sent === undefined) return next();
  const key = keyOf(sent);
  if (key === undefined)
    return refuse(c, "header refused", { detail: "Idempotency-Key must be 1 to 255 visible characters, best in double quotes." });

  const target = `${c.req.method} ${c.req.path}`;
  const fingerprint = await contentHash([c.req.header("content-type") ?? "", c.req.header("if-match") ?? "", await c.req.text()]);
  const begun = await idempotency.begin(c.var.db, target, key, fingerprint, c.var.clock());
  if (begun.is === "running") return refuse(c, "idempotency key in flight", { headers: { "retry-after": "1" } });
  if (begun.is === "other body") return refuse(c, "idempotency key reused");
  if (begun.is === "done") {
    const { status, headers, body } = begun.reply;
    return c.body(body, status as 200, { ...headers, "idempotency-replayed": "true" });
  }

  await next();
  if (c.res.status >= 500) return idempotency.release(c.var.db, target, key);
  const reply = c.res.clone();
  const headers = Object.fromEntries(
    KEPT_HEADERS.flatMap((name) => (reply.headers.has(name) ? [[name, reply.headers.get(name)!]] : [])),
  );
  await idempotency.finish(c.var.db, target, key, { status: reply.status, headers, body: await reply.text() });
};

/** A quoted structured-field string, or the bare characters. */
function keyOf(header: string): string | undefined {
  const quoted = /^"((?:[^"\\]|\\["\\])*)"$/.exec(header.trim());
  const key = quoted ? quoted[1]!.replaceAll(/\\(["\\])/g, "$1") : header.trim();
  return /^[\x20-\x7e]{1,255}$/.test(key) ? key : undefined;
}
