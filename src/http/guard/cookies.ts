/** How a cookie that lets someone in is kept by the browser. */
import type { Context } from "hono";
import { deleteCookie, getCookie, getSignedCookie, setCookie, setSignedCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";
import { type LiveSession, SESSION_SECONDS, sessions } from "../../records/sessions.js";
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

/** The cookie of someone signed in: the session's token, signed. */
const NAME = "ohmwright-staff";
const kind = (c: Context<AppEnv>) => cookieKind(c, "Lax");

export async function giveSession(c: Context<AppEnv>, token: string): Promise<void> {
  await setSignedCookie(c, NAME, token, await c.var.signingKey(), { ...kind(c), maxAge: SESSION_SECONDS } as CookieOptions);
}

export function takeSession(c: Context<AppEnv>): void {
  deleteCookie(c, NAME, kind(c));
}

/** The live session of this browser. In use, its end moves on. */
export async function sessionOf(c: Context<AppEnv>): Promise<LiveSession | undefined> {
  // A name that is not there costs neither key nor database.
  if (!c.req.header("cookie")?.includes(NAME)) return undefined;
  const token = await getSignedCookie(c, await c.var.signingKey(), NAME, kind(c).prefix as "host");
  if (typeof token !== "string") return undefined;
  const at = c.var.clock().toISOString();
  const live = await sessions.byToken(c.var.db, token, at);
  if (live && (await sessions.roll(c.var.db, live.session, at))) await giveSession(c, token);
  return live;
}

/** What whoever works in this browser calls themself, where nobody has an account: offered in forms, and proof of nothing. */
const HAND = "ohmwright-hand";

export function keepHand(c: Context<AppEnv>, name: string): void {
  if (name) setCookie(c, HAND, name.slice(0, 100), { ...kind(c), maxAge: SESSION_SECONDS } as CookieOptions);
}

export const handKept = (c: Context<AppEnv>): string => getCookie(c, HAND, kind(c).prefix as "host") ?? "";
