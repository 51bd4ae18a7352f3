/** Beginning a session, and the ways in a person can be given. */
import type { BatchItem } from "drizzle-orm/batch";
import type { Context } from "hono";
import { PASSPHRASE_LENGTH, PASSPHRASE_LONGEST } from "../../records/entryTerms.js";
import { type Passkey, passkeys } from "../../records/passkeys.js";
import {
  newPassphrase,
  type PassphraseFault,
  type PassphraseRow,
  passphraseFault,
  passphrases,
} from "../../records/passphrases.js";
import { newSession, sessions, type WayIn } from "../../records/sessions.js";
import { signInEvents } from "../../records/signInEvents.js";
import type { AppEnv } from "../bindings.js";
import { giveSession } from "../guard/sessionCookie.js";
import type { SentFields } from "./form.js";
import { createdPasskey } from "./passkey.js";

type Write = BatchItem<"sqlite">;

/** Signs someone in; `writes` go into the same batch. */
export async function comeIn(c: Context<AppEnv>, staffId: string, how: WayIn, writes: readonly Write[] = []): Promise<void> {
  const { db, session: before } = c.var;
  const at = c.var.clock().toISOString();
  const { row, token } = await newSession({ staffId, how, agent: c.req.header("user-agent") }, at);
  const event = { what: "signed in", staffId, how, caller: await c.var.caller("sign-in") } as const;
  const ending = before ? [sessions.end(db, before.staffId, before.id, at)] : [];
  const [first, ...rest] = [...writes, sessions.adding(db, row), signInEvents.adding(db, event, at), ...ending] as const;
  await db.batch([first!, ...rest]);
  await giveSession(c, token);
}

export type NewWay =
  | { readonly is: "passkey"; readonly passkey: Passkey }
  | { readonly is: "passphrase"; readonly row: PassphraseRow }
  | { readonly is: "none"; readonly wrong: string };

const FAULTS: Readonly<Record<PassphraseFault, string>> = {
  "too short": `The passphrase is too short; use at least ${PASSPHRASE_LENGTH} characters, such as four or five words.`,
  "too long": `The passphrase is longer than ${PASSPHRASE_LONGEST} characters; shorten it.`,
  "too plain": "The passphrase has too few different characters; use four or five words.",
};

/** The passkey that was made, or the passphrase that was typed, in a form. */
export async function newWayIn(c: Context<AppEnv>, fields: SentFields, passkeyName: string): Promise<NewWay> {
  const made = fields.raw("passkey");
  if (made !== "") {
    const passkey = await createdPasskey(c, made, passkeyName);
    return passkey ? { is: "passkey", passkey } : { is: "none", wrong: "The passkey could not be checked; make it again." };
  }
  const passphrase = fields.raw("passphrase");
  if (passphrase === "") return { is: "none", wrong: "Make a passkey, or type a passphrase." };
  const fault = passphraseFault(passphrase);
  if (fault) return { is: "none", wrong: FAULTS[fault] };
  return { is: "passphrase", row: await newPassphrase(passphrase, c.var.clock().toISOString(), c.var.passphraseCost) };
}

/** For a batch: the way in on record, and the event that tells of it. */
export function wayWrites(c: Context<AppEnv>, staffId: string, way: Exclude<NewWay, { is: "none" }>): Write[] {
  const { db } = c.var;
  const at = c.var.clock().toISOString();
  const noted = (what: "passkey added" | "passphrase set") => signInEvents.adding(db, { what, staffId }, at);
  return way.is === "passkey"
    ? [passkeys.adding(db, { ...way.passkey, staffId }), noted("passkey added")]
    : [passphrases.setting(db, staffId, way.row), noted("passphrase set")];
}
