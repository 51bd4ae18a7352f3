/** One's own account: ways in, recovery codes, sessions. */
import { type Context, Hono } from "hono";
import type { z } from "zod";
import type { Act } from "../../acts/act.js";
import { saysOf } from "../../acts/field.js";
import {
  addPasskey,
  endSessions,
  makeCodes,
  removePasskey,
  removePassphrase,
  renamePasskey,
  setPassphrase,
} from "../../acts/ownAccount.js";
import { AccountPage } from "../../pages/staff/account.js";
import { passkeys } from "../../records/passkeys.js";
import { passphrases } from "../../records/passphrases.js";
import { recoveryCodes } from "../../records/recoveryCodes.js";
import { sessions } from "../../records/sessions.js";
import { shopSettings } from "../../records/settings.js";
import { moment } from "../../wording/time.js";
import type { AppEnv } from "../bindings.js";
import { pageDoor } from "../doors/page.js";
import { lookOf, passkeyPlace, showCodes } from "../frame/bare.js";
import { frameFor, pageAnswer } from "../frame/frame.js";
import { entranceOf } from "./comeIn.js";

export const account = new Hono<AppEnv>();

const SAID: Readonly<Record<string, string>> = {
  passkey: "The passkey opens your account from now on.",
  named: "Renamed.",
  removed: "It opens your account no more.",
  passphrase: "The passphrase is set. Every other browser of yours was signed out.",
  ended: "Signed out there.",
};

account.get("/account", (c) => show(c, new Map(), SAID[c.req.query("said") ?? ""]));

account.post("/account/passkeys", async (c) => door(c, addPasskey, "passkey", await entranceOf(c)));

account.post("/account/passkeys/:id/name", (c) => door(c, renamePasskey, "named", { passkey: c.req.param("id") }));
account.post("/account/passkeys/:id/removal", (c) => door(c, removePasskey, "removed", { passkey: c.req.param("id") }));

account.post("/account/passphrase", async (c) => {
  const { session } = c.var;
  return door(c, setPassphrase, "passphrase", { ...(await entranceOf(c)), ...(session && { session: session.id }) });
});

account.post("/account/passphrase/removal", (c) => door(c, removePassphrase, "removed", {}));

account.post("/account/codes", (c) =>
  door(c, makeCodes, "", {}, (codes) => showCodes(c, { name: c.var.staff!.name, codes, next: "/account" })),
);

account.post("/account/sessions/:id/end", (c) => door(c, endSessions, "ended", { session: c.req.param("id") }));
account.post("/account/sessions/end-others", (c) => door(c, endSessions, "ended", { allBut: c.var.session?.id }));

async function door<F extends z.ZodObject, A, On>(
  c: Context<AppEnv>,
  act: Act<F, A, On>,
  said: string,
  on: On,
  once?: (answer: A) => Response,
) {
  return pageDoor(c, act, {
    ...{ on, tongue: await shopSettings(c.var.db), done: () => `/account?said=${said}`, ...(once && { once }) },
    show: ({ errors }) => show(c, errors),
  });
}

async function show(c: Context<AppEnv>, errors: ReadonlyMap<string, string>, say?: string) {
  const { db, session } = c.var;
  const [person, now] = [c.var.staff!, c.var.clock().toISOString()];
  const [shop, keys, phrase, left, live] = await Promise.all([
    shopSettings(db),
    passkeys.of(db, person.id),
    passphrases.setAt(db, person.id),
    recoveryCodes.left(db, person.id),
    sessions.of(db, person.id, now),
  ]);
  const when = (at: string) => moment(at, shop.locale, shop.timeZone);
  // A row's own box has no place to say it.
  const wrong = new Map([...errors].map(([name, text]) => [name === "passkeyName" ? "passkey" : name, text]));
  return pageAnswer(
    c,
    <AccountPage
      frame={frameFor(c, shop.name)}
      script={lookOf(c).script}
      place={passkeyPlace(c)}
      person={person}
      passkeys={keys.map(({ id, name, site, madeAt, usedAt }) => ({
        id,
        name,
        site,
        made: when(madeAt),
        ...(usedAt && { used: when(usedAt) }),
      }))}
      {...(phrase && { passphraseSet: when(phrase) })}
      codesLeft={left}
      sessions={live.map(({ id, how, agent, begunAt, seenAt }) => ({
        id,
        how,
        agent: agent ?? "",
        begun: when(begunAt),
        seen: when(seenAt),
        here: id === session?.id,
      }))}
      says={saysOf(setPassphrase.fields)}
      fields={new Map()}
      errors={wrong}
      say={say}
    />,
    wrong.size > 0 ? 422 : 200,
  );
}
