/** One's own account: ways in, recovery codes, sessions. */
import { type Context, Hono } from "hono";
import { AccountPage } from "../../pages/staff/account.js";
import { isTaken } from "../../records/constraint.js";
import { PASSPHRASE_LENGTH } from "../../records/entryTerms.js";
import { passkeys } from "../../records/passkeys.js";
import { passphrases } from "../../records/passphrases.js";
import { newRecoveryCodes, recoveryCodes } from "../../records/recoveryCodes.js";
import { sessions } from "../../records/sessions.js";
import { shopSettings } from "../../records/settings.js";
import { type SignInWhat, signInEvents } from "../../records/signInEvents.js";
import { moment } from "../../wording/time.js";
import type { AppEnv, StaffIn } from "../bindings.js";
import { frameFor, pageAnswer } from "../site/frame.js";
import { lookOf, passkeyPlace, showCodes } from "./bare.js";
import { newWayIn, wayWrites } from "./comeIn.js";
import { sentFields } from "./form.js";

export const account = new Hono<AppEnv>();

const SAID: Readonly<Record<string, string>> = {
  passkey: "The passkey opens your account from now on.",
  named: "Renamed.",
  removed: "It opens your account no more.",
  passphrase: "The passphrase is set. Every other browser of yours was signed out.",
  ended: "Signed out there.",
};

account.get("/account", (c) => show(c, {}, SAID[c.req.query("said") ?? ""]));

account.post("/account/passkeys", async (c) => {
  const [{ id }, fields] = [me(c), await sentFields(c)];
  if (fields.raw("passkey") === "") return show(c, { passkey: "The browser sent no passkey; press the button again." });
  const way = await newWayIn(c, fields, `Passkey ${(await passkeys.of(c.var.db, id)).length + 1}`);
  if (way.is !== "passkey" || way.passkey.staffId !== id)
    return show(c, { passkey: "The passkey could not be checked; make it again." });
  try {
    return await write(c, "passkey", wayWrites(c, id, way));
  } catch (error) {
    if (isTaken(error)) return show(c, { passkey: "This passkey is on record already." });
    throw error;
  }
});

account.post("/account/passkeys/:id/name", async (c) => {
  const name = (await sentFields(c)).text("passkeyName").slice(0, 60);
  if (name === "" || /\p{Cc}/u.test(name)) return show(c, { passkey: "Enter a name for the passkey." });
  return write(c, "named", [passkeys.rename(c.var.db, me(c).id, c.req.param("id"), name)]);
});

account.post("/account/passkeys/:id/removal", async (c) => {
  const { db } = c.var;
  const { id } = me(c);
  const [own, phrase] = [await passkeys.of(db, id), await passphrases.setAt(db, id)];
  if (own.length === 1 && !phrase)
    return show(c, { passkey: "This is your only way in. Make another passkey or set a passphrase first." });
  return write(c, "removed", [passkeys.remove(db, id, c.req.param("id")), noted(c, "passkey removed")]);
});

account.post("/account/passphrase", async (c) => {
  const { db, session } = c.var;
  const [{ id }, fields] = [me(c), await sentFields(c)];
  if ((await passphrases.setAt(db, id)) && !(await passphrases.matches(db, id, fields.raw("current"))))
    return show(c, { current: "This is not your passphrase now." });
  const way = await newWayIn(c, { ...fields, raw: (name) => (name === "passkey" ? "" : fields.raw(name)) }, "");
  if (way.is === "none") return show(c, { passphrase: way.wrong });
  return write(c, "passphrase", [...wayWrites(c, id, way), sessions.endOthers(db, id, session?.id, now(c))]);
});

account.post("/account/passphrase/removal", async (c) => {
  const { db } = c.var;
  const { id } = me(c);
  if ((await passkeys.of(db, id)).length === 0) return show(c, { passphrase: "This is your only way in. Make a passkey first." });
  return write(c, "removed", [passphrases.remove(db, id), noted(c, "passphrase removed")]);
});

account.post("/account/codes", async (c) => {
  const { id, name } = me(c);
  const { codes, rows } = await newRecoveryCodes(id, now(c));
  await write(c, "", [...recoveryCodes.replacing(c.var.db, id, rows), noted(c, "recovery codes made")]);
  return showCodes(c, { name, codes, next: "/account" });
});

account.post("/account/sessions/:id/end", (c) =>
  write(c, "ended", [sessions.end(c.var.db, me(c).id, c.req.param("id"), now(c)), noted(c, "session ended")]),
);

account.post("/account/sessions/end-others", (c) =>
  write(c, "ended", [sessions.endOthers(c.var.db, me(c).id, c.var.session?.id, now(c)), noted(c, "session ended")]),
);

const now = (c: Context<AppEnv>) => c.var.clock().toISOString();
const me = (c: Context<AppEnv>): StaffIn => c.var.staff!;

const noted = (c: Context<AppEnv>, what: SignInWhat) => signInEvents.adding(c.var.db, { what, staffId: me(c).id }, now(c));

async function write(c: Context<AppEnv>, said: string, writes: ReturnType<typeof wayWrites>): Promise<Response> {
  const [first, ...rest] = writes;
  await c.var.db.batch([first!, ...rest]);
  return c.redirect(`/account?said=${said}`, 303);
}

async function show(c: Context<AppEnv>, errors: Readonly<Record<string, string>>, say?: string) {
  const { db, session } = c.var;
  const person = me(c);
  const [shop, keys, phrase, left, live] = await Promise.all([
    shopSettings(db),
    passkeys.of(db, person.id),
    passphrases.setAt(db, person.id),
    recoveryCodes.left(db, person.id),
    sessions.of(db, person.id, now(c)),
  ]);
  const when = (at: string) => moment(at, shop.locale, shop.timeZone);
  const wrong = new Map(Object.entries(errors));
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
      shortest={PASSPHRASE_LENGTH}
      fields={new Map()}
      errors={wrong}
      say={say}
    />,
    wrong.size > 0 ? 422 : 200,
  );
}
