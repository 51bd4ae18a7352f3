/** A router whose shapes are checked before a handler runs and stand in the OpenAPI document. */
import { type Hook, OpenAPIHono, type z } from "@hono/zod-openapi";
import type { MiddlewareHandler } from "hono";
import { type Fault, type ParameterFault, shapeFaults } from "../../acts/fault.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

/** `body`: its fields are called as their labels say. */
export const checked =
  (body?: z.ZodType): Hook<unknown, AppEnv, string, unknown> =>
  (result, c) => {
    if (result.success) return undefined;
    const { data } = result as unknown as { readonly data: unknown };
    const ofBody = result.target === "json";
    const errors = shapeFaults(result.error.issues, data, ofBody ? body : undefined);
    return ofBody ? refuse(c, "input refused", { errors }) : refuse(c, "query refused", { errors: errors.map(ofParameter) });
  };

/** A query or a path has no pointers: its faults name the parameter. */
const ofParameter = ({ pointer, ...fault }: Fault): ParameterFault => ({ parameter: pointer.slice(1), ...fault });

/** Text in JSON is UTF-8 (RFC 8259, 8.1); read loosely, what is none would be kept as other letters. */
export const utf8: MiddlewareHandler<AppEnv> = async (c, next) => {
  if (!/^application\/json\b/i.test(c.req.header("content-type") ?? "")) return next();
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(await c.req.arrayBuffer());
  } catch (error) {
    if (error instanceof TypeError)
      return refuse(c, "json malformed", { detail: "The body holds bytes that are not UTF-8; send JSON as UTF-8." });
    throw error;
  }
  return next();
};

export const router = () => new OpenAPIHono<AppEnv>({ defaultHook: checked() });
