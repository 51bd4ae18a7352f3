/** What routes answer, for the OpenAPI document. */
import type { z } from "@hono/zod-openapi";
import { ANSWERS, type AnswerName } from "../../acts/refusals.js";
import { problem } from "../../acts/shapes/problem.js";

export const json = <S extends z.ZodType>(schema: S, description: string) => ({
  description,
  content: { "application/json": { schema } },
});

export const pdf = (description: string) => ({
  description,
  content: { "application/pdf": { schema: { type: "string" as const, format: "binary" } } },
});

/** Problem answers by status; names that share a status share a description. */
export function problems(...names: readonly AnswerName[]) {
  const answers: Record<number, { description: string; content: { "application/problem+json": { schema: typeof problem } } }> =
    {};
  for (const name of names) {
    const { status, title } = ANSWERS[name];
    const before = answers[status];
    const description = before ? `${before.description} ${title}` : title;
    answers[status] = { description, content: { "application/problem+json": { schema: problem } } };
  }
  return answers;
}

/** Anyone may meet these at any address. */
export const ALWAYS = [
  "sign-in wanted",
  "sign-in refused",
  "scope wanted",
  "role wanted",
  "host unknown",
  "too many attempts",
  "asked too often",
  "our fault",
  "secret missing",
  "database busy",
  "outcome unknown",
  "database missing",
] as const;
export const ON_BODY = ["json malformed", "input refused", "media type unsupported", "body too large", "other site"] as const;
