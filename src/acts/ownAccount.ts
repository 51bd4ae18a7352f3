/** One's own ways in: the first, by an invitation; more of them, and fewer, but never none; recovery codes; where one is signed in. */
import { z } from "zod";
import { invitations } from "../records/invitations.js";
import { passkeys } from "../records/passkeys.js";
import { passphrases } from "../records/passphrases.js";
import { sessions } from "../records/sessions.js";
import { type SignInWhat, signInEvents } from "../records/signInEvents.js";
import { joining } from "../records/staff.js";
import type { Write } from "../records/trail.js";
import { act, type Decided, type Desk, refused, wrongField } from "./act.js";
import { line } from "./field.js";
import { hand } from "./staff.js";
import { comingIn, type Entrance, type In, LONG_ENOUGH, NEW_WAY, newCodes, newWay, passphrase } from "./wayIn.js";

const nothing = z.strictObject({});
/** What a program gets: these are for people, who see the page again. */
const answer = z.unknown();
const done = (writes: readonly Write[]) => ({ answer: {}, writes });
const noted = (desk: Desk, what: SignInWhat) => signInEvents.adding(desk.db, { what, staffId: hand(desk) }, desk.at);

export const INVITATION_GONE =
  "This invitation was used, has expired, or was replaced by another. Ask a manager of the shop for a new one.";

export const acceptInvitation = act({
  name: "acceptInvitation",
  title: "Your way in",
  fields: z.strictObject(NEW_WAY),
  answer,
  decide: async (desk, sent, { invitation, ...entrance }: Entrance & { readonly invitation: string }): Promise<Decided<In>> => {
    const { db, at } = desk;
    const found = await invitations.find(db, invitation, at);
    if (!found) return refused("link dead", { detail: INVITATION_GONE });
    const { id, name } = found.staff;
    const way = await newWay(desk, sent, entrance, "Passkey", { whose: id });
    if ("wrong" in way) return refused("input refused", { errors: [way.wrong] });
    const [codes, session] = [await newCodes(desk, id), await comingIn(desk, id, "invitation", entrance)];
    return {
      answer: { name, codes: codes.codes, token: session.token },
      writes: [
        invitations.using(db, found.id, at),
        joining(db, id, at),
        // Whoever asks for a new way in may have lost the browser of the old one.
        sessions.endOthers(db, id, undefined, at),
        ...way.writes(id),
        ...codes.writes,
        ...session.writes,
      ],
    };
  },
});

export const addPasskey = act({
  name: "addPasskey",
  title: "Make a passkey",
  fields: z.strictObject({ passkey: NEW_WAY.passkey }),
  answer,
  decide: async (desk, { passkey }, entrance: Entrance) => {
    if (passkey === undefined)
      return wrongField("/passkey", "key missing", "The browser sent no passkey; press the button again.");
    const whose = hand(desk);
    const named = `Passkey ${(await passkeys.of(desk.db, whose)).length + 1}`;
    const way = await newWay(desk, { passkey }, entrance, named, { whose, under: "/passkey" });
    return "wrong" in way ? refused("input refused", { errors: [way.wrong] }) : done(way.writes(whose));
  },
});

interface OfPasskey {
  readonly passkey: string;
}

export const renamePasskey = act({
  name: "renamePasskey",
  title: "Rename a passkey",
  fields: z.strictObject({ passkeyName: line("Name", { most: 60 }) }),
  answer,
  decide: async (desk, { passkeyName }, { passkey }: OfPasskey) =>
    done([passkeys.rename(desk.db, hand(desk), passkey, passkeyName)]),
});

export const removePasskey = act({
  name: "removePasskey",
  title: "Remove a passkey",
  fields: nothing,
  answer,
  decide: async (desk, _, { passkey }: OfPasskey) => {
    const { db } = desk;
    const [own, phrase] = [await passkeys.of(db, hand(desk)), await passphrases.setAt(db, hand(desk))];
    if (own.length === 1 && !phrase)
      return wrongField("/passkey", "key missing", "This is your only way in. Make another passkey or set a passphrase first.");
    return done([passkeys.remove(db, hand(desk), passkey), noted(desk, "passkey removed")]);
  },
});

export const setPassphrase = act({
  name: "setPassphrase",
  title: "Set the passphrase",
  fields: z.strictObject({ current: passphrase("Passphrase now"), passphrase: passphrase("New passphrase", LONG_ENOUGH) }),
  answer,
  decide: async (
    desk,
    { current = "", passphrase: wanted },
    { session, ...entrance }: Entrance & { readonly session?: string },
  ) => {
    const { db, at } = desk;
    const id = hand(desk);
    if ((await passphrases.setAt(db, id)) && !(await passphrases.matches(db, id, current, entrance.cost)))
      return wrongField("/current", "value unreadable", "This is not your passphrase now.");
    const way = await newWay(desk, { passphrase: wanted }, entrance, "");
    if ("wrong" in way) return refused("input refused", { errors: [way.wrong] });
    return done([...way.writes(id), sessions.endOthers(db, id, session, at)]);
  },
});

export const removePassphrase = act({
  name: "removePassphrase",
  title: "Remove the passphrase",
  fields: nothing,
  answer,
  decide: async (desk) => {
    if ((await passkeys.of(desk.db, hand(desk))).length === 0)
      return wrongField("/passphrase", "key missing", "This is your only way in. Make a passkey first.");
    return done([passphrases.remove(desk.db, hand(desk)), noted(desk, "passphrase removed")]);
  },
});

export const makeCodes = act({
  name: "makeCodes",
  title: "Make ten recovery codes",
  fields: nothing,
  answer,
  decide: async (desk) => {
    const { codes, writes } = await newCodes(desk, hand(desk));
    return { answer: codes, writes: [...writes, noted(desk, "recovery codes made")] };
  },
});

/** One session of one's own, or all but this one. */
export const endSessions = act({
  name: "endSessions",
  title: "Sign out there",
  fields: nothing,
  answer,
  decide: async (desk, _, on: { readonly session: string } | { readonly allBut: string | undefined }) => {
    const { db, at } = desk;
    const ending =
      "session" in on ? sessions.end(db, hand(desk), on.session, at) : sessions.endOthers(db, hand(desk), on.allBut, at);
    return done([ending, noted(desk, "session ended")]);
  },
});
