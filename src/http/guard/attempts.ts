/**
 * Counting tries by place and by account before they are made, and saying when to try again. What cannot be guessed (a token, a link) is
 * looked up before it is counted, so that nobody's guesses keep out whoever holds the right one.
 */
import type { Context } from "hono";
import { getSignedCookie, setSignedCookie } from "hono/cookie";
import type { CookieOptions } from "hono/utils/cookie";
import { ACCOUNT_FAILURES_ALLOWED, FAILURES_ALLOWED, PRICES_ALLOWED, PRICES_MINUTES } from "../../records/entryTerms.js";
import { troubleOf } from "../../records/fileTrouble.js";
import { randomText } from "../../records/secrets.js";
import { type Counted, signInAttempts } from "../../records/signInAttempts.js";
import { nameKey } from "../../records/staff.js";
import type { AppEnv } from "../bindings.js";
import { cookieKind } from "./cookies.js";
import { callerName } from "./secret.js";

export interface Attempt {
  /** Seconds; 0: go on. */
  readonly wait: number;
  /** It was right, or nothing was tried. */
  readonly takeBack: () => Promise<void>;
}

/** `account`: the name typed, where one is tried by it. A wrong try stays counted unless it is taken back. */
export async function attempted(
  c: Context<AppEnv>,
  purpose: "sign-in" | "owner" = "sign-in",
  account?: string,
): Promise<Attempt> {
  const now = c.var.clock();
  const counted = await names(c, purpose, account);
  const wait = await signInAttempts.begin(c.var.db, counted, now);
  return { wait, takeBack: () => signInAttempts.takeBack(c.var.db, counted, now) };
}

async function names(c: Context<AppEnv>, purpose: string, account: string | undefined): Promise<readonly Counted[]> {
  const place = { caller: await c.var.caller(purpose), allowed: FAILURES_ALLOWED };
  if (account === undefined) return [place];
  const name = await accountName(c, account);
  const { browser, accounts } = await known(c);
  if (accounts.includes(name))
    return [{ caller: await callerName(`known:${browser}:${name}`, await c.var.signingKey()), allowed: FAILURES_ALLOWED }];
  return [place, { caller: name, allowed: ACCOUNT_FAILURES_ALLOWED }];
}

const accountName = async (c: Context<AppEnv>, name: string) => callerName(`account:${nameKey(name)}`, await c.var.signingKey());

/** The signed cookie of a browser that accounts were signed in with: it opens nothing, and has a count of its own for each of them. */
const NAME = "ohmwright-known";
const DAYS = 400;
const MOST = 10;
const kind = (c: Context<AppEnv>) => cookieKind(c, "Strict");

async function known(c: Context<AppEnv>): Promise<{ readonly browser: string; readonly accounts: readonly string[] }> {
  const value = c.req.header("cookie")?.includes(NAME)
    ? await getSignedCookie(c, await c.var.signingKey(), NAME, kind(c).prefix as "host")
    : undefined;
  const [browser, ...accounts] = typeof value === "string" ? value.split(".") : [];
  return { browser: browser ?? randomText(12), accounts };
}

/** After a sign-in by this name. */
export async function knowBrowser(c: Context<AppEnv>, name: string): Promise<void> {
  const [{ browser, accounts }, account] = [await known(c), await accountName(c, name)];
  const value = [browser, account, ...accounts.filter((each) => each !== account)].slice(0, 1 + MOST).join(".");
  await setSignedCookie(c, NAME, value, await c.var.signingKey(), { ...kind(c), maxAge: DAYS * 86_400 } as CookieOptions);
}

/** Before a price is worked out for a link or a token: seconds to wait, or 0. Where nothing can be written, prices are told all the same. */
export const priceAsked = (c: Context<AppEnv>, whose: "link" | "token", id: string): Promise<number> =>
  signInAttempts
    .begin(c.var.db, [{ caller: `${whose}:${id}`, allowed: PRICES_ALLOWED }], c.var.clock(), PRICES_MINUTES)
    .catch((error: unknown) => {
      if (troubleOf(error)) return 0;
      throw error;
    });

export function tooMany(c: Context<AppEnv>, wait: number): string {
  c.header("retry-after", String(wait));
  return `Too many attempts. Wait ${Math.ceil(wait / 60)} minutes, then try again.`;
}
