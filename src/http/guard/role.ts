/** What only some roles may do. Where nobody has an account yet, whoever is let in may do everything. */
import type { Context, MiddlewareHandler } from "hono";
import type { Role } from "../../records/staff.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

/** A manager may do whatever a technician may. A token without the scope `admin` is a technician's. */
export const may = (c: Context<AppEnv>, role: Role): boolean => {
  const { staff } = c.var;
  return staff === undefined || staff.role === "manager" || role === "technician";
};

export const needs =
  (role: Role): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    if (may(c, role)) return next();
    if (c.var.scopes) return refuse(c, "scope wanted", { detail: "This wants the scope 'admin', of a token made by a manager." });
    return refuse(c, "role wanted", { detail: "Only a manager of the shop may do this; ask one of them." });
  };
