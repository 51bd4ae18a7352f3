/** The cookie of an owner who came in by a link: a token that means nothing without the record of the entry. */
import type { Context } from "hono";
import { deleteCookie, getCookie, setCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";
import type { AppEnv } from "../bindings.js";
import { cookieKind } from "../guard/cookies.js";

const NAME = "ohmwright-owner";
const kind = (c: Context<AppEnv>) => cookieKind(c, "Strict");

export function giveEntry(c: Context<AppEnv>, token: string, seconds: number): void {
  setCookie(c, NAME, token, { ...kind(c), maxAge: seconds } as CookieOptions);
}

export const entryToken = (c: Context<AppEnv>): string | undefined => getCookie(c, NAME, kind(c).prefix);

export function takeEntry(c: Context<AppEnv>): void {
  deleteCookie(c, NAME, kind(c));
}
