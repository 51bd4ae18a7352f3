/** On loopback a page of another name must not reach us through a name that points here (DNS rebinding). */
import type { MiddlewareHandler } from "hono";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

const LOOPBACK = /^(localhost|127\.0\.0\.1|\[::1\])(:\d{1,5})?$/i;

export const loopbackHost: MiddlewareHandler<AppEnv> = async (c, next) => {
  const host = c.req.header("host") ?? new URL(c.req.url).host;
  if (LOOPBACK.test(host)) return next();
  return refuse(c, "host unknown", { detail: "Open this server as http://localhost or http://127.0.0.1, with its port." });
};
