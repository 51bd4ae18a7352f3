/** Names of this machine. On loopback a page of another name must not reach us through a name that points here (DNS rebinding). */
import type { MiddlewareHandler } from "hono";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

const LOOPBACK = /^(localhost|127\.0\.0\.1|\[::1\])(:\d{1,5})?$/i;

/** RFC 6761, 6.3; RFC 1122, 3.2.1.3; RFC 4291, 2.5.3; and the addresses that stand for "this host". */
const OWN = /^(localhost|(.+\.)localhost|127(\.\d{1,3}){3}|0\.0\.0\.0|\[::1?\])\.?$/i;

/** Whether more than this machine opens an address; `origin` is a whole one. */
export const opensElsewhere = (origin: string): boolean => !OWN.test(new URL(origin).hostname);

export const loopbackHost: MiddlewareHandler<AppEnv> = async (c, next) => {
  const host = c.req.header("host") ?? new URL(c.req.url).host;
  if (LOOPBACK.test(host)) return next();
  return refuse(c, "host unknown", { detail: "Open this server as http://localhost or http://127.0.0.1, with its port." });
};
