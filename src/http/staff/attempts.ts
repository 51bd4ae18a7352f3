/** Counting what was wrong, by caller and by account, and saying when to try again. */
import type { Context } from "hono";
import { signInAttempts } from "../../records/signInAttempts.js";
import type { AppEnv } from "../bindings.js";
import { callerName } from "../guard/secret.js";

/** One account must not be tried from everywhere: its passphrase has a count of its own. */
const accountName = async (c: Context<AppEnv>, key: string) => callerName(`account:${key}`, await c.var.signingKey());

async function names(c: Context<AppEnv>, account: string | undefined): Promise<string[]> {
  return [await c.var.caller("sign-in"), ...(account === undefined ? [] : [await accountName(c, account)])];
}

/** Seconds; 0: go on. */
export async function waitBefore(c: Context<AppEnv>, account?: string): Promise<number> {
  const now = c.var.clock();
  const waits = await Promise.all((await names(c, account)).map((name) => signInAttempts.wait(c.var.db, name, now)));
  return Math.max(...waits);
}

export async function wrongAttempt(c: Context<AppEnv>, account?: string): Promise<void> {
  for (const name of await names(c, account)) await signInAttempts.failed(c.var.db, name, c.var.clock());
}

export function tooMany(c: Context<AppEnv>, wait: number): string {
  c.header("retry-after", String(wait));
  return `Too many attempts. Wait ${Math.ceil(wait / 60)} minutes, then try again.`;
}
