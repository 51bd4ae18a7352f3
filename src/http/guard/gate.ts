/**
 * Lets in by the table in who.ts. Once anyone has an account: whoever has a session, and programs with a token. Before that: on loopback
 * everyone, on an address that other machines reach whoever knows the shop's secret.
 */
import type { Context, MiddlewareHandler } from "hono";
import { apiTokens } from "../../records/apiTokens.js";
import { staff } from "../../records/staff.js";
import type { AppEnv, Bindings } from "../bindings.js";
import { holdForm } from "../frame/held.js";
import { refuse, wantsPage } from "../problems/refuse.js";
import { lacking, type Right } from "../who.js";
import { attempted, priceAsked } from "./attempts.js";
import { sessionOf } from "./cookies.js";
import { hasPass, isSame, isUsable, SECRET_LENGTH } from "./secret.js";

/** Nothing stands at the address: only those who come in are told so. */
const NOWHERE: Right = { who: "technician", scope: "read" };

export const gate =
  (secretOf: (bindings: Bindings) => string | undefined): MiddlewareHandler<AppEnv> =>
  async (c, next) => {
    const right = c.var.right ?? NOWHERE;
    if (right.who === "everyone") return next();
    const secret = secretOf(c.env);
    if (c.var.reachable && !isUsable(secret))
      return refuse(c, "secret missing", { detail: `Set OHMWRIGHT_SECRET to at least ${SECRET_LENGTH} characters (README).` });
    if (right.who === "owner") return next();

    const token = right.who === "guest" ? undefined : /^Bearer (.+)$/i.exec(c.req.header("authorization") ?? "")?.[1];
    const stopped = token === undefined ? await byBrowser(c, right, secret) : await byToken(c, right, token, secret);
    return stopped ?? (c.var.right && (await refusedTo(c, right))) ?? next();
  };

/** Undefined: goes on. */
async function byBrowser(c: Context<AppEnv>, { who }: Right, secret: string | undefined): Promise<Response | undefined> {
  const live = await sessionOf(c);
  if (live) {
    c.set("staff", live.staff);
    c.set("session", live.session);
    c.set("guarded", true);
  } else if (who !== "guest") {
    const peopled = await staff.anyone(c.var.db);
    if (peopled || (c.var.reachable && !(await hasPass(c, secret!, c.var.clock())))) return wanted(c);
  }
  return undefined;
}

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

async function byToken(
  c: Context<AppEnv>,
  right: Right,
  token: string,
  secret: string | undefined,
): Promise<Response | undefined> {
  const { db } = c.var;
  if (!c.var.reachable && !(await staff.anyone(db))) return undefined;
  const { peopled, found } = await apiTokens.asked(db, token);
  if (found) {
    c.set("staff", found.staff);
    c.set("scopes", found.scopes);
    await apiTokens.used(db, found, c.var.clock().toISOString());
    return counted(c, right, found.id);
  }
  const { wait, takeBack } = await attempted(c);
  if (wait > 0) return refuse(c, "too many attempts", { headers: { "retry-after": String(wait) } });
  if (!peopled && (await isSame(token, secret!))) {
    await takeBack();
    return counted(c, right, "secret");
  }
  const detail = peopled ? "This is no token of this shop, or it was revoked. A manager makes them under API tokens." : undefined;
  return refuse(c, "sign-in refused", {
    ...(detail && { detail }),
    headers: { "www-authenticate": 'Bearer realm="Ohmwright", error="invalid_token"' },
  });
}

/** What is sent only to be reckoned is a price. */
async function counted(c: Context<AppEnv>, { scope }: Right, token: string): Promise<Response | undefined> {
  const wait = c.req.method === "POST" && scope === "read" ? await priceAsked(c, "token", token) : 0;
  return wait > 0 ? refuse(c, "asked too often", { headers: { "retry-after": String(wait) } }) : undefined;
}

const NOBODY_YET = "Nobody has an account yet, so there is none to look at or change: set up the shop first, at /set-up.";

async function refusedTo(c: Context<AppEnv>, right: Right): Promise<Response | undefined> {
  if (right.ofAccounts && !c.var.staff)
    return right.scope ? refuse(c, "sign-in wanted", { detail: NOBODY_YET }) : c.redirect("/set-up", 303);
  const lacks = lacking(right, c.var);
  if (lacks === "sign-in") return refuse(c, "scope wanted", { detail: "A token opens the API only; sign in to see pages." });
  if (lacks === "role") return refuse(c, "role wanted", { detail: "Only a manager of the shop may do this; ask one of them." });
  if (lacks === "admin")
    return refuse(c, "scope wanted", { detail: "This wants the scope 'admin', of a token made by a manager." });
  if (lacks)
    return refuse(c, "scope wanted", { detail: `This wants the scope '${lacks}'; the token has ${c.var.scopes!.join(", ")}.` });
  return right.who === "founder" && (await staff.anyone(c.var.db)) ? c.redirect("/", 303) : undefined;
}
