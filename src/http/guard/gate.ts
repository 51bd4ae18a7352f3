/** Who may come in where a secret is wanted: health, the sign-in page and its style, and whoever has the pass or the token. */
import type { Context, MiddlewareHandler } from "hono";
import { signInAttempts } from "../../records/signInAttempts.js";
import type { AppEnv, Bindings } from "../bindings.js";
import { refuse, wantsPage } from "../problems/refuse.js";
import { hasPass } from "./pass.js";
import { callerName, isSame, isUsable, SECRET_LENGTH } from "./secret.js";

export interface GateOptions {
  readonly secretOf: (bindings: Bindings) => string | undefined;
  /** Where a request came from: wrong secrets are counted by it. */
  readonly addressOf: (c: Context<AppEnv>) => string;
  readonly isOpen: (path: string) => boolean;
}

export const gate =
  ({ secretOf, addressOf, isOpen }: GateOptions): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    if (c.req.path === "/health") return next();
    const secret = secretOf(c.env);
    if (!isUsable(secret))
      return refuse(c, "secret missing", { detail: `Set OHMWRIGHT_SECRET to at least ${SECRET_LENGTH} characters (README).` });
    if (isOpen(c.req.path)) return next();
    const now = c.var.clock();
    const token = /^Bearer (.+)$/i.exec(c.req.header("authorization") ?? "")?.[1];
    if (token === undefined) {
      if (await hasPass(c, secret, now)) return next();
      if (wantsPage(c) && (c.req.method === "GET" || c.req.method === "HEAD"))
        return c.redirect(`/sign-in?to=${encodeURIComponent(new URL(c.req.url).pathname + new URL(c.req.url).search)}`, 303);
      return refuse(c, "sign-in wanted", { headers: { "www-authenticate": 'Bearer realm="Ohmwright"' } });
    }
    const caller = await callerName(addressOf(c), secret);
    const wait = await signInAttempts.wait(c.var.db, caller, now);
    if (wait > 0) return refuse(c, "too many attempts", { headers: { "retry-after": String(wait) } });
    if (await isSame(token, secret)) return next();
    await signInAttempts.failed(c.var.db, caller, now);
    return refuse(c, "sign-in refused", { headers: { "www-authenticate": 'Bearer realm="Ohmwright", error="invalid_token"' } });
  };
