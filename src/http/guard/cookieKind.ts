/** How a cookie that lets someone in is kept by the browser. */
import type { Context } from "hono";
import type { CookieOptions } from "hono/utils/cookie";
import type { AppEnv } from "../bindings.js";

const LOOPBACK = /^(localhost|127\.0\.0\.1|\[::1\])$/;

export type CookieKind = CookieOptions & { readonly prefix?: "host" };

/**
 * `__Host-` (RFC 6265bis, 4.1.3.2): only over HTTPS, only this host, the whole site. Some browsers refuse that on plain loopback, where
 * nobody else listens. What counts is where the shop is reached: HTTPS may end in front of this server.
 */
export function cookieKind(c: Context<AppEnv>, sameSite: "Lax" | "Strict"): CookieKind {
  const { protocol, hostname } = new URL(c.var.origin);
  const all = { path: "/", httpOnly: true, sameSite } as const;
  return protocol === "http:" && LOOPBACK.test(hostname) ? all : { ...all, prefix: "host", secure: true };
}
