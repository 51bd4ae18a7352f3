/** Where a request's act is done, and which request it was. */
import type { Context } from "hono";
import { uuidv7 } from "uuidv7";
import type { Desk } from "../../acts/act.js";
import { jobsRead } from "../../acts/job.js";
import { contentHash } from "../../records/contentHash.js";
import type { Once } from "../../records/replies.js";
import type { AppEnv } from "../bindings.js";
import { papersOf } from "./papers.js";

export function deskOf(c: Context<AppEnv>): Desk {
  const now = c.var.clock();
  const { db, staff, scopes, photos } = c.var;
  return {
    db,
    now,
    at: now.toISOString(),
    job: jobsRead(db),
    papers: papersOf(db),
    newId: uuidv7,
    ...(staff && { staff }),
    ...(scopes && { scopes }),
    ...(photos && { photos }),
  };
}

/** `sent` is all that makes two requests the same one. Keys of different people, methods and addresses never meet. */
export async function onceOf(c: Context<AppEnv>, key: string, sent: readonly string[]): Promise<Once> {
  const target = `${c.var.staff?.id ?? "-"} ${c.req.method} ${c.req.path}`;
  return { target, key, fingerprint: await contentHash([c.req.header("if-match") ?? "", new URL(c.req.url).search, ...sent]) };
}

/** A quoted structured-field string (draft-ietf-httpapi-idempotency-key-header-07), or the bare characters; undefined: unreadable. */
export function keyIn(header: string): string | undefined {
  const quoted = /^"((?:[^"\\]|\\["\\])*)"$/.exec(header.trim());
  const key = quoted ? quoted[1]!.replaceAll(/\\(["\\])/g, "$1") : header.trim();
  return /^[\x20-\x7e]{1,255}$/.test(key) ? key : undefined;
}

export const KEY_UNREADABLE = { detail: "Idempotency-Key must be 1 to 255 visible characters, best in double quotes." };
