/** Pages outside the shop's frame: the sign-in page as it stands, recovery codes, and what such a page needs of the build. */
import type { Context } from "hono";
import { saysOf } from "../../acts/field.js";
import { enterBySecret, signIn } from "../../acts/signIn.js";
import { CodesPage } from "../../pages/staff/setUp.js";
import { SecretPage, SignInPage } from "../../pages/staff/signIn.js";
import type { HeldForm, Look, PasskeyPlace } from "../../pages/staff/view.js";
import { staff } from "../../records/staff.js";
import type { AppEnv } from "../bindings.js";
import { stylesheetOf } from "../problems/refuse.js";
import { built } from "./frame.js";

export const lookOf = (c: Context<AppEnv>): Look => ({
  style: stylesheetOf(c) ?? "",
  icon: built(c, "icon"),
  script: built(c, "account"),
});

const ADDRESS = /^(\d{1,3}(\.\d{1,3}){3}|\[.*\])$/;
const LOOPBACK = /^(127\.0\.0\.1|\[::1\])$/;

/** `sentFrom`: the page a form was sent from. An RP ID is a name, never an address (Web Authentication, 5.1.2), and the page must be a secure context. */
export function passkeyPlace(c: Context<AppEnv>, sentFrom = "/sign-in"): PasskeyPlace {
  const seen = new URL(c.req.url);
  const host = c.req.header("host") ?? seen.host;
  if (!URL.canParse(`http://${host}`)) return { is: "nowhere" };
  const { hostname, port } = new URL(`http://${host}`);
  if (LOOPBACK.test(hostname)) {
    const path = c.req.method === "GET" ? seen.pathname + seen.search : sentFrom;
    return { is: "at", href: `http://localhost${port ? `:${port}` : ""}${path}` };
  }
  return ADDRESS.test(hostname) ? { is: "nowhere" } : { is: "here" };
}

export const bareAnswer = (c: Context<AppEnv>, page: unknown, status: 200 | 401 | 403 | 404 | 409 | 410 | 422 | 429 = 200) =>
  c.html(`<!doctype html>${String(page)}`, status, { "cache-control": "no-store" });

/** New recovery codes, told this once. */
export const showCodes = (c: Context<AppEnv>, codes: { name: string; codes: readonly string[]; next: string }) =>
  bareAnswer(c, <CodesPage look={lookOf(c)} {...codes} />);

export interface Shown {
  readonly to: string;
  readonly held?: HeldForm | undefined;
  readonly status?: 200 | 401 | 404 | 409 | 422 | 429;
  /** What was typed, never a secret. */
  readonly fields?: ReadonlyMap<string, string>;
  readonly errors?: ReadonlyMap<string, string>;
}

/** By account once there is one, by the shop's secret before. */
export async function showSignIn(c: Context<AppEnv>, { to, held, status = 200, fields = new Map(), errors = new Map() }: Shown) {
  const shared = { look: lookOf(c), to, held, fields, errors };
  const page = (await staff.anyone(c.var.db)) ? (
    <SignInPage {...shared} says={saysOf(signIn.fields)} place={passkeyPlace(c)} secretHelps={c.var.reachable} />
  ) : (
    <SecretPage {...shared} says={saysOf(enterBySecret.fields)} />
  );
  return bareAnswer(c, page, status);
}
