/**
 * Who may come in. Once anyone has an account: whoever has a session, and programs with a token. Before that: on loopback everyone, on
 * an address that other machines reach whoever knows the shop's secret. Health, assets, owners' pages and the sign-in pages are open.
 */
import type { Context, MiddlewareHandler, Next } from "hono";
import { apiTokens, TOKEN_START } from "../../records/apiTokens.js";
import { signInAttempts } from "../../records/signInAttempts.js";
import { staff } from "../../records/staff.js";
import type { AppEnv, Bindings } from "../bindings.js";
import { refuse, wantsPage } from "../problems/refuse.js";
import { holdForm } from "../staff/held.js";
import { hasPass } from "./pass.js";
import { scopeRefused } from "./scope.js";
import { isSame, isUsable, SECRET_LENGTH } from "./secret.js";
import { sessionOf } from "./sessionCookie.js";

export interface GateOptions {
  readonly secretOf: (bindings: Bindings) => string | undefined;
  /** Needs no look at who asks. */
  readonly isOpen: (path: string) => boolean;
}

export const isSignInPath = (path: string): boolean =>
  path === "/sign-in" || path === "/sign-out" || path.startsWith("/sign-in/");

export const gate =
  ({ secretOf, isOpen }: GateOptions): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    if (c.req.path === "/health") return next();
    const secret = secretOf(c.env);
    if (c.var.reachable && !isUsable(secret))
      return refuse(c, "secret missing", { detail: `Set OHMWRIGHT_SECRET to at least ${SECRET_LENGTH} characters (README).` });
    if (isOpen(c.req.path)) return next();

    const token = /^Bearer (.+)$/i.exec(c.req.header("authorization") ?? "")?.[1];
    if (token !== undefined) return byToken(c, next, token, secret);

    const live = await sessionOf(c);
    if (live) {
      c.set("staff", live.staff);
      c.set("session", live.session);
      c.set("guarded", true);
      return next();
    }
    if (isSignInPath(c.req.path)) return next();
    if (!(await staff.anyone(c.var.db)) && (!c.var.reachable || (await hasPass(c, secret!, c.var.clock())))) return next();
    return wanted(c);
  };

async function wanted(c: Context<AppEnv>): Promise<Response> {
  if (wantsPage(c)) {
    const looking = c.req.method === "GET" || c.req.method === "HEAD";
    const { pathname, search } = new URL(c.req.url);
    if (looking) return c.redirect(`/sign-in?to=${encodeURIComponent(pathname + search)}`, 303);
    const held = await holdForm(c);
    if (held) return held;
  }
  return refuse(c, "sign-in wanted", { headers: { "www-authenticate": 'Bearer realm="Ohmwright"' } });
}

async function byToken(c: Context<AppEnv>, next: Next, token: string, secret: string | undefined) {
  const { db } = c.var;
  const now = c.var.clock();
  const peopled = await staff.anyone(db);
  if (!peopled && !c.var.reachable) return next();
  const caller = await c.var.caller("sign-in");
  const wait = await signInAttempts.wait(db, caller, now);
  if (wait > 0) return refuse(c, "too many attempts", { headers: { "retry-after": String(wait) } });
  const found = token.startsWith(TOKEN_START) ? await apiTokens.byToken(db, token) : undefined;
  if (found) {
    c.set("staff", found.staff);
    c.set("scopes", found.scopes);
    await apiTokens.used(db, found, now.toISOString());
    return scopeRefused(c, found.scopes) ?? next();
  }
  if (!peopled && (await isSame(token, secret!))) return next();
  await signInAttempts.failed(db, caller, now);
  const detail = peopled ? "This is no token of this shop, or it was revoked. A manager makes them under API tokens." : undefined;
  return refuse(c, "sign-in refused", {
    ...(detail && { detail }),
    headers: { "www-authenticate": 'Bearer realm="Ohmwright", error="invalid_token"' },
  });
}
