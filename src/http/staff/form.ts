/** Forms of the sign-in pages. */
import type { Context } from "hono";
import type { AppEnv } from "../bindings.js";

export interface SentFields {
  /** Trimmed. */
  readonly text: (name: string) => string;
  /** As typed: secrets are. */
  readonly raw: (name: string) => string;
  readonly all: (name: string) => readonly string[];
}

export async function sentFields(c: Context<AppEnv>): Promise<SentFields> {
  const pairs = new URLSearchParams(await c.req.text());
  const raw = (name: string) => pairs.get(name) ?? "";
  return { raw, text: (name) => raw(name).trim(), all: (name) => pairs.getAll(name) };
}

/** A person's name, or what is wrong with it. */
export function nameFault(name: string): string | undefined {
  if (name === "") return "Enter a name.";
  if (name.length > 100) return "The name is longer than 100 characters; shorten it.";
  return /\p{Cc}/u.test(name) ? "The name holds a line break or control character; take it out." : undefined;
}
