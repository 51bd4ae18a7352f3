/** Coming in and going out. */
import { type Context, Hono } from "hono";
import { carryOut } from "../../acts/carryOut.js";
import { type Typed, typedFrom } from "../../acts/readForm.js";
import { enterBySecret, signIn as signInByAccount, signOut } from "../../acts/signIn.js";
import { shopSettings } from "../../records/settings.js";
import { staff } from "../../records/staff.js";
import type { AppEnv, Bindings } from "../bindings.js";
import { deskOf } from "../doors/desk.js";
import { pageDoor } from "../doors/page.js";
import { type Shown, showSignIn } from "../frame/bare.js";
import { heldIn, offerHeld, ownPath } from "../frame/held.js";
import { attempted, knowBrowser, tooMany } from "../guard/attempts.js";
import { giveSession, takeSession } from "../guard/cookies.js";
import { givePass, isSame, isUsable, takePass } from "../guard/secret.js";
import { refuse } from "../problems/refuse.js";
import { entranceOf } from "./comeIn.js";
import { optionsToGet } from "./passkey.js";

export function signIn(secretOf: (bindings: Bindings) => string | undefined) {
  const app = new Hono<AppEnv>();

  app.get("/sign-in", (c) => showSignIn(c, { to: ownPath(c.req.query("to")) }));

  app.post("/sign-in/passkey", async (c) => {
    const options = await optionsToGet(c);
    return options ? c.json(options, 200, { "cache-control": "no-store" }) : refuse(c, "passkey unusable");
  });

  app.post("/sign-in", async (c) => {
    const typed = typedFrom(new URLSearchParams(await c.req.text()));
    return (await staff.anyone(c.var.db)) ? byAccount(c, typed) : bySecret(c, typed, secretOf(c.env));
  });

  app.post("/sign-out", async (c) => {
    const { session } = c.var;
    if (session) await carryOut(signOut, deskOf(c), {}, session);
    takePass(c);
    takeSession(c);
    return c.redirect("/sign-in", 303);
  });
  return app;
}

/** Where someone was going, with what they had typed when their sign-in ended. */
const comingFrom = (typed: Typed) => ({ to: ownPath(typed.get("to")), held: heldIn(typed.get("held")) });

async function bySecret(c: Context<AppEnv>, typed: Typed, secret: string | undefined) {
  const { to, held } = comingFrom(typed);
  // On loopback, before anyone has an account, there is nothing to sign in to.
  if (!isUsable(secret)) return c.redirect(to, 303);
  const { wait, takeBack } = await attempted(c);
  const show = (status: Shown["status"], errors: Shown["errors"]) =>
    showSignIn(c, { to, held, ...(status && { status }), ...(errors && { errors }) });
  if (wait > 0) return show(429, new Map([["secret", tooMany(c, wait)]]));
  return pageDoor(c, enterBySecret, {
    on: { right: (given: string) => isSame(given, secret) },
    tongue: await shopSettings(c.var.db),
    once: async (right) => {
      if (!right) {
        const wrong = "That is not the shop's secret. It was set as OHMWRIGHT_SECRET when the shop was put up.";
        return show(401, new Map([["secret", wrong]]));
      }
      await takeBack();
      await givePass(c, secret, c.var.clock());
      return held ? offerHeld(c, held, undefined) : c.redirect(to, 303);
    },
    show: async ({ status, errors }) => {
      await takeBack();
      return show(status, errors);
    },
  });
}

async function byAccount(c: Context<AppEnv>, typed: Typed) {
  const { to, held } = comingFrom(typed);
  const fields = new Map([["name", typed.get("name")?.trim() ?? ""]]);
  const account = typed.get("passphrase") ? fields.get("name")! : undefined;
  const show = (status: NonNullable<Shown["status"]>, errors: ReadonlyMap<string, string>) =>
    showSignIn(c, { to, held, status, fields, errors });
  const { wait, takeBack } = await attempted(c, "sign-in", account);
  if (wait > 0) return show(429, new Map([["", tooMany(c, wait)]]));
  return pageDoor(c, signInByAccount, {
    on: await entranceOf(c),
    tongue: await shopSettings(c.var.db),
    once: async (tried) => {
      if (tried.is === "refused") return show(401, new Map([[tried.at, tried.why]]));
      await takeBack();
      await giveSession(c, tried.token);
      await knowBrowser(c, tried.name);
      return held ? offerHeld(c, held, tried.name) : c.redirect(to, 303);
    },
    show: async ({ status, errors }) => {
      await takeBack();
      return show(status, errors);
    },
  });
}
