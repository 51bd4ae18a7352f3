/** A router whose shapes are checked before a handler runs and stand in the OpenAPI document. */
import { type Hook, OpenAPIHono, type z } from "@hono/zod-openapi";
import { shapeFaults } from "../../acts/fault.js";
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
    return refuse(c, ofBody ? "input refused" : "query refused", { errors });
  };

export const router = () => new OpenAPIHono<AppEnv>({ defaultHook: checked() });
