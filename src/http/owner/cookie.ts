/** The cookie of an owner who came in by a link: a token that means nothing without the record of the entry. */
import type { Context } from "hono";
import { deleteCookie, getCookie, setCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";
import type { AppEnv } from "../bindings.js";

const NAME = "ohmwright-owner";
const LOOPBACK = /^(localhost|127\.0\.0\.1|\[::1\])$/;

/**
 * `__Host-`: only over HTTPS, only this host. Some browsers refuse that on plain loopback, where nobody else listens. What counts is
 * where owners reach the shop: HTTPS may end in front of this server.
 */
function kind(c: Context<AppEnv>): CookieOptions & { readonly prefix?: "host" } {
  const { protocol, hostname } = new URL(c.var.origin);
  const all = { path: "/", httpOnly: true, sameSite: "Strict" } as const;
  return protocol === "http:" && LOOPBACK.test(hostname) ? all : { ...all, prefix: "host", secure: true };
}

export function giveEntry(c: Context<AppEnv>, token: string, seconds: number): void {
  setCookie(c, NAME, token, { ...kind(c), maxAge: seconds } as CookieOptions);
}

export const entryToken = (c: Context<AppEnv>): string | undefined => getCookie(c, NAME, kind(c).prefix);

export function takeEntry(c: Context<AppEnv>): void {
  deleteCookie(c, NAME, kind(c));
}
