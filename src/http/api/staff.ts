/** Who is of the staff, programs' tokens, and the list of sign-ins. */
import { apiToken, signInEvent, staffMember } from "../../acts/shapes/staff.js";
import { addStaff, closeAccount, everyone, giveRole, inviteStaff, openAccount } from "../../acts/staff.js";
import { makeToken, revokeToken } from "../../acts/tokens.js";
import { apiTokens } from "../../records/apiTokens.js";
import { signInEvents } from "../../records/signInEvents.js";
import { apiDoor } from "../doors/api.js";
import { deskOf } from "../doors/desk.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";

export const staff = router();
const [tag, tokenTag] = ["staff", "tokens"];

look(staff, {
  ...{ path: "/api/staff", tag, name: "listStaff", answer: staffMember, says: "Staff" },
  title: "Everyone of the staff, by name, closed accounts too",
  all: (c) => everyone(deskOf(c)),
});

look(staff, {
  ...{ path: "/api/staff/{id}", tag, name: "findStaff", answer: staffMember, says: "The person" },
  title: "One person of the staff",
  none: "There is no such account.",
  one: async (c, { id }) => (await everyone(deskOf(c))).find((each) => each.id === id),
});

apiDoor(staff, addStaff, {
  path: "/api/staff",
  tag,
  description: "The invitation opens once and ends by itself; a new one ends it. Nobody can sign in before they opened theirs.",
  example: { name: "Ottilie Vantongeren", role: "technician" },
  on: () => ({}),
  refusals: [],
  kept: ({ invitation: { address: _, ...invitation }, ...member }) => ({ ...member, invitation }),
});
apiDoor(staff, inviteStaff, {
  path: "/api/staff/{id}/invitations",
  tag,
  description: "For whoever lost every way in, or comes back. Once it is used, what was signed in before is signed out.",
  example: {},
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found"],
  kept: ({ address: _, ...invited }) => invited,
});
apiDoor(staff, giveRole, {
  method: "put",
  path: "/api/staff/{id}/role",
  tag,
  example: { role: "manager" },
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found", "last manager"],
});
apiDoor(staff, closeAccount, {
  path: "/api/staff/{id}/closing",
  tag,
  description:
    "Sessions, tokens, passkeys, passphrase, recovery codes and open invitations end with it, all at once. A timer of theirs that runs is stopped and its time logged; it runs on where the log refuses that.",
  example: {},
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found", "last manager"],
  status: 200,
});
apiDoor(staff, openAccount, {
  path: "/api/staff/{id}/opening",
  tag,
  example: {},
  on: ({ id }) => ({ staff: id }),
  refusals: ["not found"],
  status: 200,
});

look(staff, {
  ...{ path: "/api/sign-ins", tag, name: "listSignIns", answer: signInEvent, says: "Sign-ins" },
  title: "A page of who came in, who was refused and what changed about who may, newest first",
  page: (c, limit, after) => signInEvents.latest(c.var.db, limit, after),
});

look(staff, {
  ...{ path: "/api/tokens", tag: tokenTag, name: "listTokens", answer: apiToken, says: "Tokens" },
  title: "Every token that was made, newest first, revoked ones too",
  all: (c) => apiTokens.all(c.var.db),
});

apiDoor(staff, makeToken, {
  path: "/api/tokens",
  tag: tokenTag,
  description: "It acts in the name of whoever makes it and never may more; a token makes none that may more than itself.",
  example: { name: "Till", scopes: ["read"] },
  on: () => ({}),
  refusals: [],
  kept: ({ token: _, ...kept }) => kept,
});
apiDoor(staff, revokeToken, {
  path: "/api/tokens/{id}/revocation",
  tag: tokenTag,
  example: {},
  on: ({ id }) => ({ token: id }),
  refusals: ["not found"],
  status: 200,
});
