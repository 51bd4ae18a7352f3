/** Coming in by what one has, and going out. What does not open is told too: the list of sign-ins has it, and the door counts it. */
import { z } from "zod";
import { passkeys } from "../records/passkeys.js";
import { passphrases } from "../records/passphrases.js";
import { type Session, sessions, type WayIn } from "../records/sessions.js";
import { signInEvents } from "../records/signInEvents.js";
import { type StaffMember, staff } from "../records/staff.js";
import type { Write } from "../records/trail.js";
import { act, type Decided, type Desk, refused } from "./act.js";
import type { Fault } from "./fault.js";
import { line, maybe, secret } from "./field.js";
import { comingIn, type Entrance, passkeyAnswer, passphrase } from "./wayIn.js";

const fields = z.strictObject({
  name: maybe(line("Your name", { most: 500 })),
  passphrase: passphrase("Passphrase"),
  code: maybe(line("Recovery code", { most: 500, hint: "One of the ten you printed. Each is good once." })),
  passkey: passkeyAnswer(),
});
type Said = z.output<typeof fields>;

export type SignedIn =
  | { readonly is: "in"; readonly token: string; readonly name: string }
  /** Where to say it, and what. */
  | { readonly is: "refused"; readonly at: keyof Said | ""; readonly why: string };

export const signIn = act({
  name: "signIn",
  title: "Sign in",
  fields,
  answer: z.unknown(),
  decide: async (desk, said, entrance: Entrance): Promise<Decided<SignedIn>> => {
    const { db, at } = desk;
    const lacks = lacking(said);
    if (lacks.length > 0) return refused("input refused", { errors: lacks });
    const tried = await attempt(desk, said, entrance);
    const person = tried.opens === undefined ? undefined : await staff.find(db, tried.opens);
    if (person && canComeIn(person)) {
      const { token, writes } = await comingIn(desk, person.id, tried.how, entrance);
      return { answer: { is: "in", token, name: person.name }, writes: [...(tried.writes ?? []), ...writes] };
    }
    const about = person?.id ?? tried.about;
    const event = { what: "refused", how: tried.how, caller: entrance.caller, ...(about && { staffId: about }) } as const;
    return {
      answer: { is: "refused", at: tried.at, why: tried.why },
      writes: [signInEvents.adding(db, event, at)],
    };
  },
});

const canComeIn = ({ joinedAt, leftAt }: StaffMember): boolean => joinedAt !== undefined && leftAt === undefined;

function lacking({ passkey, code, name, passphrase: phrase }: Said): readonly Fault[] {
  if (passkey !== undefined || code !== undefined) return [];
  const missing = (field: string, detail: string): Fault => ({ pointer: `/${field}`, name: "key missing", detail });
  return [
    ...(name === undefined ? [missing("name", "Enter your name.")] : []),
    ...(phrase === undefined ? [missing("passphrase", "Enter your passphrase.")] : []),
  ];
}

interface Tried {
  readonly how: WayIn;
  /** Whose account it opens. */
  readonly opens: string | undefined;
  /** Whose account was tried. */
  readonly about?: string | undefined;
  readonly writes?: readonly Write[];
  /** What is said where it does not open. */
  readonly at: keyof Said | "";
  readonly why: string;
}

/** The passkey that was used, otherwise the code, otherwise name and passphrase. */
async function attempt({ db, at }: Desk, { passkey, code, name, passphrase: phrase }: Said, who: Entrance): Promise<Tried> {
  if (passkey !== undefined) {
    const proven = await who.proven(passkey);
    const why = "This passkey does not open an account here. Try again, or sign in another way.";
    const writes = proven ? [passkeys.used(db, proven.passkey.id, proven.counter, at)] : [];
    return { how: "passkey", opens: proven?.passkey.staffId, writes, at: "", why };
  }
  if (code !== undefined) {
    const why = "This is no recovery code, or it was used before. Check it, or take the next.";
    return { how: "recovery code", opens: await who.spent(code), at: "code", why };
  }
  const person = await staff.named(db, name!);
  const matches = await passphrases.matches(db, person?.id, phrase!, who.cost);
  const why = "This name and this passphrase do not belong together.";
  return { how: "passphrase", opens: matches ? person?.id : undefined, about: person?.id, at: "passphrase", why };
}

/** Before anyone has an account. `right`: whether that is it. */
export const enterBySecret = act({
  name: "enterBySecret",
  title: "Sign in",
  fields: z.strictObject({
    secret: secret("The shop's secret", {
      hint: "OHMWRIGHT_SECRET, as it was set when the shop was put up. It is wanted until the first account is made.",
    }),
  }),
  answer: z.unknown(),
  decide: async (_, { secret: given }, { right }: { readonly right: (given: string) => Promise<boolean> }) => ({
    answer: await right(given),
  }),
});

export const signOut = act({
  name: "signOut",
  title: "Sign out",
  fields: z.strictObject({}),
  answer: z.unknown(),
  decide: async ({ db, at }, _, { id, staffId }: Session) => ({
    answer: {},
    writes: [sessions.end(db, staffId, id, at), signInEvents.adding(db, { what: "signed out", staffId }, at)],
  }),
});
