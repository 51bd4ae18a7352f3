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
import { signInEvents } from "../../records/signInEvents.js";
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
  const [person, fields] = [me(c), await sentFields(c)];
  if (fields.raw("passkey") === "") return show(c, { passkey: "The browser sent no passkey; press the button again." });
  const way = await newWayIn(c, fields, await nextName(c, person));
  if (way.is !== "passkey" || way.passkey.staffId !== person.id)
    return show(c, { passkey: "The passkey could not be checked; make it again." });
  try {
    await written(c, wayWrites(c, person.id, way));
  } catch (error) {
    if (isTaken(error)) return show(c, { passkey: "This passkey is on record already." });
    throw error;
  }
  return c.redirect("/account?said=passkey", 303);
});

account.post("/account/passkeys/:id/name", async (c) => {
  const name = (await sentFields(c)).text("passkeyName").slice(0, 60);
  if (name === "" || /\p{Cc}/u.test(name)) return show(c, { passkey: "Enter a name for the passkey." });
  await passkeys.rename(c.var.db, me(c).id, c.req.param("id"), name);
  return c.redirect("/account?said=named", 303);
});

account.post("/account/passkeys/:id/removal", async (c) => {
  const { db } = c.var;
  const { id: staffId } = me(c);
  const [own, phrase] = [await passkeys.of(db, staffId), await passphrases.setAt(db, staffId)];
  if (own.length === 1 && !phrase)
    return show(c, { passkey: "This is your only way in. Make another passkey or set a passphrase first." });
  await written(c, [
    passkeys.remove(db, staffId, c.req.param("id")),
    signInEvents.adding(db, { what: "passkey removed", staffId }, now(c)),
  ]);
  return c.redirect("/account?said=removed", 303);
});

account.post("/account/passphrase", async (c) => {
  const { db, session } = c.var;
  const [person, fields] = [me(c), await sentFields(c)];
  if ((await passphrases.setAt(db, person.id)) && !(await passphrases.matches(db, person.id, fields.raw("current"))))
    return show(c, { current: "This is not your passphrase now." });
  const typed = { ...fields, raw: (name: string) => (name === "passkey" ? "" : fields.raw(name)) };
  const way = await newWayIn(c, typed, "");
  if (way.is === "none") return show(c, { passphrase: way.wrong });
  await written(c, [...wayWrites(c, person.id, way), sessions.endOthers(db, person.id, session?.id, now(c))]);
  return c.redirect("/account?said=passphrase", 303);
});

account.post("/account/passphrase/removal", async (c) => {
  const { db } = c.var;
  const { id: staffId } = me(c);
  if ((await passkeys.of(db, staffId)).length === 0)
    return show(c, { passphrase: "This is your only way in. Make a passkey first." });
  await written(c, [passphrases.remove(db, staffId), signInEvents.adding(db, { what: "passphrase removed", staffId }, now(c))]);
  return c.redirect("/account?said=removed", 303);
});

account.post("/account/codes", async (c) => {
  const { db } = c.var;
  const person = me(c);
  const { codes, rows } = await newRecoveryCodes(person.id, now(c));
  await written(c, [
    ...recoveryCodes.replacing(db, person.id, rows),
    signInEvents.adding(db, { what: "recovery codes made", staffId: person.id }, now(c)),
  ]);
  return showCodes(c, { name: person.name, codes, next: "/account" });
});

account.post("/account/sessions/:id/end", async (c) => {
  const { db } = c.var;
  const { id: staffId } = me(c);
  await written(c, [
    sessions.end(db, staffId, c.req.param("id"), now(c)),
    signInEvents.adding(db, { what: "session ended", staffId }, now(c)),
  ]);
  return c.redirect("/account?said=ended", 303);
});

account.post("/account/sessions/end-others", async (c) => {
  const { db, session } = c.var;
  const { id: staffId } = me(c);
  await written(c, [
    sessions.endOthers(db, staffId, session?.id, now(c)),
    signInEvents.adding(db, { what: "session ended", staffId }, now(c)),
  ]);
  return c.redirect("/account?said=ended", 303);
});

const now = (c: Context<AppEnv>) => c.var.clock().toISOString();
const me = (c: Context<AppEnv>): StaffIn => c.var.staff!;

async function written(c: Context<AppEnv>, writes: ReturnType<typeof wayWrites>): Promise<void> {
  const [first, ...rest] = writes;
  await c.var.db.batch([first!, ...rest]);
}

const nextName = async (c: Context<AppEnv>, { id }: StaffIn) => `Passkey ${(await passkeys.of(c.var.db, id)).length + 1}`;

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
