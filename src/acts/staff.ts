/**
 * Who is of the staff: added by an invitation, given a role, closed, opened again. Each change stands or falls with the line of the list of
 * sign-ins that tells of it. Whoever leaves has no way in any more, and comes back by a new invitation.
 */
import { z } from "zod";
import { apiTokens } from "../records/apiTokens.js";
import { invitations, newInvitation } from "../records/invitations.js";
import { withoutNulls } from "../records/noun.js";
import { passkeys } from "../records/passkeys.js";
import { passphrases } from "../records/passphrases.js";
import { recoveryCodes } from "../records/recoveryCodes.js";
import { sessions } from "../records/sessions.js";
import { type SignInWhat, signInEvents } from "../records/signInEvents.js";
import { newStaff, ROLES, type StaffMember, staff } from "../records/staff.js";
import type { Write } from "../records/trail.js";
import { act, type Decided, type Desk, refused, wrongField } from "./act.js";
import { choice, line } from "./field.js";
import { invitation, invitedMember, staffMember } from "./shapes/staff.js";
import { stoppedOf } from "./timer.js";

export const personName = line("Name", { most: 100, hint: "As it stands on what they sign." });
const role = choice("Role", ROLES);
const nothing = z.strictObject({});

interface OfStaff {
  readonly staff: string;
}

export interface Member extends StaffMember {
  readonly invitedUntil?: string;
}

export interface Invited {
  /** From the top of the shop's own address. */
  readonly address: string;
  readonly expiresAt: string;
}

export const addStaff = act({
  name: "addStaff",
  title: "Add someone to the staff, by an invitation",
  fields: z.strictObject({ name: personName, role }).meta({ id: "NewStaffMember" }),
  answer: invitedMember,
  decide: async (desk, value) => {
    const { db, at } = desk;
    if (await staff.named(db, value.name)) return wrongField("/name", "name taken", NAME_TAKEN);
    const row = newStaff(desk.newId(), value.name, value.role, at);
    const made = await invite(desk, row.id);
    const { nameKey: _, ...member } = row;
    return {
      answer: { ...member, invitedUntil: made.invited.expiresAt, invitation: made.invited },
      writes: [staff.adding(db, row), ...made.writes],
    };
  },
});

export const NAME_TAKEN = "Someone has an account by this name already; choose another.";

export const inviteStaff = act({
  name: "inviteStaff",
  title: "Make someone of the staff a new invitation, which ends the one before",
  fields: nothing,
  answer: invitation,
  decide: (desk, _, { staff: id }: OfStaff) =>
    about(desk, id, async ({ leftAt }) => {
      if (leftAt) return refused("not found", { detail: "The account is closed; open it again first." });
      const { invited, writes } = await invite(desk, id);
      return { answer: invited, writes };
    }),
});

export const giveRole = act({
  name: "giveRole",
  title: "Give someone of the staff a role",
  fields: z.strictObject({ role }),
  answer: staffMember,
  decide: (desk, value, { staff: id }: OfStaff) =>
    about(desk, id, async (member) => {
      if (member.role === value.role) return { answer: member };
      if (value.role !== "manager" && (await isLast(desk, member))) return refused("last manager");
      return changed(desk, member, { role: value.role }, "role changed");
    }),
});

export const closeAccount = act({
  name: "closeAccount",
  title: "Close someone's account: whatever it opened by opens nothing any more",
  fields: nothing,
  answer: staffMember,
  decide: (desk, _, { staff: id }: OfStaff) =>
    about(desk, id, async (member) => {
      if (member.leftAt) return { answer: member };
      if (await isLast(desk, member)) return refused("last manager");
      const stop = await stoppedOf(desk, member.name, "Stopped when the account was closed");
      const { answer, writes } = changed(
        desk,
        member,
        { leftAt: desk.at, joinedAt: null },
        "account closed",
        nothingOpens(desk, id),
      );
      return { answer, writes: [...writes, ...(stop?.writes ?? [])], ...(stop?.trail && { trail: stop.trail }) };
    }),
});

export const openAccount = act({
  name: "openAccount",
  title: "Open a closed account again; its person needs a new invitation",
  fields: nothing,
  answer: staffMember,
  decide: (desk, _, { staff: id }: OfStaff) =>
    about(desk, id, async (member) =>
      member.leftAt
        ? // Once more, for what began while the account was being closed.
          changed(desk, member, { leftAt: null, joinedAt: null }, "account opened again", nothingOpens(desk, id))
        : { answer: member },
    ),
});

/** For a batch: every way in that this person had, or made for others. An owner's link is the owner's, and stays. */
const nothingOpens = ({ db, at }: Desk, id: string): readonly Write[] => [
  sessions.endOthers(db, id, undefined, at),
  apiTokens.revokeAllOf(db, id, at),
  invitations.endingWith(db, id, at),
  passkeys.removeAll(db, id),
  passphrases.remove(db, id),
  recoveryCodes.removeAll(db, id),
];

/** Everyone, by name, with the invitations that are open. */
export async function everyone({ db, at }: Pick<Desk, "db" | "at">): Promise<readonly Member[]> {
  const [all, open] = await Promise.all([staff.all(db), invitations.openUntil(db, at)]);
  return all.map((member) => {
    const invitedUntil = open.get(member.id);
    return invitedUntil === undefined ? member : { ...member, invitedUntil };
  });
}

async function about<A>(desk: Desk, id: string, then: (member: Member) => Promise<Decided<A>>): Promise<Decided<A>> {
  const member = (await everyone(desk)).find((each) => each.id === id);
  return member ? then(member) : refused("not found", { detail: "There is no such account." });
}

const isLast = async ({ db }: Desk, { id, role, joinedAt, leftAt }: Member): Promise<boolean> =>
  role === "manager" && joinedAt !== undefined && leftAt === undefined && !(await staff.otherManager(db, id));

/** The trigger `staff_keep_a_manager` has the last word: of two managers who close one another at once, one is decided again. */
function changed(
  desk: Desk,
  member: Member,
  set: Parameters<typeof staff.changing>[2],
  what: SignInWhat,
  also: readonly Write[] = [],
) {
  const { db, at } = desk;
  const { id, version } = member;
  const { invitedUntil, ...now } = withoutNulls<Member>({ ...member, ...set, version: version + 1, updatedAt: at });
  const noted = signInEvents.adding(db, { what, staffId: id, byId: hand(desk) }, at);
  return {
    answer: invitedUntil && also.length === 0 ? { ...now, invitedUntil } : now,
    writes: [staff.changing(db, id, set, at), noted, ...also],
  };
}

async function invite(desk: Desk, staffId: string) {
  const { db, at } = desk;
  const byId = hand(desk);
  const { secret, row } = await newInvitation(staffId, byId, at);
  const invited: Invited = { address: `/sign-in/invitation?secret=${secret}`, expiresAt: row.expiresAt };
  const writes = [
    invitations.ending(db, staffId, at),
    invitations.adding(db, row),
    signInEvents.adding(db, { what: "invited", staffId, byId }, at),
  ];
  return { invited, writes };
}

/** The table of who may do what lets nobody come here who has no account. */
export function hand({ staff: by }: Desk): string {
  if (!by) throw new Error("Nobody is signed in.");
  return by.id;
}
