/** The signed cookie of someone who knows the secret. It says only until when; a new secret ends them all. */
import type { Context } from "hono";
import { deleteCookie, getSignedCookie, setSignedCookie } from "hono/cookie";
import { PASS_DAYS } from "../../records/entryTerms.js";

const NAME = "ohmwright";
const SECONDS = PASS_DAYS * 24 * 3600;
/** `__Host-`: only over HTTPS (or on localhost), only this host, only the whole site. */
const KIND = { prefix: "host", path: "/", secure: true, httpOnly: true, sameSite: "Lax" } as const;

export async function givePass(c: Context, secret: string, now: Date): Promise<void> {
  const until = String(Math.floor(now.getTime() / 1000) + SECONDS);
  await setSignedCookie(c, NAME, until, secret, { ...KIND, maxAge: SECONDS });
}

export async function hasPass(c: Context, secret: string, now: Date): Promise<boolean> {
  const until = await getSignedCookie(c, secret, NAME, "host");
  return typeof until === "string" && Number(until) > now.getTime() / 1000;
}

export const takePass = (c: Context): void => {
  deleteCookie(c, NAME, KIND);
};
