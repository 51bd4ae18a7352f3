/** The cookie of someone signed in: the session's token, signed. */
import type { Context } from "hono";
import { deleteCookie, getSignedCookie, setSignedCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";
import { type LiveSession, SESSION_SECONDS, sessions } from "../../records/sessions.js";
import type { AppEnv } from "../bindings.js";
import { cookieKind } from "./cookieKind.js";

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
