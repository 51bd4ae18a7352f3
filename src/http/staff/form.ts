/** Forms of the sign-in pages. */
import type { Context } from "hono";
import { z } from "zod";
import { shapeFaults } from "../../acts/fault.js";
import { personName } from "../../acts/staff.js";
import type { AppEnv } from "../bindings.js";

export interface SentFields {
  /** Trimmed. */
  readonly text: (name: string) => string;
  /** As typed: secrets are. */
  readonly raw: (name: string) => string;
}

export async function sentFields(c: Context<AppEnv>): Promise<SentFields> {
  const pairs = new URLSearchParams(await c.req.text());
  const raw = (name: string) => pairs.get(name) ?? "";
  return { raw, text: (name) => raw(name).trim() };
}

/** What is wrong with a person's name. */
export function nameFault(name: string): string | undefined {
  const read = named.safeParse({ name });
  return read.success ? undefined : shapeFaults(read.error.issues, { name }, named)[0]!.detail;
}
const named = z.strictObject({ name: personName });

/** A path of this site and nothing else: never another host, also when the dots in it are resolved ('/..//other.example'). */
export function ownPath(to: unknown): string {
  if (typeof to !== "string" || !to.startsWith("/") || !URL.canParse(to, HERE)) return "/";
  const { origin, pathname, search } = new URL(to, HERE);
  return origin === HERE && !pathname.startsWith("//") ? pathname + search : "/";
}

const HERE = "http://here.invalid";
