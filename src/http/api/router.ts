/** A router whose shapes are checked before a handler runs and stand in the OpenAPI document. */
import { OpenAPIHono } from "@hono/zod-openapi";
import { shapeFaults } from "../../acts/fault.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

export const router = () =>
  new OpenAPIHono<AppEnv>({
    defaultHook: (result, c) => {
      if (result.success) return undefined;
      const sent = (result as unknown as { readonly data: unknown }).data;
      const errors = shapeFaults(result.error.issues, sent);
      return refuse(c, result.target === "json" ? "input refused" : "query refused", { errors });
    },
  });
