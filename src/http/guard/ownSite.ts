/** A change is carried out only when our own page, or a program that is no browser, asked for it (CSRF). */
import type { MiddlewareHandler } from "hono";
import type { AppEnv } from "../bindings.js";
import { refuse } from "../problems/refuse.js";

const SAFE = new Set(["GET", "HEAD", "OPTIONS"]);
/** What a plain form of another site could send without asking first. */
const FORM = /^(application\/x-www-form-urlencoded|multipart\/form-data|text\/plain)\b/i;

export const ownSite: MiddlewareHandler<AppEnv> = async (c, next) => {
  if (SAFE.has(c.req.method) || fromUs(c.req.header("sec-fetch-site"), c.req.header("origin"), c)) return next();
  return refuse(c, "other site", { detail: "Open the page on this site and send it from there." });
};

function fromUs(
  site: string | undefined,
  origin: string | undefined,
  c: { req: { url: string; header: (name: string) => string | undefined } },
) {
  if (site !== undefined) return site === "same-origin" || site === "none";
  if (origin !== undefined) return hostOf(origin) === (c.req.header("host") ?? new URL(c.req.url).host);
  const type = c.req.header("content-type");
  return type !== undefined && !FORM.test(type);
}

const hostOf = (origin: string): string | undefined => (URL.canParse(origin) ? new URL(origin).host : undefined);
