/** The cookies of an owner who came in by a link: a token that means nothing without the record of the entry; and for minutes the name typed so far. */
import type { Context } from "hono";
import { deleteCookie, getCookie, setCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";
import type { AppEnv } from "../bindings.js";
import { cookieKind } from "../guard/cookies.js";

const NAME = "ohmwright-owner";
const TYPED = "ohmwright-owner-typed";
const TYPED_SECONDS = 600;
const kind = (c: Context<AppEnv>) => cookieKind(c, "Strict");

export function giveEntry(c: Context<AppEnv>, token: string, seconds: number): void {
  setCookie(c, NAME, token, { ...kind(c), maxAge: seconds } as CookieOptions);
}

export const entryToken = (c: Context<AppEnv>): string | undefined => getCookie(c, NAME, kind(c).prefix);

export function takeEntry(c: Context<AppEnv>): void {
  deleteCookie(c, NAME, kind(c));
}

/** A name typed beside a question stays in its box after the question is sent, and stands in no address. */
export function keepTyped(c: Context<AppEnv>, name: string): void {
  setCookie(c, TYPED, name, { ...kind(c), maxAge: TYPED_SECONDS } as CookieOptions);
}

export const typedName = (c: Context<AppEnv>): string | undefined => getCookie(c, TYPED, kind(c).prefix);
