/**
 * Coming in: the ways in that a person can be given, the codes that help when all are lost, and the session that begins.
 * What has to be asked of the browser, and may be asked once only, stands before the act (`Entrance`); all that is written is in its one batch.
 */
import { PASSPHRASE_LENGTH, PASSPHRASE_LONGEST } from "../records/entryTerms.js";
import { type Passkey, passkeys } from "../records/passkeys.js";
import { newPassphrase, type PassphraseFault, passphraseFault, passphrases } from "../records/passphrases.js";
import { newRecoveryCodes, recoveryCodes } from "../records/recoveryCodes.js";
import type { Cost } from "../records/secrets.js";
import { newSession, type Session, sessions, type WayIn } from "../records/sessions.js";
import { signInEvents } from "../records/signInEvents.js";
import type { Write } from "../records/trail.js";
import type { Desk } from "./act.js";
import type { Fault } from "./fault.js";
import { maybe, secret } from "./field.js";

/** Who is at the door. Each promise is kept: an act that is decided again asks nothing anew. */
export interface Entrance {
  /** A name for where the request came from, which does not tell it. */
  readonly caller: string;
  readonly agent?: string;
  /** The session of this browser that a new one ends. */
  readonly before?: Session;
  /** What a passphrase costs to try; absent: the cost of the records. */
  readonly cost?: Cost;
  /** The passkey that was made, and whose it is to be; undefined: it does not hold. */
  readonly created: (sent: string) => Promise<Omit<Passkey, "name"> | undefined>;
  /** The passkey that someone proved to hold, and its counter now. */
  readonly proven: (sent: string) => Promise<{ readonly passkey: Passkey; readonly counter: number } | undefined>;
  /** Whose recovery code it was, spent by asking. */
  readonly spent: (code: string) => Promise<string | undefined>;
}

/** What is told once: the codes, and what the browser is let in by. */
export interface In {
  readonly name: string;
  readonly codes: readonly string[];
  readonly token: string;
}

/** The answer of the browser's own ceremony travels in a field of the form. */
export const passkeyAnswer = () => maybe(secret("Passkey", { most: 20_000 }));
/** Longer than any is allowed to be, so that its own sentence says so. */
export const passphrase = (label: string, hint?: string) =>
  maybe(secret(label, { most: 10_000, ...(hint !== undefined && { hint }) }));

export const LONG_ENOUGH = `At least ${PASSPHRASE_LENGTH} characters, any you like: four or five words will do.`;
export const NEW_WAY = { passkey: passkeyAnswer(), passphrase: passphrase("Passphrase", LONG_ENOUGH) };

interface Sent {
  readonly passkey?: string | undefined;
  readonly passphrase?: string | undefined;
}

/** For a batch: the way in of whoever it is for, and the event that tells of it. */
type NewWay = { readonly staffId?: string; readonly writes: (staffId: string) => readonly Write[] } | { readonly wrong: Fault };

const FAULTS: Readonly<Record<PassphraseFault, string>> = {
  "too short": `The passphrase is too short; use at least ${PASSPHRASE_LENGTH} characters, such as four or five words.`,
  "too long": `The passphrase is longer than ${PASSPHRASE_LONGEST} characters; shorten it.`,
  "too plain": "The passphrase has too few different characters; use four or five words.",
};

const wrong = (name: string, detail: string, pointer = "/passphrase") => ({ wrong: { pointer, name, detail } });
const UNCHECKED = "The passkey could not be checked; make it again.";

/** The passkey that was made, otherwise the passphrase that was typed. `whose`: the one it must have been made for. */
export async function newWay(
  { db, at }: Desk,
  sent: Sent,
  { created, cost }: Entrance,
  named: string,
  { whose, under }: { readonly whose?: string; readonly under?: "/passkey" } = {},
): Promise<NewWay> {
  const noted = (what: "passkey added" | "passphrase set", staffId: string) => signInEvents.adding(db, { what, staffId }, at);
  if (sent.passkey !== undefined) {
    const made = await created(sent.passkey);
    if (made && (await passkeys.find(db, made.id))) return wrong("name taken", "This passkey is on record already.", under);
    if (!made || (whose !== undefined && made.staffId !== whose)) return wrong("value unreadable", UNCHECKED, under);
    const writes = (staffId: string) => [passkeys.adding(db, { ...made, name: named, staffId }), noted("passkey added", staffId)];
    return { staffId: made.staffId, writes };
  }
  if (sent.passphrase === undefined) return wrong("key missing", "Make a passkey, or type a passphrase.");
  const fault = passphraseFault(sent.passphrase);
  if (fault) return wrong(fault === "too long" ? "text too long" : "value unreadable", FAULTS[fault]);
  const row = await newPassphrase(sent.passphrase, at, cost);
  return { writes: (staffId) => [passphrases.setting(db, staffId, row), noted("passphrase set", staffId)] };
}

/** For a batch: ten codes in place of those before. They are told once. */
export async function newCodes({ db, at }: Desk, staffId: string) {
  const { codes, rows } = await newRecoveryCodes(staffId, at);
  return { codes, writes: recoveryCodes.replacing(db, staffId, rows) as readonly Write[] };
}

/** For a batch: someone is in from here on, and this browser's session before ends. The token is told once. */
export async function comingIn({ db, at }: Desk, staffId: string, how: WayIn, { caller, agent, before }: Entrance) {
  const { row, token } = await newSession({ staffId, how, agent }, at);
  const writes: readonly Write[] = [
    sessions.adding(db, row),
    signInEvents.adding(db, { what: "signed in", staffId, how, caller }, at),
    ...(before ? [sessions.end(db, before.staffId, before.id, at)] : []),
  ];
  return { token, writes };
}
