/** What the sign-in pages need of the build, and where passkeys can be used. */
import type { Context } from "hono";
import type { Look, PasskeyPlace } from "../../pages/staff/view.js";
import type { AppEnv } from "../bindings.js";
import { stylesheetOf } from "../problems/refuse.js";
import { built } from "../site/frame.js";

export const lookOf = (c: Context<AppEnv>): Look => ({
  style: stylesheetOf(c) ?? "",
  icon: built(c, "icon"),
  script: built(c, "account"),
});

const ADDRESS = /^(\d{1,3}(\.\d{1,3}){3}|\[.*\])$/;
const LOOPBACK = /^(127\.0\.0\.1|\[::1\])$/;

/** An RP ID is a name, never an address (Web Authentication, 5.1.2), and the page must be a secure context. */
export function passkeyPlace(c: Context<AppEnv>): PasskeyPlace {
  const seen = new URL(c.req.url);
  const host = c.req.header("host") ?? seen.host;
  if (!URL.canParse(`http://${host}`)) return { is: "nowhere" };
  const { hostname, port } = new URL(`http://${host}`);
  if (LOOPBACK.test(hostname)) {
    const path = c.req.method === "GET" ? seen.pathname + seen.search : "/sign-in";
    return { is: "at", href: `http://localhost${port ? `:${port}` : ""}${path}` };
  }
  return ADDRESS.test(hostname) ? { is: "nowhere" } : { is: "here" };
}

export const bareAnswer = (c: Context<AppEnv>, page: unknown, status: 200 | 401 | 403 | 404 | 409 | 410 | 422 | 429 = 200) =>
  c.html(`<!doctype html>${String(page)}`, status, { "cache-control": "no-store" });
