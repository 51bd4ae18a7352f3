/** Coming in and going out. */
import { type Context, Hono } from "hono";
import type { HeldForm } from "../../pages/staff/view.js";
import { passkeys } from "../../records/passkeys.js";
import { passphrases } from "../../records/passphrases.js";
import { recoveryCodes } from "../../records/recoveryCodes.js";
import { sessions, type WayIn } from "../../records/sessions.js";
import { signInEvents } from "../../records/signInEvents.js";
import { nameKey, type StaffMember, staff } from "../../records/staff.js";
import type { AppEnv, Bindings } from "../bindings.js";
import { givePass, takePass } from "../guard/pass.js";
import { isSame, isUsable } from "../guard/secret.js";
import { takeSession } from "../guard/sessionCookie.js";
import { refuse } from "../problems/refuse.js";
import { tooMany, waitBefore, wrongAttempt } from "./attempts.js";
import { showSignIn } from "./bare.js";
import { comeIn } from "./comeIn.js";
import { ownPath, type SentFields, sentFields } from "./form.js";
import { heldIn, offerHeld } from "./held.js";
import { optionsToGet, provenPasskey } from "./passkey.js";

interface Coming {
  readonly to: string;
  readonly held: HeldForm | undefined;
  readonly fields: SentFields;
}

export function signIn(secretOf: (bindings: Bindings) => string | undefined) {
  const app = new Hono<AppEnv>();

  app.get("/sign-in", (c) => showSignIn(c, { to: ownPath(c.req.query("to")) }));

  app.post("/sign-in/passkey", async (c) => {
    const options = await optionsToGet(c);
    return options ? c.json(options, 200, { "cache-control": "no-store" }) : refuse(c, "passkey unusable");
  });

  app.post("/sign-in", async (c) => {
    const fields = await sentFields(c);
    const coming = { fields, to: ownPath(fields.raw("to")), held: heldIn(fields.raw("held")) };
    return (await staff.anyone(c.var.db)) ? byAccount(c, coming) : bySecret(c, coming, secretOf(c.env));
  });

  app.post("/sign-out", async (c) => {
    const { db, session } = c.var;
    const at = c.var.clock().toISOString();
    if (session)
      await db.batch([
        sessions.end(db, session.staffId, session.id, at),
        signInEvents.adding(db, { what: "signed out", staffId: session.staffId }, at),
      ]);
    takePass(c);
    takeSession(c);
    return c.redirect("/sign-in", 303);
  });
  return app;
}

async function bySecret(c: Context<AppEnv>, { fields, to, held }: Coming, secret: string | undefined) {
  // On loopback, before anyone has an account, there is nothing to sign in to.
  if (!isUsable(secret)) return c.redirect(to, 303);
  const wait = await waitBefore(c);
  if (wait > 0) return showSignIn(c, { to, held, status: 429, errors: { secret: tooMany(c, wait) } });
  const given = fields.raw("secret");
  if (given === "") return showSignIn(c, { to, held, status: 422, errors: { secret: "Enter the shop's secret." } });
  if (!(await isSame(given, secret))) {
    await wrongAttempt(c);
    const wrong = "That is not the shop's secret. It was set as OHMWRIGHT_SECRET when the shop was put up.";
    return showSignIn(c, { to, held, status: 401, errors: { secret: wrong } });
  }
  await givePass(c, secret, c.var.clock());
  return held ? offerHeld(c, held, undefined) : c.redirect(to, 303);
}

async function byAccount(c: Context<AppEnv>, coming: Coming) {
  const { fields, to, held } = coming;
  const typed = new Map([["name", fields.text("name")]]);
  const account = fields.raw("passphrase") === "" ? undefined : nameKey(fields.text("name"));
  const wait = await waitBefore(c, account);
  if (wait > 0) return showSignIn(c, { to, held, status: 429, fields: typed, errors: { "": tooMany(c, wait) } });
  const tried = await attempt(c, fields);
  if (tried.is === "incomplete") return showSignIn(c, { to, held, status: 422, fields: typed, errors: tried.errors });
  const person = tried.staffId === undefined ? undefined : await staff.find(c.var.db, tried.staffId);
  if (!person || !canComeIn(person)) {
    await wrongAttempt(c, account);
    const event = { what: "refused", how: tried.how, caller: await c.var.caller("sign-in") } as const;
    const about = person?.id ?? tried.about;
    await signInEvents.adding(c.var.db, { ...event, ...(about && { staffId: about }) }, c.var.clock().toISOString());
    return showSignIn(c, { to, held, status: 401, fields: typed, errors: tried.errors });
  }
  await comeIn(c, person.id, tried.how, tried.writes ?? []);
  return held ? offerHeld(c, held, person.name) : c.redirect(to, 303);
}

const canComeIn = ({ joinedAt, leftAt }: StaffMember): boolean => joinedAt !== undefined && leftAt === undefined;

type Tried =
  | { readonly is: "incomplete"; readonly errors: Readonly<Record<string, string>> }
  | {
      readonly is: "tried";
      readonly how: WayIn;
      /** Whose account it opens. */
      readonly staffId: string | undefined;
      /** Whose account was tried. */
      readonly about?: string | undefined;
      readonly writes?: Parameters<typeof comeIn>[3];
      /** What to say when it does not open. */
      readonly errors: Readonly<Record<string, string>>;
    };

/** The passkey that was used, otherwise the code, otherwise name and passphrase. */
async function attempt(c: Context<AppEnv>, fields: SentFields): Promise<Tried> {
  const { db } = c.var;
  const at = c.var.clock().toISOString();
  const used = fields.raw("passkey");
  if (used !== "") {
    const proven = await provenPasskey(c, used);
    const errors = { "": "This passkey does not open an account here. Try again, or sign in another way." };
    if (!proven) return { is: "tried", how: "passkey", staffId: undefined, errors };
    const writes = [passkeys.used(db, proven.passkey.id, proven.counter, at)];
    return { is: "tried", how: "passkey", staffId: proven.passkey.staffId, writes, errors };
  }
  const code = fields.text("code");
  if (code !== "") {
    const errors = { code: "This is no recovery code, or it was used before. Check it, or take the next." };
    return { is: "tried", how: "recovery code", staffId: await recoveryCodes.spend(db, code, at), errors };
  }
  const [name, passphrase] = [fields.text("name"), fields.raw("passphrase")];
  if (name === "" || passphrase === "")
    return {
      is: "incomplete",
      errors: {
        ...(name === "" && { name: "Enter your name." }),
        ...(passphrase === "" && { passphrase: "Enter your passphrase." }),
      },
    };
  const person = await staff.named(db, name);
  const matches = await passphrases.matches(db, person?.id, passphrase, c.var.passphraseCost);
  const errors = { passphrase: "This name and this passphrase do not belong together." };
  return { is: "tried", how: "passphrase", staffId: matches ? person?.id : undefined, about: person?.id, errors };
}
