/**
 * One JSON line a request: no query, body, header or address, and the route in place of the path, since a path can carry the id of a
 * person or a mistyped secret. `request` is what the answer's x-request-id says.
 */
import type { MiddlewareHandler } from "hono";
import type { AppEnv } from "../bindings.js";
import { routeOf } from "../guard/route.js";

export const log =
  (write: (line: string) => void): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    const started = c.var.clock();
    await next();
    const ended = c.var.clock();
    c.res.headers.set("x-request-id", c.var.requestId);
    write(
      JSON.stringify({
        at: started.toISOString(),
        request: c.var.requestId,
        method: c.req.method,
        // Such as /api/owners/:id; null where nothing stands at the address.
        route: routeOf(c)?.path ?? null,
        status: c.res.status,
        ms: ended.getTime() - started.getTime(),
      }),
    );
  };
