import type { Context } from "hono";
import { deleteCookie, getSignedCookie, setSignedCookie } from "hono/cookie";
import type { Database } from "../../records/database.js";
import { PASS_DAYS } from "../../records/entryTerms.js";
import { signingKey } from "../../records/signingKey.js";
import type { AppEnv } from "../bindings.js";

/** The shop's one secret: compared without telling how much of it was right. */
const encoder = new TextEncoder();

export const SECRET_LENGTH = 16;

export const isUsable = (secret: string | undefined): secret is string => secret !== undefined && secret.length >= SECRET_LENGTH;

/** Both sides are hashed under a key of this very call, so neither length nor content can be timed. */
export async function isSame(given: string, secret: string): Promise<boolean> {
  const key = await crypto.subtle.generateKey({ name: "HMAC", hash: "SHA-256" }, false, ["sign", "verify"]);
  const signature = await crypto.subtle.sign("HMAC", key, encoder.encode(secret));
  return crypto.subtle.verify("HMAC", key, signature, encoder.encode(given));
}

/** A name for a caller that tells nothing about its address. Hex. */
export async function callerName(address: string, secret: string): Promise<string> {
  const key = await crypto.subtle.importKey("raw", encoder.encode(secret), { name: "HMAC", hash: "SHA-256" }, false, ["sign"]);
  const name = await crypto.subtle.sign("HMAC", key, encoder.encode(`caller:${address}`));
  return [...new Uint8Array(name).slice(0, 12)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Which address Node may serve: loopback, or any when a secret is wanted. */
const LOOPBACK = new Set(["127.0.0.1", "::1", "localhost"]);

/** Why this address may not be served, or nothing. */
export function refuseAddress(host: string, secret: string | undefined): string | undefined {
  if (secret !== undefined && !isUsable(secret)) return `OHMWRIGHT_SECRET must have at least ${SECRET_LENGTH} characters.`;
  if (LOOPBACK.has(host) || secret !== undefined) return undefined;
  return `${host} can be reached from other machines. Set OHMWRIGHT_SECRET (at least ${SECRET_LENGTH} characters) first, or serve on 127.0.0.1.`;
}

/** What cookies are signed and callers named with: the shop's secret, so that a new one ends every pass and session; without one, a key of this machine. */
// Asked for once a database.
const kept = new WeakMap<Database, Promise<string>>();

export function signingKeyOf(c: Context<AppEnv>, secret: string | undefined): Promise<string> {
  if (secret !== undefined) return Promise.resolve(secret);
  const { db } = c.var;
  const key = kept.get(db) ?? signingKey(db, c.var.clock().toISOString());
  kept.set(db, key);
  return key;
}

/** The signed cookie of someone who knows the secret. It says only until when; a new secret ends them all. */
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
