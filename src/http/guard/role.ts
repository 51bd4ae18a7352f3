/** What only some roles may do. Where nobody has an account yet, whoever is let in may do everything. */
import type { Context, MiddlewareHandler } from "hono";
import type { AppEnv, Role } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

/** An owner may do whatever a technician may. */
export const may = (c: Context<AppEnv>, role: Role): boolean => {
  const { staff } = c.var;
  return staff === undefined || staff.role === "owner" || role === "technician";
};

export const needs =
  (role: Role): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    if (may(c, role)) return next();
    return refuse(c, "role wanted", { detail: "Only an owner of the shop may do this; ask one of them." });
  };
