/** Answers a request with a problem: RFC 9457 JSON for programs, a page for browsers. */
import type { Context } from "hono";
import type { Fault, ParameterFault } from "../../acts/fault.js";
import { ANSWERS, type AnswerName, typeOf } from "../../acts/refusals.js";
import { Refusal } from "../../pages/refusal.js";
import type { AppEnv } from "../bindings.js";

export interface RefuseWith {
  /** What is wrong with this very request, and what to do. */
  readonly detail?: string;
  readonly errors?: readonly (Fault | ParameterFault)[];
  readonly headers?: Readonly<Record<string, string>>;
  /** The record as it stands, where a change met another: the sender holds the other version. */
  readonly current?: unknown;
}

/** Nobody reads more at once, and a body of 1 MiB can hold hundreds of thousands. */
const MOST_ERRORS = 100;

/** The status is the one the catalogue gives the name. */
export function refuse(c: Context<AppEnv>, name: AnswerName, { detail, errors, headers, current }: RefuseWith = {}): Response {
  const { status, title } = ANSWERS[name];
  const said = detail ?? errors?.[0]?.detail ?? title;
  const request = c.var.requestId;
  if (wantsPage(c)) {
    const style = stylesheetOf(c);
    const page = `<!doctype html>${(<Refusal style={style} title={title} detail={said} request={request} />).toString()}`;
    return c.html(page, status, headers);
  }
  const body = {
    type: typeOf(name),
    title,
    status,
    detail: said,
    instance: `urn:uuid:${request}`,
    ...(current !== undefined && { current }),
    ...(errors && {
      errors: errors.slice(0, MOST_ERRORS).map((error) => ({ type: typeOf(error.name), ...error })),
      errorsLeftOut: Math.max(0, errors.length - MOST_ERRORS),
    }),
  };
  return c.body(JSON.stringify(body), status, { "content-type": "application/problem+json", ...headers });
}

/** A browser looking at a page, not a program. */
export const wantsPage = (c: Context<AppEnv>): boolean =>
  !c.req.path.startsWith("/api/") && (c.req.header("accept") ?? "").includes("text/html");

export const stylesheetOf = (c: Context<AppEnv>): string | undefined =>
  Object.keys(c.var.assets).find((path) => path.endsWith(".css"));
