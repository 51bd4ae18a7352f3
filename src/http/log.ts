/** One JSON line a request: no query, no body, no header, no address. */
import type { MiddlewareHandler } from "hono";
import type { AppEnv } from "./bindings.js";

export const log =
  (write: (line: string) => void): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    const started = c.var.clock();
    await next();
    const ended = c.var.clock();
    c.header("x-request-id", c.var.requestId);
    write(
      JSON.stringify({
        at: started.toISOString(),
        request: c.var.requestId,
        method: c.req.method,
        path: c.req.path,
        status: c.res.status,
        ms: ended.getTime() - started.getTime(),
      }),
    );
  };
