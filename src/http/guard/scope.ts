/** What a token's scopes open. Tokens are for the API: no page is theirs. */
import type { Context } from "hono";
import type { Scope } from "../../records/apiTokens.js";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

const OPEN = /^(\/api\/|\/openapi\.json$|\/problems(\/|$))/;
/** They reckon and keep nothing. */
const RECKONING = new Set(["/api/estimate", "/api/estimate/refined", "/api/estimate/risk", "/api/estimate.pdf"]);
const LOOKING = new Set(["GET", "HEAD", "OPTIONS"]);

export function scopeRefused(c: Context<AppEnv>, scopes: readonly Scope[]): Response | undefined {
  const { path, method } = c.req;
  if (!OPEN.test(path)) return refuse(c, "scope wanted", { detail: "A token opens the API only; sign in to see pages." });
  const wanted: Scope = LOOKING.has(method) || RECKONING.has(path) ? "read" : "write";
  if (scopes.includes(wanted)) return undefined;
  return refuse(c, "scope wanted", { detail: `${method} wants the scope '${wanted}'; this token has ${scopes.join(", ")}.` });
}
