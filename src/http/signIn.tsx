/** The sign-in page: the secret in, a signed cookie out. */
import { type Context, Hono } from "hono";
import { SignIn } from "../pages/signIn.js";
import { signInAttempts } from "../records/signInAttempts.js";
import type { AppEnv } from "./bindings.js";
import type { GateOptions } from "./guard/gate.js";
import { givePass, takePass } from "./guard/pass.js";
import { callerName, isSame } from "./guard/secret.js";
import { stylesheetOf } from "./problems/refuse.js";

export function signIn({ secretOf, addressOf }: Pick<GateOptions, "secretOf" | "addressOf">) {
  const app = new Hono<AppEnv>();

  app.get("/sign-in", (c) => page(c, 200, ownPath(c.req.query("to"))));

  app.post("/sign-in", async (c) => {
    const form = await c.req.parseBody();
    const to = ownPath(form.to);
    const secret = secretOf(c.env) ?? "";
    const now = c.var.clock();
    const caller = await callerName(addressOf(c), secret);
    const wait = await signInAttempts.wait(c.var.db, caller, now);
    if (wait > 0) {
      c.header("retry-after", String(wait));
      return page(c, 429, to, `Too many wrong secrets. Wait ${Math.ceil(wait / 60)} minutes, then try again.`);
    }
    const given = form.secret;
    if (typeof given !== "string" || given === "") return page(c, 422, to, "Enter the shop's secret.");
    if (!(await isSame(given, secret))) {
      await signInAttempts.failed(c.var.db, caller, now);
      return page(c, 401, to, "That is not the shop's secret. It was set as OHMWRIGHT_SECRET when the shop was put up.");
    }
    await givePass(c, secret, now);
    return c.redirect(to, 303);
  });

  app.post("/sign-out", (c) => {
    takePass(c);
    return c.redirect("/sign-in", 303);
  });
  return app;
}

function page(c: Context<AppEnv>, status: 200 | 401 | 422 | 429, to: string, wrong?: string) {
  return c.html(`<!doctype html>${(<SignIn style={stylesheetOf(c)} to={to} {...(wrong && { wrong })} />).toString()}`, status);
}

/** A path of this site and nothing else: never another host. */
function ownPath(to: unknown): string {
  if (typeof to !== "string" || !/^\/(?![/\\])/.test(to)) return "/";
  const at = new URL(to, "http://here.invalid");
  return at.host === "here.invalid" ? at.pathname + at.search : "/";
}
