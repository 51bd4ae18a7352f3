/** Which route a request runs, and who may: told before anything is asked of the sender, as the wrong method is (405, not 404). */
import type { Context, MiddlewareHandler } from "hono";
import { matchedRoutes } from "hono/route";
import type { RouterRoute } from "hono/types";
import type { AppEnv, Assets } from "../bindings.js";
import { refuse } from "../problems/refuse.js";
import { answering, type Right, rightOf } from "../who.js";

/** Of several that fit, the first declared answers. */
export const routeOf = (c: Context<AppEnv>): RouterRoute | undefined => answering(matchedRoutes(c))[0];

export const EVERYONE: Right = { who: "everyone" };

export const route =
  (routes: readonly RouterRoute[], assets: Assets): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    const found = routeOf(c);
    if (found) {
      const right = Object.hasOwn(assets, found.path) ? EVERYONE : rightOf(found);
      if (!right) throw new Error(`${found.method} ${found.path} has no row in http/who.ts.`);
      c.set("right", right);
      return next();
    }
    const { path, method } = c.req;
    const methods = methodsAt(routes, path);
    if (methods.length === 0) return next();
    const allow = { allow: methods.join(", ") };
    if (method === "OPTIONS") return c.body(null, 204, allow);
    return refuse(c, "method not allowed", { detail: `${path} takes ${methods.join(", ")}.`, headers: allow });
  };

function methodsAt(routes: readonly RouterRoute[], path: string): string[] {
  const methods = new Set(
    answering(routes)
      .filter((each) => pattern(each.path).test(path))
      .map(({ method }) => method),
  );
  if (methods.has("GET")) methods.add("HEAD");
  return [...methods].sort();
}

const pattern = (path: string): RegExp =>
  new RegExp(
    `^${path
      .split("/")
      .map((part) => {
        const named = /^:[^{]+(?:\{(.+)\})?$/.exec(part);
        if (named) return named[1] ?? "[^/]+";
        return part.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");
      })
      .join("/")}$`,
  );
