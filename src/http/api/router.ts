/** A router whose shapes are checked before a handler runs and stand in the OpenAPI document. */
import { OpenAPIHono } from "@hono/zod-openapi";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { shapeFaults } from "../problems/shape.js";

export const router = () =>
  new OpenAPIHono<AppEnv>({
    defaultHook: (result, c) => {
      if (result.success) return undefined;
      const sent = (result as unknown as { readonly data: unknown }).data;
      const errors = shapeFaults(result.error.issues, sent);
      return refuse(c, result.target === "json" ? "input refused" : "query refused", { errors });
    },
  });
