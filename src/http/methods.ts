/** Which methods an address takes, so that the wrong one is told from a wrong address (405 from 404). */
import type { RouterRoute } from "hono/types";

export function methodsAt(routes: readonly RouterRoute[], path: string): string[] {
  const methods = new Set(
    routes.filter((route) => route.method !== "ALL" && pattern(route.path).test(path)).map((route) => route.method),
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
        return part === "*" ? ".*" : part.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&");
      })
      .join("/")}$`,
  );
