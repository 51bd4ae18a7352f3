/** Answers a request with a problem (RFC 9457). */
import type { Context } from "hono";
import type { Problem } from "../../estimating/problems.js";
import { problemText } from "../../wording/index.js";
import { ANSWERS, type AnswerName, typeOf } from "./catalogue.js";
import type { Fault } from "./shape.js";

export interface RefuseWith {
  /** What is wrong with this very request, and what to do. */
  readonly detail?: string;
  readonly errors?: readonly Fault[];
  readonly headers?: Readonly<Record<string, string>>;
}

/** The status is the one the catalogue gives the name. */
export function refuse(c: Context, name: AnswerName, { detail, errors, headers }: RefuseWith = {}): Response {
  const { status, title } = ANSWERS[name];
  const body = {
    type: typeOf(name),
    title,
    status,
    detail: detail ?? errors?.[0]?.detail ?? title,
    ...(c.var.requestId && { instance: `/requests/${c.var.requestId}` }),
    ...(errors && { errors: errors.map((error) => ({ type: typeOf(error.name), ...error })) }),
  };
  return c.body(JSON.stringify(body), status, { "content-type": "application/problem+json", ...headers });
}

/** The engine's problems as faults; `under` is where the engine's input stands in the body. */
export const engineFaults = (problems: readonly Problem[], under = ""): Fault[] =>
  problems.map((problem) => ({ pointer: under + problem.pointer, name: problem.name, detail: problemText(problem) }));
