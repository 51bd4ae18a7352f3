/** The cookie of an owner who came in by a link: a token that means nothing without the record of the entry. */
import type { Context } from "hono";
import { deleteCookie, getCookie, setCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";

const NAME = "ohmwright-owner";
const LOOPBACK = /^(localhost|127\.0\.0\.1|\[::1\])$/;

/** `__Host-`: only over HTTPS, only this host. Some browsers refuse that on plain loopback, where nobody else listens. */
function kind(c: Context): CookieOptions & { readonly prefix?: "host" } {
  const { protocol, hostname } = new URL(c.req.url);
  const all = { path: "/", httpOnly: true, sameSite: "Strict" } as const;
  return protocol === "http:" && LOOPBACK.test(hostname) ? all : { ...all, prefix: "host", secure: true };
}

export function giveEntry(c: Context, token: string, seconds: number): void {
  setCookie(c, NAME, token, { ...kind(c), maxAge: seconds } as CookieOptions);
}

export const entryToken = (c: Context): string | undefined => getCookie(c, NAME, kind(c).prefix);

export function takeEntry(c: Context): void {
  deleteCookie(c, NAME, kind(c));
}
